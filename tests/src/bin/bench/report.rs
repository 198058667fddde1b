//! `report`: the report on one house with its drawings, and the site of sixty houses, beside the check of the same
//! plans. Aims: a report in 200 ms, with PDF in 2 s, the site in 10 s on two cores.

use std::fs;
use std::io;
use std::path::Path;

use crate::timing::{self, Run};
use crate::workplace::Workplace;

const HOUSES: usize = 60;
const ROUNDS: usize = 5;

/// The houses that the sixty are made of, and the word each is renamed by.
const MODELS: [&str; 5] = ["unit_1", "unit_2", "unit_4", "unit_5", "spruce_lodge"];

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let cedar_row = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples/cedar_row");
    let plans = at.folder.join("sixty");
    write_plans(&cedar_row, &plans)?;
    let house = cedar_row.join("houses/unit_4.wythe");
    let command = || at.own("wythe");
    let runs = [
        Run::new("check of one house", command()).arg("check").arg("--no-cache").arg(&house),
        Run::new("report on one house", command()).arg("report").arg(&house).arg("-o").arg(at.folder.join("r.html")),
        Run::new("check of sixty", command()).arg("check").arg("--no-cache").arg(&plans),
        Run::new("site of sixty", command()).arg("site").arg(&plans).arg("-o").arg(at.folder.join("site")),
    ];
    println!("{HOUSES} houses after {}", MODELS.join(", "));
    timing::print(&runs, &timing::medians(&runs, ROUNDS)?, ROUNDS);
    Ok(())
}

/// Cedar Row with its houses over and over, each under a name of its own.
fn write_plans(from: &Path, to: &Path) -> io::Result<()> {
    for folder in ["climate", "codes", "costs", "library", "prices", "houses"] {
        fs::create_dir_all(to.join(folder))?;
    }
    fs::copy(from.join("wythe.toml"), to.join("wythe.toml"))?;
    for folder in ["climate", "codes", "costs", "library", "prices"] {
        for file in fs::read_dir(from.join(folder))? {
            let file = file?;
            fs::copy(file.path(), to.join(folder).join(file.file_name()))?;
        }
    }
    fs::copy(from.join("houses/cedar_row.wythe"), to.join("houses/cedar_row.wythe"))?;
    for number in 0..HOUSES {
        let model = MODELS[number % MODELS.len()];
        let text = fs::read_to_string(from.join(format!("houses/{model}.wythe")))?;
        let name = format!("{model}_{number}");
        let text = text.replace(&format!("foundation {model} "), &format!("foundation {name} "));
        fs::write(to.join(format!("houses/{name}.wythe")), text)?;
    }
    Ok(())
}
