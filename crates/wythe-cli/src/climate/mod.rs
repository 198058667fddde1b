//! The subcommands of heat and moisture: one file each, with its arguments; what they share stands here.

pub(crate) mod heat;
pub(crate) mod moisture;

use std::sync::Arc;

use wythe_assess::weather::{SiteWeather, missing};
use wythe_findings::{Finding, FindingName, Severity};
use wythe_model::Foundation;

use crate::bill::plans::Plans;

/// The weather of a house; the finding where its site names none or it cannot be read.
pub(crate) fn weather(plans: &Plans, f: &Foundation) -> Result<Arc<SiteWeather>, Box<Finding>> {
    match &f.site.climate {
        Some(file) => plans.opened.project.weather(file),
        None => Err(Box::new(missing(&f.site))),
    }
}

/// Keeps a finding once, however many houses it was found for.
pub(crate) fn add(all: &mut Vec<Finding>, found: impl IntoIterator<Item = Finding>) {
    for finding in found {
        if !all.contains(&finding) {
            all.push(finding);
        }
    }
}

/// A remark on what the check has found: a result of faulty plans is faulty.
fn remark(plans: &Plans) -> Option<String> {
    let grave = |f: &&Finding| f.severity == Severity::Error && matches!(f.name, FindingName::Code(_));
    let count = plans.judged.iter().flat_map(|j| &j.findings).filter(grave).count();
    (count > 0).then(|| format!("`wythe check` finds errors in these plans ({count}); mend them before trusting this."))
}
