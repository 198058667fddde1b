//! The day from which it is safe to close: the framing dry enough while open, and staying so when
//! closed on that day.

use uom::si::f64::{Ratio, Time};

use crate::admit;
use crate::error::Result;
use crate::mold::growth::MoldIndex;
use crate::quantity::ratio;
use crate::weather::WeatherYear;
use crate::zone::result::ZoneYear;
use crate::zone::scenario::{Beginning, Scenario};
use crate::zone::simulate::simulate;
use crate::zone::space::CrawlSpace;

/// When closing counts as safe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CloseInCriteria {
    /// Highest moisture content of the framing, core and surface; 0.19 is the common limit of dry
    /// lumber.
    pub wood_moisture: Ratio,
    /// How long it must have held while open.
    pub held: Time,
    /// How long after closing it is watched.
    pub watched: Time,
    /// Highest mold index of the framing while watched.
    pub mold: MoldIndex,
    /// Days from the start of the open run before which it may not be closed, by the phases of
    /// the work (dry-in, wet trades).
    pub not_before: Time,
}

/// A day on which closing is safe.
#[derive(Debug, Clone, PartialEq)]
pub struct CloseIn {
    /// Hours after the start of the open run.
    pub after: Time,
    /// Month of the day.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// Moisture content of the framing's core then.
    pub wood_moisture: Ratio,
    /// The year closed from that day, for the report.
    pub closed: ZoneYear,
}

/// Days between closings tried.
const STRIDE: usize = 2;

/// Runs the space open as built, and tries closing it every second midnight from the first that
/// meets the criteria. None if no day of the year does.
///
/// The built-in water not yet released at closing is taken into the closed run.
///
/// # Errors
/// As [`simulate`]; limits outside their range.
pub fn safe_to_close(
    space: &CrawlSpace,
    open: &Scenario,
    closed: &Scenario,
    weather: &WeatherYear,
    criteria: &CloseInCriteria,
) -> Result<Option<CloseIn>> {
    let limit = admit::within("moisture limit of framing", criteria.wood_moisture.value, 0.01, 0.4, "")?;
    let hours = |what: &'static str, time: Time| {
        admit::within(what, time.value / 3_600.0, 0.0, 8_760.0, "h").map(|h| h.ceil() as usize)
    };
    let held = hours("time held before closing", criteria.held)?;
    let watched = hours("time watched after closing", criteria.watched)?;
    let first = hours("earliest closing", criteria.not_before)?;
    let start = match open.beginning {
        Beginning::Periodic => 0,
        Beginning::Built { hour, .. } => hour,
    };
    let run = simulate(space, open, weather)?;
    let count = run.hours.len();
    let dry = |n: usize| {
        let h = &run.hours[n];
        h.wood_moisture.value.max(h.wood_core.value) <= limit && !h.condenses()
    };
    let mut since = 0;
    let mut next = 0;
    for n in 0..count {
        since = if dry(n) { since + 1 } else { 0 };
        if n < first || since <= held || run.hours[n].hour != 0 || n < next {
            continue;
        }
        next = n + 24 * STRIDE;
        let core = run.hours[n].wood_core;
        let mut trial = closed.clone();
        trial.beginning = Beginning::Built {
            hour: (start + n) % count,
            wood_moisture: ratio(core.value.max(run.hours[n].wood_moisture.value)),
        };
        trial.release = open.release.map(|release| {
            let gone = (n as f64) * 3_600.0 / release.time_constant.value;
            crate::zone::scenario::WaterRelease { total: release.total * ratio((-gone).exp()), ..release }
        });
        let year = simulate(space, &trial, weather)?;
        let safe = year.hours.iter().take(watched).all(|h| {
            h.wood_moisture.value.max(h.wood_core.value) <= limit && !h.condenses() && h.mold <= criteria.mold
        });
        if safe {
            return Ok(Some(CloseIn {
                after: crate::quantity::second(n as f64 * 3_600.0),
                month: run.hours[n].month,
                day: run.hours[n].day,
                wood_moisture: core,
                closed: year,
            }));
        }
    }
    Ok(None)
}
