//! `takeoff`: a large house taken off whole, with its cut list and roll layouts, and how the time grows by houses.

use std::io;
use std::path::Path;

use crate::plans;
use crate::timing::{self, Run};
use crate::workplace::Workplace;

const ROUNDS: usize = 9;
/// Houses taken off together.
const MANY: [u64; 4] = [1, 4, 16, 60];

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let wythe = at.own("wythe");
    let cedar_row = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples/cedar_row");
    let lodge = cedar_row.join("houses/spruce_lodge.wythe");
    let start = Run::new("reading and checking it", &wythe).arg("check").arg("--no-cache").arg(&lodge);
    let whole = Run::new("spruce_lodge, whole", &wythe).arg("takeoff").arg(&lodge);
    for (run, median) in [&whole, &start].iter().zip(timing::medians(&[whole.clone(), start.clone()], ROUNDS)?) {
        println!("{:>24}: median {:>8.1} ms of {ROUNDS} (limit 100 ms)", run.name(), median.as_secs_f64() * 1000.0);
    }
    let mut first = None;
    for count in MANY {
        let (root, _) = plans::write_plans(&at.folder, count)?;
        let run = Run::new(format!("{count} houses"), &wythe).arg("takeoff").arg(root.join("houses"));
        let rounds = if count > 4 { 3 } else { ROUNDS };
        let median = timing::medians(std::slice::from_ref(&run), rounds)?[0].as_secs_f64();
        let one = *first.get_or_insert(median);
        println!(
            "{:>24}: median {:>8.1} ms of {rounds}, {:.2} of so many times one house",
            run.name(),
            median * 1000.0,
            median / (one * count as f64)
        );
    }
    Ok(())
}
