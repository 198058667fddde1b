//! `wythe explain`

use std::io::{self, Write as _};

use serde::Serialize;
use wythe_findings::{Page, Safety, all_pages, find_page};

use crate::args::{Explain, Format};
use crate::exit::Exit;
use crate::output::{WIDTH, complain, out};

/// A page as it stands in the JSON output.
#[derive(Serialize)]
struct Written {
    code: &'static str,
    name: &'static str,
    area: &'static str,
    title: &'static str,
    severity: &'static str,
    since: &'static str,
    fix: &'static str,
    meaning: &'static str,
    on_site: &'static str,
    mend: &'static str,
}

pub(crate) fn run(args: &Explain) -> io::Result<Exit> {
    let mut out = out();
    match &args.code {
        None => match args.format {
            Format::Text => {
                for page in all_pages() {
                    writeln!(out, "{}  {:<24} {:<12} {}", page.number, page.name, page.severity.word(), page.title)?;
                }
            }
            Format::Json => write_json(&mut out, &all_pages().map(written).collect::<Vec<_>>())?,
        },
        Some(key) => {
            let Some(page) = find_page(key.trim()) else {
                unknown(key);
                return Ok(Exit::Unusable);
            };
            match args.format {
                Format::Text => write_page(&mut out, page)?,
                Format::Json => write_json(&mut out, &written(page))?,
            }
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}

fn unknown(key: &str) {
    let near = wythe_sema::closest(&key.to_lowercase(), all_pages().map(|page| page.name));
    match near {
        Some(near) => complain(&format_args!("no code is called `{key}`; did you mean `{near}`?")),
        None => complain(&format_args!("no code is called `{key}`; `wythe explain` lists all of them")),
    }
}

fn write_page(out: &mut dyn io::Write, page: &Page) -> io::Result<()> {
    writeln!(out, "{} {}: {}", page.number, page.name, page.title)?;
    writeln!(out, "{}, since {}, {}", page.severity.word(), page.since, fix_words(page))?;
    let mut paragraph = String::new();
    for line in page.body.lines().chain([""]) {
        let heading = line.strip_prefix("## ");
        if heading.is_none() && !line.is_empty() {
            paragraph.push_str(line);
            paragraph.push(' ');
            continue;
        }
        let options = textwrap::Options::new(WIDTH).initial_indent("  ").subsequent_indent("  ");
        for part in textwrap::wrap(paragraph.trim_end(), options) {
            writeln!(out, "{}", part.trim_end())?;
        }
        paragraph.clear();
        if let Some(heading) = heading {
            writeln!(out, "\n{heading}")?;
        }
    }
    Ok(())
}

const fn fix_words(page: &Page) -> &'static str {
    match page.fix {
        None => "no fix is offered",
        Some(Safety::Safe) => "a safe fix is offered",
        Some(Safety::Unsafe) => "a fix is offered that a person must agree to",
    }
}

fn written(page: &'static Page) -> Written {
    let section = |heading| page.section(heading).unwrap_or("");
    Written {
        code: page.number,
        name: page.name,
        area: page.area,
        title: page.title,
        severity: page.severity.word(),
        since: page.since,
        fix: match page.fix {
            None => "none",
            Some(Safety::Safe) => "safe",
            Some(Safety::Unsafe) => "unsafe",
        },
        meaning: section("What it means"),
        on_site: section("On site"),
        mend: section("Mend"),
    }
}

fn write_json<T: Serialize>(out: &mut dyn io::Write, value: &T) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *out, value).map_err(io::Error::other)?;
    writeln!(out)
}
