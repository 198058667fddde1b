//! `nesting`: sixty houses ordered together: the time of the whole order, and how far each board is from its bound.

use std::io;
use std::process::Command;
use std::time::Instant;

use crate::plans;
use crate::timing::median;
use crate::workplace::Workplace;

const HOUSES: u64 = 60;
const ROUNDS: usize = 3;

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let (root, _) = plans::write_plans(&at.folder, HOUSES)?;
    let houses = root.join("houses");
    let mut times = Vec::new();
    for _ in 0..ROUNDS {
        let start = Instant::now();
        Command::new(at.own("wythe")).arg("order").arg(&houses).output()?;
        times.push(start.elapsed());
    }
    println!("{HOUSES} houses ordered together: median {:.2} s of {ROUNDS} (limit 5 s)", median(times).as_secs_f64());
    let list = Command::new(at.own("wythe")).arg("cut-list").arg(&houses).args(["--format", "json"]).output()?;
    let text = String::from_utf8_lossy(&list.stdout).into_owned();
    // The remarks stand at the head of the document, one for each board.
    for line in text.lines().take_while(|l| !l.contains("\"pieces\"")).filter(|l| l.contains(" sheets of ")) {
        println!("    {}", line.trim().trim_matches(|c| c == '"' || c == ','));
    }
    println!("    (limit of the gap: 1 %)");
    Ok(())
}
