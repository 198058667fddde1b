//! Input that cannot be: a finding at its place, never a panic and never a number that is none.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::sync::Arc;

use uom::si::f64::{Length, ThermalConductivity};
use uom::si::{length::inch, thermal_conductivity::watt_per_meter_kelvin};
use wythe_assess::heat::heat;
use wythe_assess::moisture::{MoistureOptions, ServiceMemo, moisture, service_figures};
use wythe_assess::weather::{SiteWeather, missing, read, unreadable};
use wythe_findings::{Code, Finding, FindingName, codes};
use wythe_model::fixture::{ft_in, rectangle};
use wythe_model::{ClimateFile, ClimateReading, Foundation, Interval, Product};
use wythe_source::{FileId, Span};

fn house() -> Foundation {
    rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0))
}

fn climate(reading: ClimateReading) -> ClimateFile {
    ClimateFile { path: "climate/here.csv".into(), reading, altitude: None, origin: Span::new(FileId(3), 10, 40) }
}

fn months(rows: &str) -> Result<Arc<SiteWeather>, Box<Finding>> {
    read(&climate(ClimateReading::Monthly), rows.as_bytes())
}

/// A temperate year, one row a month, by a function of the month.
fn table(head: &str, row: impl Fn(usize) -> String) -> String {
    let rows: Vec<String> = (1..=12).map(|m| format!("{m},{}", row(m))).collect();
    format!("{head}\n{}\n", rows.join("\n"))
}

fn weather() -> Arc<SiteWeather> {
    months(&table("month,temperature_c,relative_humidity_pct", |m| {
        format!("{},70", 14.0 - 10.0 * (m as f64 / 1.9).cos())
    }))
    .unwrap()
}

#[track_caller]
fn gives(findings: &[Finding], code: Code) -> &Finding {
    let found = findings.iter().find(|f| f.name == FindingName::Code(code));
    found.unwrap_or_else(|| panic!("{code:?} is not among {findings:?}"))
}

fn told(finding: &Finding) -> String {
    format!("{} {}", finding.title, finding.cause.clone().unwrap_or_default())
}

#[test]
fn faults_of_the_weather_name_file_and_line() {
    for (text, line, words) in [
        (String::new(), "", "empty"),
        ("# only a note\n".into(), "", "empty"),
        ("month,dew_point_c\n1,2\n".into(), ":1", "temperature_c"),
        (
            table("month,temperature_c,relative_humidity_pct", |m| if m == 3 { "9,130".into() } else { "9,70".into() }),
            ":4",
            "130",
        ),
        (
            table("month,temperature_c,dew_point_c", |m| if m == 3 { "9,12".into() } else { "9,2".into() }),
            ":4",
            "relative humidity",
        ),
        (table("month,temperature_c,relative_humidity_pct", |m| format!("{},70", 30 + 4 * m)), ":5", "°F"),
        (table("month,temperature_f,relative_humidity_pct", |m| format!("{},70", 2 * m)), ":1", "°C"),
        (table("month,temperature_c,relative_humidity_pct", |_| "9,70".into()).replace("\n5,9,70", ""), "", "month 5"),
        (
            table("month,temperature_c,relative_humidity_pct", |m| if m == 7 { ",70".into() } else { "9,70".into() }),
            ":8",
            "missing",
        ),
        (
            table(
                "month,temperature_c,relative_humidity_pct",
                |m| if m == 7 { "warm,70".into() } else { "9,70".into() },
            ),
            ":8",
            "warm",
        ),
    ] {
        let finding = *months(&text).unwrap_err();
        assert_eq!(finding.name, FindingName::Code(codes::WEATHER_FAULTY));
        assert_eq!(finding.primary.span, climate(ClimateReading::Monthly).origin);
        let told = told(&finding);
        assert!(told.contains(&format!("climate/here.csv{line}")) && told.contains(words), "{told}");
    }
}

#[test]
fn an_hourly_file_with_few_hours_is_a_gap() {
    let mut text = String::from("LOCATION,Here\n");
    text.push_str(&"header\n".repeat(7));
    let fields = |hour: u32| format!("2001,1,1,{hour},0,x,{},2.0,60,101325{}3.0\n", 9, ",0".repeat(11) + ",");
    text.extend((1..=24).map(fields));
    let finding = *read(&climate(ClimateReading::Hourly), text.as_bytes()).unwrap_err();
    assert!(told(&finding).contains("missing"), "{}", told(&finding));
}

#[test]
fn weather_that_is_not_there() {
    assert_eq!(missing(&house().site).name, FindingName::Code(codes::WEATHER_MISSING));
    let finding = unreadable(&climate(ClimateReading::Monthly), "there is no such file");
    assert_eq!(finding.name, FindingName::Code(codes::WEATHER_UNREADABLE));
}

fn with_board(change: impl Fn(&mut Product)) -> Foundation {
    let mut f = house();
    for assembly in &mut f.assemblies {
        let works = Arc::make_mut(assembly).faces.iter_mut().flat_map(|face| &mut face.works);
        for product in works.filter_map(|w| w.product.as_mut()).filter(|p| p.name.as_str() == "foil_board_1_5in") {
            change(Arc::make_mut(product));
        }
    }
    f
}

#[test]
fn a_layer_of_no_thickness_is_told_at_its_place() {
    let nought = Length::new::<inch>(0.0);
    let none = ThermalConductivity::new::<watt_per_meter_kelvin>(f64::NAN);
    for f in [
        with_board(|p| p.thickness = Some(nought)),
        with_board(|p| p.thickness = Some(-ft_in(0.0, 1.0))),
        with_board(|p| p.conductivity = Some(Interval::exact(none))),
    ] {
        let got = heat(&f, None);
        assert!(got.report.is_none());
        let finding = gives(&got.findings, codes::LAYER_WITHOUT_THICKNESS);
        assert_ne!(finding.primary.span, Span::default());
        assert!(moisture(&f, &weather(), &MoistureOptions::default()).report.is_none());
    }
}

#[test]
fn a_board_in_other_units_is_doubted() {
    // 0.022 Btu·in/(h·ft²·°F) taken for W/(m·K) would be an inch; six times less is R-39.
    let lambda = ThermalConductivity::new::<watt_per_meter_kelvin>(0.0037);
    let got = heat(&with_board(|p| p.conductivity = Some(Interval::exact(lambda))), None);
    assert!(gives(&got.findings, codes::FIGURE_IMPLAUSIBLE).title.contains("an inch"));
    assert!(got.report.is_some());
    let mut f = house();
    Arc::make_mut(&mut f.site).soil_conductivity =
        Some(Interval::exact(ThermalConductivity::new::<watt_per_meter_kelvin>(9.0)));
    gives(&heat(&f, None).findings, codes::FIGURE_IMPLAUSIBLE);
}

#[test]
fn no_exposed_perimeter_is_a_finding() {
    let mut shared = house();
    for wall in &mut shared.walls {
        wall.existing = true;
    }
    let mut none = house();
    none.walls.clear();
    for f in [shared, none] {
        let got = heat(&f, Some(&weather()));
        assert!(got.report.is_none());
        gives(&got.findings, codes::NO_EXPOSED_PERIMETER);
        let got = service_figures(&f, &weather(), &ServiceMemo::default());
        assert!(got.report.is_none());
        gives(&got.findings, codes::NO_EXPOSED_PERIMETER);
    }
}

#[test]
fn a_wall_without_a_build_up_leaves_the_report_incomplete() {
    let mut f = house();
    f.walls[2].assembly = None;
    let got = heat(&f, None);
    gives(&got.findings, codes::HEAT_UNKNOWN);
    let report = got.report.unwrap();
    assert!(!report.complete && report.total().value.is_finite());
}

#[test]
fn figures_past_all_measure_are_refused() {
    for conductivity in [1e-9, 1e12] {
        let mut f = house();
        Arc::make_mut(&mut f.site).soil_conductivity =
            Some(Interval::exact(ThermalConductivity::new::<watt_per_meter_kelvin>(conductivity)));
        let got = heat(&f, None);
        assert!(got.report.is_none());
        gives(&got.findings, codes::FIGURE_REFUSED);
    }
    // A house as small as a thimble and as large as a county must answer or refuse.
    for feet in [0.02, 3.0, 1e6] {
        let f = rectangle(ft_in(feet, 0.0), ft_in(feet, 0.0));
        let got = heat(&f, Some(&weather()));
        if let Some(report) = &got.report {
            assert!(report.parts.iter().all(|p| p.conductance.value.is_finite() && p.share.value.is_finite()));
        } else {
            assert!(!got.findings.is_empty());
        }
        let got = moisture(&f, &weather(), &MoistureOptions { start: None, close_in: false });
        assert!(got.report.is_some() || !got.findings.is_empty());
    }
}
