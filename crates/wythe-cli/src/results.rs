//! `wythe results`

use std::io;

use wythe_check::lines::Status;
use wythe_eval::{JudgedFoundation, films};
use wythe_findings::Severity;
use wythe_model::Control;
use wythe_render::tables::{Standing, results};

use crate::args::When;
use crate::bill::plans::{Houses, plans};
use crate::bill::written::{TableFormat, shower, write};
use crate::exit::Exit;

/// Show the checked results of houses: outline, walls with R and U, layers with sources, control lines, rules.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe results houses/unit_4.wythe\n  wythe results unit_4 --format json")]
pub(crate) struct Results {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &Results, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&Houses::of(&args.target))? else { return Ok(Exit::Unusable) };
    let mut worst = Exit::Clean;
    for judged in &plans.judged {
        let document = results(&judged.foundation, &standing(judged), films(), &shower(&plans.opened));
        let errors: Vec<_> = judged.findings.iter().filter(|f| f.severity > Severity::Information).cloned().collect();
        worst = worst.max(write(&document, &errors, &plans.opened, args.format, color)?);
    }
    Ok(worst)
}

/// How a foundation stands with its lines and rules.
pub(crate) fn standing(judged: &JudgedFoundation) -> Standing {
    let count = |severity| judged.findings.iter().filter(|f| f.severity == severity).count();
    let lines = Control::ALL.map(|control| {
        let of = judged.traces.iter().filter(|t| t.control == control);
        let mut counts = [0; 3];
        for trace in of {
            let slot = match trace.status {
                Status::Proven => 0,
                Status::Broken => 1,
                Status::Unsure | Status::NotAsked | Status::Unsaid => 2,
            };
            counts[slot] += 1;
        }
        (control.name(), counts)
    });
    let rules = judged.rules.iter().map(|rule| {
        let of = |holds: Option<bool>| rule.cases.iter().filter(|c| c.holds == holds).count() as u64;
        let counts = [of(Some(true)), of(Some(false)), of(None)];
        (rule.rule.to_string(), rule.title.clone(), rule.source.clone(), counts)
    });
    Standing {
        found: [count(Severity::Error), count(Severity::Warning), count(Severity::Information)],
        lines: lines.to_vec(),
        rules: rules.collect(),
    }
}
