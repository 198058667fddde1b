//! `packs`: what all code packs add to the check of 1,000 houses, as a share of the check without any, in one run.

use std::{fs, io};

use wythe_project::built_in_packs;

use crate::plans;
use crate::timing::{self, Run};
use crate::workplace::Workplace;

const HOUSES: u64 = 1000;
const ROUNDS: usize = 9;

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let (plain, _) = plans::write_plans(&at.folder, HOUSES)?;
    let (packed, _) = plans::write_plans(&at.folder.join("packs"), HOUSES)?;
    let names: Vec<String> = built_in_packs().map(|(name, _)| format!("\"{name}\"")).collect();
    fs::write(
        packed.join("wythe.toml"),
        format!("currency = \"USD\"\nunits = \"us\"\ncodes = [{}]\n", names.join(", ")),
    )?;
    println!("{HOUSES} houses, {} packs", names.len());
    let check = |name: &str, root| Run::new(name, at.own("wythe")).arg("check").arg("--no-cache").arg(root);
    let runs = [
        Run::new("core alone", at.own("core_check")).arg(&plain).arg("layers"),
        check("with all packs", &packed),
        check("without packs", &plain),
    ];
    let medians = timing::medians(&runs, ROUNDS)?;
    timing::print(&runs, &medians, ROUNDS);
    let [core, with, without] = [0, 1, 2].map(|i| medians.get(i).copied().unwrap_or_default().as_secs_f64());
    println!(
        "the packs add {:.2} of the check without them, {:.2} of the core alone",
        (with - without) / without,
        (with - without) / core
    );
    Ok(())
}
