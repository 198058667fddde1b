//! Monthly normals and the hours made from them.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

use uom::si::f64::{Length, Ratio};
use uom::si::length::meter;
use uom::si::ratio::percent;
use wythe_climate::stated::stated_normals;
use wythe_climate::{MonthlyNormals, ProblemKind, synthesize};
use wythe_model::StatedMonths;
use wythe_physics::quantity::{celsius, to_celsius};
use wythe_physics::weather::WeatherOrigin;

const GREENSBORO: &str = include_str!("../../../tests/reference/physics/greensboro_months.csv");

// Monthly means of a real hourly set, made with pandas (tests/reference/physics/greensboro.py).
#[test]
fn synthesized_hours_keep_the_monthly_means() {
    let normals = MonthlyNormals::read_csv(GREENSBORO.as_bytes()).unwrap();
    let year = synthesize(&normals, Length::new::<meter>(273.0)).unwrap();
    assert_eq!(year.origin(), WeatherOrigin::SynthesizedFromMonths);
    for (number, normal) in (1..).zip(normals.months()) {
        let part: Vec<_> = year.hours().iter().filter(|h| h.month == number).collect();
        let mean = |of: &dyn Fn(usize) -> f64| (0..part.len()).map(of).sum::<f64>() / part.len() as f64;
        let t = mean(&|n| to_celsius(part[n].temperature));
        assert!((t - to_celsius(normal.temperature)).abs() < 1e-6, "{number}: {t}");
        let wind = mean(&|n| part[n].wind.value);
        assert!((wind - normal.wind.value).abs() < 1e-6);
        let high = part.iter().map(|h| to_celsius(h.temperature)).fold(f64::MIN, f64::max);
        assert!(high > t + 0.4 * normal.daily_range.value);
    }
    // The set's own yearly mean is 14.42 °C; of July's hours more than half have dew points over
    // 16 °C.
    let wave = year.yearly_wave();
    assert!((to_celsius(wave.mean) - 14.42).abs() < 0.02, "{}", to_celsius(wave.mean));
    assert!((11.0..13.5).contains(&wave.amplitude.value));
    // Coldest in mid January.
    assert!((0.02..0.08).contains(&wave.coldest.value), "{:?}", wave.coldest);
}

// Months stated at the site are those of a file with the same figures, and each fault of theirs is told.
#[test]
fn stated_months_are_those_of_a_file() {
    let celsius_list = |f: fn(f64) -> f64| (1..=12).map(|m| celsius(f(f64::from(m)))).collect::<Vec<_>>();
    let stated = StatedMonths {
        temperature: celsius_list(|m| m + 4.0),
        relative_humidity: None,
        dew_point: Some(celsius_list(|m| m)),
        daily_range: None,
        wind: None,
    };
    let got = stated_normals(&stated).unwrap();
    let file = (1..=12).map(|m| format!("{m},{},{m}\n", m + 4)).collect::<String>();
    let file = MonthlyNormals::read_csv(format!("month,temperature_c,dew_point_c\n{file}").as_bytes()).unwrap();
    for (a, b) in got.months().iter().zip(file.months()) {
        assert!((a.temperature.value - b.temperature.value).abs() < 1e-9);
        assert!((a.humidity.ratio() - b.humidity.ratio()).value.abs() < 1e-12);
        assert!((a.daily_range - b.daily_range).value.abs() < 1e-12 && (a.wind - b.wind).value.abs() < 1e-12);
    }
    let short = StatedMonths { temperature: stated.temperature[..11].to_vec(), ..stated.clone() };
    assert_eq!(stated_normals(&short).unwrap_err().to_string(), "temperature has 11 values; a year has 12 months");
    let dry = StatedMonths { dew_point: None, ..stated.clone() };
    assert!(stated_normals(&dry).unwrap_err().to_string().contains("relative humidity or dew point is missing"));
    let over = StatedMonths { dew_point: Some(celsius_list(|m| m + 5.0)), ..stated.clone() };
    assert!(stated_normals(&over).unwrap_err().to_string().starts_with("month 1 has a dew point over its temperature"));
    let damp = StatedMonths { relative_humidity: Some(vec![Ratio::new::<percent>(104.0); 12]), ..stated.clone() };
    assert!(stated_normals(&damp).unwrap_err().to_string().contains("relative humidity is 104"));
    let hot = StatedMonths { temperature: celsius_list(|m| m + 60.0), ..stated };
    assert!(stated_normals(&hot).unwrap_err().to_string().contains("is it in °F?"));
}

#[test]
fn fahrenheit_columns_agree_with_celsius() {
    let mut c = String::from("month,temperature_c,dew_point_c\n");
    let mut f = String::from("# note\nmonth,temperature_f,dew_point_f\n");
    for m in 1..=12 {
        let (t, d) = (f64::from(m), f64::from(m) - 3.0);
        c += &format!("{m},{t},{d}\n");
        f += &format!("{m},{},{}\n", t * 1.8 + 32.0, d * 1.8 + 32.0);
    }
    let (c, f) = (MonthlyNormals::read_csv(c.as_bytes()).unwrap(), MonthlyNormals::read_csv(f.as_bytes()).unwrap());
    for (a, b) in c.months().iter().zip(f.months()) {
        assert!((a.temperature.value - b.temperature.value).abs() < 1e-9);
        assert!((a.humidity.ratio().value - b.humidity.ratio().value).abs() < 1e-9);
    }
}

#[test]
fn faults_name_their_line() {
    let header = "month,temperature_c,relative_humidity_pct\n";
    let months = |change: &dyn Fn(u32) -> String| header.to_string() + &(1..=12).map(change).collect::<String>();
    let read = |text: &str| MonthlyNormals::read_csv(text.as_bytes()).unwrap_err();
    let got = read(&months(&|m| if m == 5 { "5,15,103\n".into() } else { format!("{m},15,60\n") }));
    assert_eq!(got.list()[0].line, Some(6), "{got}");
    assert!(matches!(got.list()[0].kind, ProblemKind::Impossible { .. }));
    let got = read(&months(&|m| if m == 5 { String::new() } else { format!("{m},15,60\n") }));
    assert!(matches!(got.list()[0].kind, ProblemKind::Month { month: 5, .. }), "{got}");
    let got = read(&months(&|m| format!("{},15,60\n", if m == 5 { 4 } else { m })));
    assert!(got.list().iter().any(|p| p.line == Some(6)), "{got}");
    let got = read(&months(&|m| format!("{m},{},60\n", if m == 7 { 77 } else { 40 })));
    assert!(got.to_string().contains("is it in °F?"), "{got}");
    assert!(matches!(read("").list()[0].kind, ProblemKind::Empty));
    let got = read("month,temp\n1,2\n");
    assert_eq!(got.list().len(), 2, "{got}");
    let got = read(&months(&|m| if m == 9 { "9,,60\n".into() } else { format!("{m},15,60\n") }));
    assert!(
        got.list().iter().any(|p| p.line == Some(10) && matches!(p.kind, ProblemKind::MissingValue { .. })),
        "{got}"
    );
}
