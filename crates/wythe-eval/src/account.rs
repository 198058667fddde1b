//! The account of the rules: each rule that was asked of a foundation, how it came out, where, and on what evidence.
//!
//! For whoever must see why a rule passes: an inspector's sheet, `wythe rules`. Judge with `Setting::evidence` on, then
//! [`JudgedFoundation::account`].

use wythe_findings::FindingName;

use crate::{JudgedFoundation, RuleCase, RuleOutcome, Waiver};

/// How a rule came out, the worst first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub enum Verdict {
    /// It is broken.
    Broken,
    /// It could not be worked out.
    Failed,
    /// It holds for part of what a figure may be, and not for the rest.
    Unsure,
    /// It is broken, and a waiver covers that.
    Waived,
    /// It is met.
    Met,
    /// It requires nothing itself, and has the compiler's own checks ask for something else.
    InForce,
    /// Nothing here is asked.
    NotApplicable,
}

impl Verdict {
    /// All, the worst first.
    pub const ALL: [Verdict; 7] = [
        Verdict::Broken,
        Verdict::Failed,
        Verdict::Unsure,
        Verdict::Waived,
        Verdict::Met,
        Verdict::InForce,
        Verdict::NotApplicable,
    ];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Verdict::Broken => "broken",
            Verdict::Failed => "cannot be worked out",
            Verdict::Unsure => "not sure",
            Verdict::Waived => "waived",
            Verdict::Met => "met",
            Verdict::InForce => "in force",
            Verdict::NotApplicable => "does not apply",
        }
    }

    /// Its name for programs.
    pub const fn name(self) -> &'static str {
        match self {
            Verdict::Broken => "broken",
            Verdict::Failed => "failed",
            Verdict::Unsure => "unsure",
            Verdict::Waived => "waived",
            Verdict::Met => "met",
            Verdict::InForce => "in_force",
            Verdict::NotApplicable => "not_applicable",
        }
    }
}

/// One rule, as it came out for a foundation.
#[derive(Clone, Debug)]
pub struct RuleAccount<'a> {
    /// What was asked, with its title, source, reason and the parts it left out.
    pub outcome: &'a RuleOutcome,
    /// How it came out: as its worst case did.
    pub verdict: Verdict,
    /// Each case with its verdict, and the waiver that covers it.
    pub cases: Vec<CaseAccount<'a>>,
}

/// One case of a rule.
#[derive(Clone, Copy, Debug)]
pub struct CaseAccount<'a> {
    /// The part looked at, with its evidence.
    pub case: &'a RuleCase,
    /// How it came out.
    pub verdict: Verdict,
    /// What covers it, where it is waived.
    pub waiver: Option<&'a Waiver>,
}

impl JudgedFoundation {
    /// Every rule that was asked, in the order the rules are in force.
    pub fn account(&self) -> Vec<RuleAccount<'_>> {
        self.rules.iter().map(|outcome| self.account_of(outcome)).collect()
    }

    fn account_of<'a>(&'a self, outcome: &'a RuleOutcome) -> RuleAccount<'a> {
        let cases: Vec<CaseAccount<'_>> = outcome.cases.iter().map(|case| self.case(outcome, case)).collect();
        let failed = outcome.findings.iter().any(|f| matches!(&f.name, FindingName::Code(_)));
        let worst = cases.iter().map(|case| case.verdict).min();
        let verdict = match worst {
            worst if failed => worst.map_or(Verdict::Failed, |w| w.min(Verdict::Failed)),
            Some(worst) => worst,
            None if !outcome.asks.is_empty() => Verdict::InForce,
            None => Verdict::NotApplicable,
        };
        RuleAccount { outcome, verdict, cases }
    }

    fn case<'a>(&'a self, outcome: &RuleOutcome, case: &'a RuleCase) -> CaseAccount<'a> {
        let verdict = match case.holds {
            Some(true) => return CaseAccount { case, verdict: Verdict::Met, waiver: None },
            Some(false) => Verdict::Broken,
            None if case.unsure => Verdict::Unsure,
            None => Verdict::Failed,
        };
        let item = match case.item.as_str() {
            "" => self.foundation.name.to_string(),
            part => format!("{}.{part}", self.foundation.name),
        };
        let covered = self.waived.iter().find(|(finding, _)| {
            finding.item == item && matches!(&finding.name, FindingName::Rule(name) if *name == outcome.rule)
        });
        match covered {
            Some((_, waiver)) => CaseAccount { case, verdict: Verdict::Waived, waiver: Some(waiver) },
            None => CaseAccount { case, verdict, waiver: None },
        }
    }
}
