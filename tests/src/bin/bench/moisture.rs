//! `moisture`: a year of hours for one house in three states on one core, a range of 200 samples on two, and how each
//! grows with states and samples.

use std::io;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use wythe_assess::moisture::{MoistureOptions, RangePlan, ranges, states};
use wythe_assess::weather::SiteWeather;
use wythe_model::Foundation;
use wythe_project::{Disk, Project, SourcePath};

use crate::timing::median;
use crate::workplace::Workplace;

const ROUNDS: usize = 9;
/// What the design asks for.
const THREE_STATES: Duration = Duration::from_millis(50);
const RANGE: Duration = Duration::from_secs(5);

pub(crate) fn run(_: &Workplace) -> io::Result<()> {
    let (house, weather) = house()?;
    let one = pool(1)?;
    let options = MoistureOptions::default();
    let hours = weather.year.hours().len();
    let (three, count) = timed(|| one.install(|| states(&house, &weather, &options).report.map_or(0, |s| s.len())));
    println!("{hours} hours, {count} states, one core: {} (limit {THREE_STATES:?})", shown(three));
    let (same, _) = timed(|| one.install(|| (0..4).map(|_| states(&house, &weather, &options)).count()));
    println!("four times the hours: {}, {:.2} of one", shown(same), same.as_secs_f64() / three.as_secs_f64());
    let two = pool(2)?;
    let mut first = None;
    for samples in [50, 100, 200, 400] {
        let plan = RangePlan { samples, seed: 1 };
        let start = Instant::now();
        let outcomes = two.install(|| ranges(&house, &weather, plan).report.map_or(0, |r| r.outcomes.len()));
        let spent = start.elapsed();
        let each = spent.as_secs_f64() / samples as f64;
        let base = *first.get_or_insert(each);
        let limit = if samples == 200 { format!(" (limit {RANGE:?})") } else { String::new() };
        println!(
            "{samples:>4} samples, {outcomes} outcomes, two cores: {}{limit}; {:.2} ms a sample, {:.2} of the first",
            shown(spent),
            1_000.0 * each,
            each / base
        );
    }
    Ok(())
}

/// A house of the example plans with its weather.
fn house() -> io::Result<(Arc<Foundation>, Arc<SiteWeather>)> {
    let lacks = |what: &str| io::Error::other(format!("the example plans lack {what}"));
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).with_file_name("examples").join("cedar_row");
    let mut project = Project::open(Disk::new(&root)?);
    let path = SourcePath::resolve(&SourcePath::root(), "houses/unit_4.wythe").ok_or_else(|| lacks("a path"))?;
    let file = project.add(path);
    project.check_affected();
    let judgement = project.judgement(file).ok_or_else(|| lacks("unit_4"))?;
    let house = judgement.foundations.first().map(|f| f.foundation.clone()).ok_or_else(|| lacks("a foundation"))?;
    let climate = house.site.climate.as_ref().ok_or_else(|| lacks("weather"))?;
    let weather = project.weather(climate).map_err(|finding| io::Error::other(finding.title))?;
    Ok((house, weather))
}

fn pool(threads: usize) -> io::Result<rayon::ThreadPool> {
    rayon::ThreadPoolBuilder::new().num_threads(threads).build().map_err(io::Error::other)
}

fn timed<T>(work: impl Fn() -> T) -> (Duration, T) {
    let mut last = work();
    let times = (0..ROUNDS).map(|_| {
        let start = Instant::now();
        last = work();
        start.elapsed()
    });
    (median(times.collect()), last)
}

fn shown(time: Duration) -> String {
    format!("{:.1} ms", 1_000.0 * time.as_secs_f64())
}
