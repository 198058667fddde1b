//! The moisture of houses: the months of each state, the states side by side, sizes, closing days and sections.

use wythe_assess::moisture::{MoistureReport, ServiceFigures, StateRole};
use wythe_physics::quantity::RelativeHumidity;
use wythe_physics::vapor::interstitial::InterstitialVerdict;
use wythe_physics::weather::WeatherOrigin;

use super::figures::Figures;
use super::notes::{self, month};
use crate::tables::{Cell, Document, Shower, Table};

/// The moisture of houses as a document. With `hours`, every hour of every state comes first, for plots.
pub fn moisture_document(reports: &[MoistureReport], hours: bool, show: &Shower<'_>) -> Document {
    let names: Vec<&str> = reports.iter().map(|r| r.foundation.as_str()).collect();
    let mut document = Document::new("moisture", format!("Moisture of {}", names.join(", ")));
    let figures = Figures::new(show);
    for report in reports {
        document.remarks.extend(remarks(report));
    }
    if hours {
        document.tables.push(hour_table(reports, figures));
    }
    document.tables.push(months(reports, figures));
    document.tables.push(states(reports, figures));
    document.tables.push(water(reports, figures));
    document.tables.push(heat(reports, figures));
    document.tables.push(sizes(reports, figures));
    document.tables.push(closing(reports, figures));
    document.tables.push(sections(reports));
    document.tables.push(planes(reports, figures));
    let assumptions = reports.iter().map(|r| &r.assumptions);
    notes::add(&mut document, assumptions, reports.iter().flat_map(|r| &r.cautions));
    document
}

fn remarks(report: &MoistureReport) -> Vec<String> {
    let name = report.foundation;
    let mut out = vec![match report.origin {
        WeatherOrigin::Hourly => format!("{name}: weather of {}, hour by hour.", report.weather),
        WeatherOrigin::SynthesizedFromMonths => format!(
            "{name}: weather of {}, hours made from months: extremes are understated. An hourly file tells more.",
            report.weather
        ),
    }];
    let year = |role| report.states.iter().find(|s| s.role == role).map(|s| ServiceFigures::of(&s.year));
    if let (Some(closed), Some(vented)) = (year(StateRole::Service), year(StateRole::Compared)) {
        out.push(format!(
            "{name}: framing reaches {:.1} % of moisture closed and {:.1} % vented; mold index {:.1} and {:.1}; \
             most humid day {:.0} % and {:.0} %.",
            100.0 * closed.wood_moisture.value,
            100.0 * vented.wood_moisture.value,
            closed.mold.value(),
            vented.mold.value(),
            100.0 * closed.peak_humidity.ratio().value,
            100.0 * vented.peak_humidity.ratio().value,
        ));
    }
    let not_closed = report.states.iter().flat_map(|s| [s.year.water.residual, s.year.heat.residual]);
    let most = not_closed.map(|r| r.value.abs()).fold(0.0, f64::max);
    // What is under a billionth is rounding of the computer.
    let most = if most < 1e-9 { "0.0000001".to_owned() } else { format!("{:.1e}", 100.0 * most) };
    out.push(format!("{name}: the balances of heat and water close within {most} % (over 0.1 % is refused)."));
    let days = report.close_in.iter().map(|date| {
        let framing = format!("framing up {} {}", month(date.start.month), date.start.day);
        match date.close {
            Some((close, ..)) => format!("{framing}: from {} {}", month(close.month), close.day),
            None => format!("{framing}: on no day without drying it by machine"),
        }
    });
    let days: Vec<String> = days.collect();
    if !days.is_empty() {
        out.push(format!("{name}: safe to close, {}.", days.join("; ")));
    }
    out
}

fn humidity(figures: Figures<'_>, humidity: RelativeHumidity) -> Cell {
    figures.share(humidity.ratio())
}

fn months(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "months",
        "Month by month",
        &[
            ("house", "house"),
            ("state", "state"),
            ("month", "month"),
            ("outside", ">outside"),
            ("air", ">air"),
            ("humidity", ">humidity"),
            ("highest_humidity", ">highest"),
            ("wood", ">wood moisture"),
            ("highest_wood", ">highest"),
            ("condensing_hours", ">condensing h"),
            ("mold", ">mold index"),
            ("ground_water", ">from ground"),
            ("dehumidifier", ">dehumidifier"),
        ],
    );
    table.plots = true;
    for report in reports {
        for state in &report.states {
            for m in &state.year.months {
                table.row(vec![
                    Cell::text(report.foundation.as_str()),
                    Cell::text(state.year.scenario.clone()),
                    Cell::text(month(m.month)),
                    figures.temperature(m.outside),
                    figures.temperature(m.air),
                    humidity(figures, m.humidity),
                    humidity(figures, m.highest_humidity),
                    figures.share(m.wood_moisture),
                    figures.share(m.highest_wood_moisture),
                    Cell::Count(u64::from(m.condensing_hours)),
                    Cell::Number(m.mold.value(), 2),
                    figures.water_a_day(m.ground_water_per_day),
                    figures.water_a_day(m.dehumidifier_per_day),
                ]);
            }
        }
    }
    table
}

fn hour_table(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "hours",
        "Hour by hour",
        &[
            ("house", "house"),
            ("state", "state"),
            ("month", ">month"),
            ("day", ">day"),
            ("hour", ">hour"),
            ("outside", ">outside"),
            ("air", ">air"),
            ("humidity", ">humidity"),
            ("wood", ">wood moisture"),
            ("core", ">wood core"),
            ("coldest", ">coldest surface"),
            ("condenses", "condenses"),
            ("mold", ">mold index"),
        ],
    );
    table.plots = true;
    for report in reports {
        for state in &report.states {
            for h in &state.year.hours {
                table.row(vec![
                    Cell::text(report.foundation.as_str()),
                    Cell::text(state.year.scenario.clone()),
                    Cell::Count(u64::from(h.month)),
                    Cell::Count(u64::from(h.day)),
                    Cell::Count(u64::from(h.hour)),
                    figures.temperature(h.outside),
                    figures.temperature(h.air),
                    humidity(figures, h.humidity),
                    figures.share(h.wood_moisture),
                    figures.share(h.wood_core),
                    figures.temperature(h.coldest_surface),
                    Cell::Mark(h.condenses()),
                    Cell::Number(h.mold.value(), 3),
                ]);
            }
        }
    }
    table
}

fn states(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "states",
        "The states side by side",
        &[
            ("house", "house"),
            ("state", "state"),
            ("condensing_hours", ">condensing h"),
            ("most_humid_day", ">most humid day"),
            ("wood", ">wood moisture, highest"),
            ("mold", ">mold index"),
            ("sill_mold", ">at the sill"),
            ("busiest_day", ">dehumidifier, busiest day"),
            ("spin_up", ">years run before"),
            ("settled", "settled"),
        ],
    );
    for report in reports {
        for state in &report.states {
            let of = ServiceFigures::of(&state.year);
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(state.year.scenario.clone()),
                Cell::Count(u64::from(state.year.condensing_hours())),
                humidity(figures, of.peak_humidity),
                figures.share(of.wood_moisture),
                Cell::Number(of.mold.value(), 2),
                Cell::Number(of.sill_mold.value(), 2),
                figures.water_a_day(state.year.busiest_dehumidifier_day()),
                Cell::Count(u64::from(state.year.spin_up.years)),
                Cell::text(if state.year.spin_up.settled { "yes" } else { "NO: it builds up" }),
            ]);
        }
    }
    table
}

fn water(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "water",
        "Water into the air of the space over the year (balanced to 0.1 %, 1000 ppm, or refused)",
        &[
            ("house", "house"),
            ("state", "state"),
            ("sheet", ">sheet"),
            ("laps", ">laps"),
            ("bare", ">bare ground"),
            ("walls", ">walls"),
            ("outside", ">outside air"),
            ("house_air", ">house air"),
            ("release", ">new materials"),
            ("dehumidifier", ">dehumidifier"),
            ("drained", ">run off"),
            ("stored", ">stored"),
            ("residual", ">not closed, ppm"),
        ],
    );
    for report in reports {
        for state in &report.states {
            let w = &state.year.water;
            let mut row = vec![Cell::text(report.foundation.as_str()), Cell::text(state.year.scenario.clone())];
            let flows = [
                w.sheet,
                w.laps,
                w.bare_soil,
                w.walls,
                w.outside_air,
                w.house_air,
                w.release,
                w.dehumidifier,
                w.drained,
                w.stored,
            ];
            row.extend(flows.map(|mass| figures.mass(mass)));
            row.push(Cell::Number(1e6 * w.residual.value, 3));
            table.row(row);
        }
    }
    table
}

fn heat(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "heat",
        "Heat into the space over the year (balanced to 0.1 %, 1000 ppm, or refused)",
        &[
            ("house", "house"),
            ("state", "state"),
            ("walls", ">walls"),
            ("ground", ">ground"),
            ("above", ">house above"),
            ("air", ">air"),
            ("equipment", ">equipment"),
            ("stored", ">stored"),
            ("residual", ">not closed, ppm"),
        ],
    );
    for report in reports {
        for state in &report.states {
            let h = &state.year.heat;
            let mut row = vec![Cell::text(report.foundation.as_str()), Cell::text(state.year.scenario.clone())];
            row.extend([h.walls, h.ground, h.house, h.air, h.equipment, h.stored].map(|e| figures.energy(e)));
            row.push(Cell::Number(1e6 * h.residual.value, 3));
            table.row(row);
        }
    }
    table
}

fn sizes(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "sizes",
        "Sizes: one way of conditioning is enough; the code's least beside the load",
        &[
            ("house", "house"),
            ("way", "way"),
            ("code", ">code, least"),
            ("computed", ">computed, alone"),
            ("declared", ">declared"),
            ("remark", "remark"),
        ],
    );
    for report in reports {
        let (s, name) = (&report.sizing, report.foundation.as_str());
        let load = s.load.as_ref();
        let mut row = |way: &str, code: Cell, computed: Cell, declared: Cell, remark: String| {
            table.row(vec![Cell::text(name), Cell::text(way), code, computed, declared, Cell::text(remark)]);
        };
        let found = |flow: Option<uom::si::f64::VolumeRate>| flow.map_or(Cell::Empty, |f| figures.flow(f));
        let short = |flow: Option<uom::si::f64::VolumeRate>| match (load, flow) {
            (Some(_), None) => "five times the code's least does not keep 65 %".to_owned(),
            _ => String::new(),
        };
        if let Some(load) = load {
            row(
                "supply air",
                figures.flow(s.code.supply),
                found(load.supply),
                found(s.declared_supply),
                short(load.supply),
            );
            row(
                "exhaust",
                figures.flow(s.code.exhaust),
                found(load.exhaust),
                found(s.declared_exhaust),
                short(load.exhaust),
            );
            let declared = s.declared_dehumidifier.map_or(Cell::Empty, |rate| {
                figures.water_a_day(uom::si::f64::Mass::new::<uom::si::mass::kilogram>(rate.value * 1_000.0 * 86_400.0))
            });
            let peak = format!(
                "busiest day in {}: {} at {} and {}; rated at 80 degF and 60 %",
                month(load.peak_month),
                figures.water_a_day(load.peak_day).shown(),
                figures.temperature(load.air.0).shown(),
                humidity(figures, load.air.1).shown(),
            );
            row(
                "dehumidifier",
                figures.water_rate(s.code.dehumidifier),
                figures.water_rate(load.dehumidifier),
                declared,
                peak,
            );
        }
        let (vents, cover) = if s.class_i_cover {
            (s.code.vents_covered, "1/1500 over a cover of class I; 1/150 without")
        } else {
            (s.code.vents, "1/150; the cover is not of class I")
        };
        row("vents, where vented", figures.area(vents), Cell::Empty, figures.area(s.drawn_vents), cover.into());
    }
    table
}

fn closing(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "closing",
        "When it may be closed, by the day the framing goes up",
        &[
            ("house", "house"),
            ("start", "framing"),
            ("phases", ">days by the phases"),
            ("close", "safe from"),
            ("after", ">days"),
            ("wood", ">framing then"),
        ],
    );
    let day = |start: wythe_assess::moisture::Start| format!("{} {}", month(start.month), start.day);
    for report in reports {
        for date in &report.close_in {
            let days = |time: uom::si::f64::Time| Cell::Number(time.value / 86_400.0, 0);
            let mut row =
                vec![Cell::text(report.foundation.as_str()), Cell::text(day(date.start)), days(date.by_phases)];
            match date.close {
                Some((close, after, wood)) => {
                    row.extend([Cell::text(day(close)), days(after), figures.share(wood)]);
                }
                None => row.push(Cell::text("no day of the year: dry it by machine first")),
            }
            table.row(row);
        }
    }
    table
}

/// The planes that hold water at some time, month by month.
fn planes(reports: &[MoistureReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "planes",
        "The planes of these sections that hold water, month by month",
        &[
            ("house", "house"),
            ("section", "section"),
            ("plane", "outside of"),
            ("month", "month"),
            ("temperature", ">temperature"),
            ("change", ">condenses, dries"),
            ("held", ">held at the end"),
        ],
    );
    let areal =
        |value: f64| Cell::Quantity { shown: format!("{:.0} g/m2", 1_000.0 * value), si: value + 0.0, unit: "kg/m2" };
    for report in reports {
        for section in &report.sections {
            for (plane, layer) in section.layers.iter().enumerate() {
                let months = || section.year.months.iter().filter_map(|m| Some((m, m.held.get(plane)?.value)));
                if months().all(|(_, held)| held <= 0.0) {
                    continue;
                }
                for (m, held) in months() {
                    let (Some(t), Some(change)) = (m.temperatures.get(plane), m.change.get(plane)) else { continue };
                    table.row(vec![
                        Cell::text(report.foundation.as_str()),
                        Cell::text(section.name.clone()),
                        Cell::text(layer.as_str()),
                        Cell::text(month((m.month % 12) as u8 + 1)),
                        figures.temperature(*t),
                        areal(change.value),
                        areal(held),
                    ]);
                }
            }
        }
    }
    table
}

fn sections(reports: &[MoistureReport]) -> Table {
    let mut table = Table::new(
        "sections",
        "Condensation inside the walls by months, ISO 13788",
        &[
            ("house", "house"),
            ("section", "section"),
            ("layers", "from inside out"),
            ("verdict", "verdict"),
            ("peak", ">most held"),
        ],
    );
    for report in reports {
        for section in &report.sections {
            let layers: Vec<&str> = section.layers.iter().map(|l| l.as_str()).collect();
            let peak = section.peak.value;
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(section.name.clone()),
                Cell::text(layers.join(", ")),
                Cell::text(match section.verdict {
                    InterstitialVerdict::Free => "none",
                    InterstitialVerdict::DriesOut => "dries within the year",
                    InterstitialVerdict::Accumulates => "BUILDS UP",
                }),
                Cell::Quantity { shown: format!("{:.0} g/m2", 1_000.0 * peak), si: peak, unit: "kg/m2" },
            ]);
        }
    }
    table
}
