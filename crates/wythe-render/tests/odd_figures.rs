//! Whatever the figures of a house, no output holds a number that is none: every figure of the JSON of heat and moisture
//! is walked, over houses and weather drawn at random well past what is built.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::sync::Arc;

use proptest::prelude::*;
use serde_json::Value;
use uom::si::f64::{Length, Ratio, ThermalConductivity, VolumeRate};
use uom::si::length::{foot, meter};
use uom::si::ratio::percent;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::volume_rate::cubic_foot_per_minute;
use wythe_assess::heat::heat;
use wythe_assess::moisture::{MoistureOptions, RangePlan, moisture, ranges};
use wythe_assess::weather::{SiteWeather, read};
use wythe_model::fixture::rectangle;
use wythe_model::{ClimateFile, ClimateReading, Foundation, Interval, SpaceKind, StatedMonths};
use wythe_physics::quantity::celsius;
use wythe_render::Files;
use wythe_render::climate::{heat_document, moisture_document, range_tables};
use wythe_render::tables::{Document, Shower};
use wythe_source::{FileId, Span};

struct NoFiles;

impl Files for NoFiles {
    fn name(&self, _: FileId) -> String {
        String::new()
    }

    fn text(&self, _: FileId) -> &str {
        ""
    }
}

/// A house and its weather as figures.
#[derive(Clone, Copy, Debug)]
struct Odd {
    sides: (f64, f64),
    soil: f64,
    supply: f64,
    vented: bool,
    mean: f64,
    swing: f64,
    humidity: f64,
    altitude: f64,
}

fn odd() -> impl Strategy<Value = Odd> {
    let ends = |low: f64, high: f64| prop_oneof![3 => low..high, 1 => Just(low), 1 => Just(high)];
    let house = ((ends(0.5, 900.0), ends(0.5, 900.0)), ends(1e-4, 60.0), ends(0.0, 5_000.0), any::<bool>());
    let weather = (ends(-30.0, 40.0), ends(0.0, 29.0), ends(0.0, 100.0), ends(-400.0, 9_000.0));
    (house, weather).prop_map(|((sides, soil, supply, vented), (mean, swing, humidity, altitude))| Odd {
        sides,
        soil,
        supply,
        vented,
        mean,
        swing,
        humidity,
        altitude,
    })
}

fn house(odd: Odd) -> Foundation {
    let feet = Length::new::<foot>;
    let mut f = rectangle(feet(odd.sides.0), feet(odd.sides.1));
    let soil = ThermalConductivity::new::<watt_per_meter_kelvin>(odd.soil);
    Arc::make_mut(&mut f.site).soil_conductivity = Some(Interval::exact(soil));
    f.conditioning.supply_air = (odd.supply > 0.0).then(|| VolumeRate::new::<cubic_foot_per_minute>(odd.supply));
    if odd.vented {
        f.space = SpaceKind::Vented;
    }
    f
}

fn weather(odd: Odd) -> Option<Arc<SiteWeather>> {
    let month = |m: u8| odd.mean - odd.swing * (std::f64::consts::TAU * f64::from(m) / 12.0).cos();
    let months = StatedMonths {
        temperature: (0..12).map(|m| celsius(month(m))).collect(),
        relative_humidity: Some(vec![Ratio::new::<percent>(odd.humidity); 12]),
        dew_point: None,
        daily_range: None,
        wind: None,
    };
    let file = ClimateFile {
        path: "".into(),
        reading: ClimateReading::Stated(Arc::new(months)),
        altitude: Some(Length::new::<meter>(odd.altitude)),
        origin: Span::default(),
    };
    read(&file, &[]).ok()
}

/// Columns in which nothing may stand, by the schemas of the documents.
const MAY_BE_NULL: [&str; 15] = [
    "area",
    "u",
    "u_without",
    "fasteners",
    "fastener_share",
    "bare_area",
    "bare_loss",
    "bare_extra",
    "thickness",
    "r",
    "permeance",
    "wall",
    "computed",
    "declared",
    "after",
];

/// Walks all of it: no text with a number that is none in it, no quantity without a figure, and a null, which is how a
/// number that is none is written, only where there may be nothing.
fn walk(at: &str, value: &Value, faults: &mut Vec<String>) {
    match value {
        Value::Array(all) => all.iter().enumerate().for_each(|(n, v)| walk(&format!("{at}.{n}"), v, faults)),
        Value::Object(fields) => {
            for (name, v) in fields {
                if v.is_null() && !MAY_BE_NULL.contains(&name.as_str()) {
                    faults.push(format!("{at}.{name} is null"));
                }
                walk(&format!("{at}.{name}"), v, faults);
            }
        }
        Value::String(text) => {
            let word = |w: &str| w.trim_matches(|c: char| !c.is_ascii_alphabetic()).to_ascii_lowercase();
            if text.split_whitespace().any(|w| matches!(word(w).as_str(), "nan" | "inf" | "infinity")) {
                faults.push(format!("{at}: {text}"));
            }
        }
        _ => {}
    }
}

fn sound(document: &Document) -> Result<(), TestCaseError> {
    let json: Value = serde_json::from_str(&document.json().unwrap()).unwrap();
    let mut faults = Vec::new();
    walk("", &json, &mut faults);
    prop_assert!(faults.is_empty(), "{faults:#?}");
    let mut text = Vec::new();
    document.write_text(&mut text).unwrap();
    prop_assert!(!String::from_utf8(text).unwrap().contains("NaN"));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn no_output_holds_a_number_that_is_none(odd in odd()) {
        let show = Shower { display: &Default::default(), files: &NoFiles };
        let (f, weather) = (house(odd), weather(odd));
        let got = heat(&f, weather.as_deref());
        prop_assert!(got.report.is_some() || !got.findings.is_empty());
        if let Some(report) = got.report {
            sound(&heat_document(&[report], &show))?;
        }
        let Some(weather) = weather else { return Ok(()) };
        let got = moisture(&f, &weather, &MoistureOptions { start: None, close_in: false });
        prop_assert!(got.report.is_some() || !got.findings.is_empty());
        if let Some(report) = got.report {
            let mut document = moisture_document(&[report], false, &show);
            let spread = ranges(&f, &weather, RangePlan { samples: 3, seed: 1 });
            document.tables.extend(range_tables(&spread.report.into_iter().collect::<Vec<_>>()));
            sound(&document)?;
        }
    }
}

// The walk finds what it looks for.
#[test]
fn a_number_that_is_none_is_found() {
    let mut faults = Vec::new();
    walk("", &serde_json::json!({ "parts": [{ "loss": { "shown": "NaN W/K", "si": null } }] }), &mut faults);
    assert_eq!(
        faults,
        [".parts.0.loss: NaN W/K", ".parts.0.loss.si is null"].map(|f| f.replace("loss:", "loss.shown:"))
    );
}
