//! `wythe what-if`

use std::io;

use wythe_assess::moisture::service_figures;
use wythe_bill::outcome::{Damp, Outcome};
use wythe_model::{Foundation, Ratio};
use wythe_render::tables::what_if;
use wythe_takeoff::pareto::{Aim, unbeaten};

use super::plans::{Houses, Plans, plans};
use super::substitute::{Substituted, substitute};
use super::thickness;
use super::vary::{Variation, combinations};
use super::worked::{Worked, worked};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// The most ways one what-if works out.
const MOST_WAYS: usize = 200;

/// Vary arguments and properties of a foundation, and lay the outcomes side by side. No file is changed.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe what-if unit_4 --vary board=foil_board_1_5in,foil_board_2in --vary gap='3\",4\"'\n  wythe what-if unit_4 --vary gap='3\"..6\" by 1\"'\n  wythe what-if unit_4 --vary 'board: [1.5 in, 2 in, 3 in]'"
)]
pub(crate) struct WhatIf {
    #[command(flatten)]
    pub houses: Houses,
    /// A name of an argument or a property, and its values: a list parted by commas, or `from..to by step`. A thickness
    /// stands for the product of that thickness.
    #[arg(long, value_name = "NAME=VALUES", required = true)]
    pub vary: Vec<Variation>,
    /// The price list to use, where there are several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &WhatIf, color: When) -> io::Result<Exit> {
    let Some(mut plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    if plans.judged.len() != 1 {
        let names: Vec<&str> = plans.judged.iter().map(|j| j.foundation.name.as_str()).collect();
        complain(&format_args!("name one foundation to vary: {}", names.join(", ")));
        return Ok(Exit::Unusable);
    }
    let def = plans.judged[0].def;
    let vary: Result<Vec<Variation>, String> = args.vary.iter().map(|v| thickness::chosen(&plans, def, v)).collect();
    let vary = match vary {
        Ok(vary) => vary,
        Err(why) => {
            complain(&why);
            return Ok(Exit::Unusable);
        }
    };
    let ways = combinations(&vary);
    if ways.len() > MOST_WAYS {
        complain(&format_args!("{} ways; {MOST_WAYS} are the limit", ways.len()));
        return Ok(Exit::Unusable);
    }
    let name = plans.judged[0].foundation.name;
    let names: Vec<String> = args.vary.iter().map(|v| v.name.clone()).collect();
    let outcomes = match outcomes(&mut plans, &args.houses, args.prices.as_deref(), &names, &ways) {
        Ok(outcomes) => outcomes,
        Err(why) => {
            complain(&why);
            return Ok(Exit::Unusable);
        }
    };
    let figures: Vec<_> =
        outcomes.iter().map(|o| o.as_ref().map(|(worked, damp)| Outcome { damp: *damp, ..worked.outcome() })).collect();
    let aims = [Aim::Least, Aim::Most, Aim::Least, Aim::Least, Aim::Least, Aim::Least];
    let rows: Vec<Vec<Option<f64>>> = figures
        .iter()
        .map(|o| match o {
            None => vec![None; aims.len()],
            Some(o) => vec![
                o.total.or(o.goods).and_then(|m| m.amount.to_string().parse().ok()),
                o.thermal.map(|t| t.r.value),
                Some(o.sheets as f64),
                o.crew_days.map(|d| d.value).or(Some(0.0)),
                // Two figures of the same air: the mold index decides, and the humidity where it does not.
                o.damp.map(|d| (d.mold.value * 1e3).round() + d.humidity.value).or(Some(0.0)),
                Some(o.errors as f64),
            ],
        })
        .collect();
    let marks = unbeaten(&rows, &aims);
    let ways: Vec<_> = ways.into_iter().zip(figures).zip(marks).map(|((way, o), mark)| (way, o, mark)).collect();
    let document = what_if(name.as_str(), &names, &ways, &shower(&plans.opened));
    write(&document, &[], &plans.opened, args.format, color)
}

/// What the space in service does in a year of the site's weather; nothing where the site names none.
fn damp(plans: &Plans, f: &Foundation) -> Option<Damp> {
    let weather = plans.opened.project.weather(f.site.climate.as_ref()?).ok()?;
    let figures = service_figures(f, &weather, plans.opened.project.moisture_memo()).report?;
    let plain = |value: f64| Ratio::new::<uom::si::ratio::ratio>(value);
    Some(Damp { humidity: figures.peak_humidity.ratio(), mold: plain(figures.mold.value()) })
}

/// The house worked out each way; nothing for a way that cannot be built. The plans are left as the last way has them.
///
/// # Errors
/// In words, where nothing in the house has one of the names.
pub(crate) fn outcomes(
    plans: &mut Plans,
    houses: &Houses,
    prices: Option<&str>,
    names: &[String],
    ways: &[Vec<String>],
) -> Result<Vec<Option<(Worked, Option<Damp>)>>, String> {
    let def = plans.judged[0].def;
    let name = plans.judged[0].foundation.name;
    let Some(path) = plans.opened.project.entry(def.file).map(|e| e.path.clone()) else { return Ok(Vec::new()) };
    // The texts first: each is made from the file as it stands.
    let mut texts = Vec::new();
    for way in ways {
        let values: Vec<(&str, &str)> = names.iter().map(String::as_str).zip(way.iter().map(String::as_str)).collect();
        match substitute(&plans.opened.project, def, &values) {
            Substituted::Text(text) => texts.push(text),
            Substituted::Unknown(lost) => {
                return Err(format!("nothing in `{name}` is called `{lost}`: no argument, no parameter, no property"));
            }
        }
    }
    let mut outcomes: Vec<Option<(Worked, Option<Damp>)>> = Vec::new();
    for text in texts {
        plans.opened.project.set_text(path.clone(), text);
        plans.opened.project.check_affected();
        let judged = plans.opened.project.judgement(def.file).and_then(|j| {
            let found = j.foundations.iter().find(|f| f.foundation.name == name)?;
            let broken = plans.opened.project.findings_in(def.file);
            // What does not read or does not type is no way to build.
            let sound = !broken.iter().any(is_unsound);
            sound.then(|| found.clone())
        });
        outcomes.push(judged.map(|j| {
            let damp = damp(plans, &j.foundation);
            plans.judged = vec![j];
            (worked(plans, houses, prices, None), damp)
        }));
    }
    Ok(outcomes)
}

/// Whether a finding says that the text does not read, or that its names and types do not fit.
fn is_unsound(finding: &wythe_findings::Finding) -> bool {
    match &finding.name {
        wythe_findings::FindingName::Code(code) => {
            let page = code.page();
            finding.severity == wythe_findings::Severity::Error
                && matches!(page.area, "syntax" | "names" | "types" | "values")
        }
        wythe_findings::FindingName::Rule(_) => false,
    }
}
