//! `wythe rules`

use std::fmt::Write as _;
use std::io::{self, Write as _};
use std::path::PathBuf;

use jiff::civil::Date;
use serde_json::{Value, json};
use wythe_eval::{CaseAccount, Evidence, JudgedFoundation, RuleAccount, Verdict, Waiver};
use wythe_findings::Severity;
use wythe_render::Files as _;
use wythe_render::terminal::clean;
use wythe_source::{LineTable, Span};

use crate::args::{Format, When};
use crate::bill::plans::{Houses, Plans, plans};
use crate::exit::Exit;
use crate::output::{WIDTH, complain, out, style};

/// Show every rule that is asked of houses: how it comes out, where, by which layer and which value, and its source.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe rules unit_4\n  wythe rules houses/unit_4.wythe --rule closed_turn_up\n  wythe rules unit_4 --verdict waived\n  wythe rules unit_4 --format json"
)]
pub(crate) struct Rules {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// Where a foundation named is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: PathBuf,
    /// Show only this rule.
    #[arg(long, value_name = "NAME")]
    pub rule: Option<String>,
    /// Show only rules that come out so.
    #[arg(long, value_enum)]
    pub verdict: Option<Asked>,
    /// The day on which waivers are judged, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<Date>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// How a rule comes out.
#[derive(clap::ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Asked {
    /// It is broken.
    Broken,
    /// It cannot be worked out.
    Failed,
    /// It holds for part of what a figure may be.
    Unsure,
    /// It is broken, and a waiver covers that.
    Waived,
    /// It is met.
    Met,
    /// It has the compiler's own checks ask for something else.
    InForce,
    /// Nothing here is asked.
    NotApplicable,
}

impl Asked {
    const fn is(self, verdict: Verdict) -> bool {
        matches!(
            (self, verdict),
            (Asked::Broken, Verdict::Broken)
                | (Asked::Failed, Verdict::Failed)
                | (Asked::Unsure, Verdict::Unsure)
                | (Asked::Waived, Verdict::Waived)
                | (Asked::Met, Verdict::Met)
                | (Asked::InForce, Verdict::InForce)
                | (Asked::NotApplicable, Verdict::NotApplicable)
        )
    }
}

pub(crate) fn run(args: &Rules, color: When) -> io::Result<Exit> {
    let houses = Houses { repository: args.repository.clone(), today: args.today, ..Houses::of(&args.target) };
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    let mut judged: Vec<JudgedFoundation> = Vec::new();
    for of_house in &plans.judged {
        let again = plans.opened.project.judged_with_evidence(of_house.def.file);
        judged.extend(again.into_iter().flat_map(|j| j.foundations).filter(|j| j.def == of_house.def));
    }
    let sheet = Sheet { plans: &plans, color: style(color).color };
    let mut text = String::new();
    let mut documents = Vec::new();
    let mut worst = Verdict::NotApplicable;
    let mut any = false;
    for house in &judged {
        let mut account = house.account();
        account.retain(|rule| args.rule.as_ref().is_none_or(|name| rule.outcome.rule.as_str() == name));
        any |= !account.is_empty();
        account.retain(|rule| args.verdict.is_none_or(|asked| asked.is(rule.verdict)));
        worst = account.iter().map(|rule| rule.verdict).chain([worst]).min().unwrap_or(worst);
        match args.format {
            Format::Text => sheet.house(house, &account, &mut text),
            Format::Json => documents.push(sheet.json(house, &account)),
        }
    }
    if let Some(name) = args.rule.as_ref().filter(|_| !any) {
        complain(&format_args!("no rule called `{name}` is asked of these houses"));
        return Ok(Exit::Unusable);
    }
    let mut out = out();
    if args.format == Format::Json {
        text = serde_json::to_string_pretty(&json!({ "form": 1, "kind": "rules", "houses": documents }))
            .map_err(io::Error::other)?;
        text.push('\n');
    }
    out.write_all(text.as_bytes())?;
    out.flush()?;
    Ok(if worst <= Verdict::Unsure { Exit::Findings } else { Exit::Clean })
}

/// How many parts are named in a row.
const MOST_NAMES: usize = 24;

/// How wide the column of what is asked may grow.
const MOST_ASKED: usize = 44;

/// Cases of one rule that came out alike and on the same evidence.
struct Alike<'a> {
    first: CaseAccount<'a>,
    items: Vec<&'a str>,
}

fn alike<'a>(rule: &RuleAccount<'a>) -> Vec<Alike<'a>> {
    let mut out: Vec<Alike<'a>> = Vec::new();
    for case in &rule.cases {
        let same = out.iter_mut().find(|a| {
            a.first.verdict == case.verdict
                && a.first.waiver == case.waiver
                && a.first.case.evidence == case.case.evidence
        });
        match same {
            Some(same) => same.items.push(&case.case.item),
            None => out.push(Alike { first: *case, items: vec![&case.case.item] }),
        }
    }
    out
}

struct Sheet<'a> {
    plans: &'a Plans,
    color: bool,
}

impl Sheet<'_> {
    fn place(&self, span: Span) -> String {
        let text = self.plans.opened.text(span.file);
        format!("{}:{}", self.plans.opened.name(span.file), LineTable::new(text).line_of(span.start) + 1)
    }

    /// How grave a breach is here: the manifest's word over the rule's.
    fn severity(&self, rule: &RuleAccount<'_>) -> Option<Severity> {
        self.plans.opened.project.manifest().weigh(rule.outcome.rule.as_str(), rule.outcome.severity)
    }

    fn painted(&self, verdict: Verdict) -> String {
        let color = match verdict {
            Verdict::Broken | Verdict::Failed => "31",
            Verdict::Unsure | Verdict::Waived => "33",
            Verdict::Met | Verdict::InForce => "32",
            Verdict::NotApplicable => "2",
        };
        let words = verdict.words();
        if self.color { format!("\x1b[{color}m{words}\x1b[0m") } else { words.to_owned() }
    }

    fn house(&self, house: &JudgedFoundation, account: &[RuleAccount<'_>], out: &mut String) {
        let name = house.foundation.name;
        let line = |out: &mut String, text: &str| out.push_str(&format!("{text}\n"));
        if !out.is_empty() {
            line(out, "");
        }
        line(out, &format!("Rules asked of {name}, {}", self.place(house.foundation.origin)));
        let counts: Vec<String> = Verdict::ALL
            .into_iter()
            .filter_map(|verdict| {
                let count = account.iter().filter(|rule| rule.verdict == verdict).count();
                let words = if (verdict, count > 1) == (Verdict::NotApplicable, true) {
                    "do not apply"
                } else {
                    verdict.words()
                };
                (count > 0).then(|| format!("{count} {words}"))
            })
            .collect();
        line(out, &if counts.is_empty() { "none".to_owned() } else { counts.join(", ") });
        let mut pack = None;
        for rule in account {
            let file = rule.outcome.origin.file;
            if pack != Some(file) {
                pack = Some(file);
                line(out, "");
                line(out, &self.plans.opened.name(file));
            }
            self.rule(rule, out);
        }
    }

    fn rule(&self, rule: &RuleAccount<'_>, out: &mut String) {
        let o = rule.outcome;
        let grave = match self.severity(rule) {
            None => ", passed over by the manifest".to_owned(),
            Some(Severity::Error) => String::new(),
            Some(severity) => format!(" ({})", severity.word()),
        };
        let mut text = format!("  {}: {}{grave}: {}\n", o.rule, self.painted(rule.verdict), clean(&o.title));
        if !o.source.is_empty() {
            wrapped(&mut text, "      source: ", &clean(&o.source));
        }
        for place in &o.amended {
            let _ = writeln!(text, "      amended: {}", self.place(*place));
        }
        for asking in &o.asks {
            let line = format!("{} {}, at {}", asking.name, asking.shown, self.place(asking.place));
            wrapped(&mut text, "      asks for: ", &clean(&line));
        }
        for group in alike(rule) {
            self.group(rule, &group, &mut text);
        }
        if rule.cases.is_empty() || rule.verdict == Verdict::NotApplicable {
            for left in &o.left_out {
                let items: Vec<&str> = left.items.iter().map(String::as_str).collect();
                let items = listed(&items);
                wrapped(&mut text, "      left out: ", &format!("{} ({items})", clean(&left.condition)));
            }
            if o.left_out.is_empty() && rule.verdict == Verdict::NotApplicable {
                text.push_str("      there is no such part\n");
            }
        }
        for finding in o.findings.iter().filter(|_| rule.verdict == Verdict::Failed) {
            wrapped(&mut text, "      ", &clean(&finding.title));
        }
        out.push_str(&text);
    }

    fn group(&self, rule: &RuleAccount<'_>, group: &Alike<'_>, out: &mut String) {
        let case = group.first;
        let items: Vec<&str> = group.items.iter().copied().filter(|item| !item.is_empty()).collect();
        let verdict =
            if case.verdict == rule.verdict { String::new() } else { format!("{}: ", self.painted(case.verdict)) };
        match items.as_slice() {
            [] => {}
            [one] => {
                let place = self.place(case.case.place);
                wrapped(out, &format!("    {verdict}"), &format!("{one}, {place}"));
            }
            many => wrapped(out, &format!("    {verdict}"), &listed(many)),
        }
        if let Some(said) = case.case.said.as_ref().filter(|_| group.items.len() == 1) {
            wrapped(out, "      ", &clean(said));
        }
        if let Some(waiver) = case.waiver {
            wrapped(out, "      ", &clean(&self.waived(waiver)));
        }
        let evidence = &case.case.evidence;
        let short = evidence.iter().map(|e| e.asked.chars().count()).filter(|n| *n <= MOST_ASKED);
        let wide = short.max().unwrap_or(0);
        for (at, one) in evidence.iter().enumerate() {
            if one.asked.chars().count() <= MOST_ASKED {
                wrapped(out, "      ", &clean(&format!("{:wide$}  {}", one.asked, one.found)));
            } else {
                wrapped(out, "      ", &clean(&format!("{}: {}", one.asked, one.found)));
            }
            // What was looked at for several in a row is told under the last of them.
            let again = evidence.get(at + 1).is_some_and(|next| next.seen == one.seen);
            if let Some(seen) = self.seen(one).filter(|_| !again) {
                wrapped(out, "        ", &clean(&seen));
            }
        }
    }

    fn waived(&self, waiver: &Waiver) -> String {
        let until = waiver.until.map_or(String::new(), |day| format!(" until {day}"));
        format!("waived{until} by {}: {} ({})", waiver.who, waiver.because, self.place(waiver.span))
    }

    fn seen(&self, evidence: &Evidence) -> Option<String> {
        let parts: Vec<String> =
            evidence.seen.iter().map(|seen| format!("{} at {}", seen.what, self.place(seen.place))).collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }

    fn json(&self, house: &JudgedFoundation, account: &[RuleAccount<'_>]) -> Value {
        json!({
            "house": house.foundation.name.as_str(),
            "place": self.place(house.foundation.origin),
            "rules": account.iter().map(|rule| self.json_rule(rule)).collect::<Vec<_>>(),
        })
    }

    fn json_rule(&self, rule: &RuleAccount<'_>) -> Value {
        let o = rule.outcome;
        json!({
            "rule": o.rule.as_str(),
            "title": o.title,
            "verdict": rule.verdict.name(),
            "severity": self.severity(rule).map_or("off", Severity::word),
            "because": o.because,
            "source": o.source,
            "place": self.place(o.origin),
            "amended": o.amended.iter().map(|place| self.place(*place)).collect::<Vec<_>>(),
            "asks": o.asks.iter()
                .map(|a| json!({ "name": a.name.as_str(), "figure": a.shown, "place": self.place(a.place) }))
                .collect::<Vec<_>>(),
            "left_out": o.left_out.iter().map(|left| json!({ "condition": left.condition, "items": left.items }))
                .collect::<Vec<_>>(),
            "cases": rule.cases.iter().map(|case| self.json_case(case)).collect::<Vec<_>>(),
        })
    }

    fn json_case(&self, case: &CaseAccount<'_>) -> Value {
        let evidence = case.case.evidence.iter().map(|evidence| {
            let seen = evidence.seen.iter().map(
                |seen| json!({ "what": seen.what, "place": self.place(seen.place), "source": seen.source.as_deref() }),
            );
            json!({
                "asked": evidence.asked,
                "found": evidence.found,
                "holds": evidence.holds,
                "seen": seen.collect::<Vec<_>>(),
            })
        });
        let waiver = case.waiver.map(|waiver| {
            json!({
                "who": &*waiver.who,
                "because": &*waiver.because,
                "until": waiver.until.map(|day| day.to_string()),
                "place": self.place(waiver.span),
            })
        });
        json!({
            "item": case.case.item,
            "place": self.place(case.case.place),
            "verdict": case.verdict.name(),
            "said": case.case.said,
            "waiver": waiver,
            "evidence": evidence.collect::<Vec<_>>(),
        })
    }
}

/// Names in a row; a long row is cut and counted.
fn listed(names: &[&str]) -> String {
    let shown = &names[..names.len().min(MOST_NAMES)];
    let more = names.len() - shown.len();
    if more == 0 { shown.join(", ") } else { format!("{} and {more} more", shown.join(", ")) }
}

/// Text under a head, wrapped with its further lines as far in.
fn wrapped(out: &mut String, head: &str, text: &str) {
    let indent = " ".repeat(head.len() - head.trim_start().len() + 2);
    let whole = format!("{head}{text}");
    for line in textwrap::wrap(&whole, textwrap::Options::new(WIDTH).subsequent_indent(&indent)) {
        out.push_str(&line);
        out.push('\n');
    }
}
