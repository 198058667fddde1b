//! Temperature, humidity, wood moisture and mold index over the months, the states side by side.

use uom::si::ratio::percent;
use wythe_assess::moisture::{MoistureReport, StateRole, StateYear};
use wythe_physics::zone::result::ZoneMonth;
use wythe_units::UnitSystem;

use super::lines::{Level, Line, Lines, Manner, plot};
use crate::model::Plot;

const fn name(role: StateRole, alone: bool) -> &'static str {
    match role {
        StateRole::Construction => "while building",
        StateRole::Service if alone => "in service",
        StateRole::Service => "closed",
        StateRole::Compared => "vented instead",
    }
}

const fn manner(role: StateRole) -> Manner {
    match role {
        StateRole::Construction => Manner::Dashed,
        StateRole::Service => Manner::Whole,
        StateRole::Compared => Manner::Dotted,
    }
}

/// What is read off a month.
type Reading = dyn Fn(&ZoneMonth) -> f64;

fn lines(report: &MoistureReport, of: &Reading) -> Vec<Line> {
    let alone = report.states.iter().all(|s| s.role != StateRole::Compared);
    let line = |state: &StateYear| Line {
        name: name(state.role, alone).to_owned(),
        manner: manner(state.role),
        points: state.year.months.iter().map(|m| (m.month, of(m))).collect(),
    };
    report.states.iter().map(line).collect()
}

/// Where each line is highest, for those who cannot see it.
fn peaks(lines: &[Line], unit: &str, places: usize) -> String {
    const NAMES: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let peak = |line: &Line| {
        let (month, most) = line.points.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1))?;
        let month = NAMES.get(usize::from(month).checked_sub(1)?)?;
        Some(format!("{}: highest in {month} with {most:.places$} {unit}", line.name))
    };
    let said: Vec<String> = lines.iter().filter_map(peak).map(|s| s.trim_end().to_owned()).collect();
    format!("Months from January to December. {}.", said.join("; "))
}

/// The four plots.
pub(crate) fn months(report: &MoistureReport, system: UnitSystem) -> Vec<Plot> {
    let id = |what: &str| format!("{}-plot-{what}", report.foundation);
    let us = system == UnitSystem::Us;
    let degrees = move |kelvin: f64| if us { (kelvin - 273.15) * 1.8 + 32.0 } else { kelvin - 273.15 };
    let unit = if us { "°F" } else { "°C" };
    let mut warm = lines(report, &move |m| degrees(m.air.value));
    if let Some(state) = report.states.iter().find(|s| s.role == StateRole::Service) {
        let points = state.year.months.iter().map(|m| (m.month, degrees(m.outside.value))).collect();
        warm.insert(0, Line { name: "outside".into(), manner: Manner::Thin, points });
    }
    let humid = lines(report, &|m| m.humidity.ratio().get::<percent>());
    let wood = lines(report, &|m| m.wood_moisture.get::<percent>());
    let mold = lines(report, &|m| m.mold.value());
    let least = if us { (40.0, 70.0) } else { (5.0, 20.0) };
    let draw = |what: &str, title: String, lines: Vec<Line>, unit: &str, places, level, least| {
        let description = peaks(&lines, unit, places);
        plot(&Lines { id: id(what), title, description, lines, level, least })
    };
    vec![
        draw("temperature", format!("Air temperature, mean of the month, {unit}"), warm, unit, 0, None, least),
        draw(
            "humidity",
            "Relative humidity, mean of the month, %".into(),
            humid,
            "%",
            0,
            Some(Level { at: 80.0, name: "80 %: mold may grow above" }),
            (40.0, 100.0),
        ),
        draw(
            "wood",
            "Moisture of the framing, mean of the month, %".into(),
            wood,
            "%",
            1,
            Some(Level { at: 19.0, name: "19 %: wood is kept below" }),
            (8.0, 22.0),
        ),
        draw(
            "mold",
            "Mold index at the end of the month (screening)".into(),
            mold,
            "",
            1,
            Some(Level { at: 1.0, name: "1: seen under a microscope" }),
            (0.0, 1.5),
        ),
    ]
}
