//! Golden plots of unit 4 over an even, damp year. Each was rendered and looked at before it was accepted; do the same
//! when one changes.

use insta::{Settings, assert_binary_snapshot};
use wythe_assess::heat::heat;
use wythe_assess::moisture::{MoistureOptions, moisture};
use wythe_assess::weather::{SiteWeather, read};
use wythe_model::fixture::unit_4;
use wythe_model::{ClimateFile, ClimateReading};
use wythe_units::UnitSystem;

use super::bars::{Bar, Bars};
use super::{bars, loss_by_part, months};
use crate::model::Plot;

fn golden(name: &str, plot: &Plot) {
    let mut settings = Settings::clone_current();
    settings.set_snapshot_path("../../../../tests/golden/plots");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| assert_binary_snapshot!(&format!("{name}.svg"), plot.svg.clone().into_bytes()));
}

fn weather() -> std::sync::Arc<SiteWeather> {
    let rows = (1..=12).map(|m| {
        let t = 12.0 - 9.0 * (std::f64::consts::TAU * (f64::from(m) - 1.0) / 12.0).cos();
        format!("{m},{t:.1},78\n")
    });
    let text = format!("month,temperature_c,relative_humidity_pct\n{}", rows.collect::<String>());
    let origin = unit_4().origin;
    let file = ClimateFile { path: "even.csv".into(), reading: ClimateReading::Monthly, altitude: None, origin };
    read(&file, text.as_bytes()).unwrap()
}

#[test]
fn the_months_and_the_loss_of_unit_4() {
    let (f, site) = (unit_4(), weather());
    let options = MoistureOptions { start: None, close_in: false };
    let report = moisture(&f, &site, &options).report.unwrap();
    let us = months(&report, UnitSystem::Us);
    let names = ["temperature", "humidity", "wood", "mold"];
    for (name, plot) in names.iter().zip(&us) {
        golden(name, plot);
    }
    golden("temperature_si", &months(&report, UnitSystem::Si)[0]);
    let heat = heat(&f, Some(&site)).report.unwrap();
    golden("loss", &loss_by_part(&heat, UnitSystem::Us));
}

#[test]
fn the_cost_of_phases() {
    let bar = |name: &str, goods, labor| Bar { name: name.into(), parts: vec![goods, labor] };
    let plot = bars::plot(&Bars {
        id: "unit_4-plot-cost".into(),
        title: "Cost by phase before tax, USD".into(),
        description: "Bars of goods and labor of four phases, in USD.".into(),
        kinds: vec!["goods", "labor"],
        bars: vec![
            bar("waterproofing", 1312.0, 1344.0),
            bar("before framing", 332.0, 570.0),
            bar("rough in, with a name that is far too long to stand beside its bar", 1276.0, 2118.0),
            bar("close in", 0.0, 1550.0),
        ],
        places: 0,
    });
    golden("cost", &plot);
}
