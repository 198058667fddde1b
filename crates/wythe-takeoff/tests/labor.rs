//! Labor of a mid-size house against common practice, and bad rules.

use rust_decimal::Decimal;
use uom::si::area::square_foot;
use uom::si::f64::{Area, Length, Ratio, Time};
use uom::si::length::foot;
use uom::si::ratio::ratio;
use uom::si::time::hour;
use wythe_takeoff::labor::*;
use wythe_takeoff::money::Money;

fn hours(v: f64) -> Time {
    Time::new::<hour>(v)
}

fn square_feet(v: f64) -> WorkQuantity {
    WorkQuantity::Area(Area::new::<square_foot>(v))
}

fn feet(v: f64) -> WorkQuantity {
    WorkQuantity::Length(Length::new::<foot>(v))
}

fn crew() -> CrewRules {
    let rate = |task: &str, per_hour| Rate { task: task.into(), per_hour };
    CrewRules {
        people: 3,
        day: hours(8.0),
        set_up: hours(0.75),
        tear_down: hours(0.5),
        travel: hours(1.0),
        drying: hours(2.0),
        minimum: hours(4.0),
        headroom: vec![
            HeadroomFactor { below: Length::new::<foot>(4.0), factor: Ratio::new::<ratio>(1.25) },
            HeadroomFactor { below: Length::new::<foot>(2.5), factor: Ratio::new::<ratio>(1.6) },
        ],
        rates: vec![
            rate("hang", square_feet(140.0)),
            rate("set", square_feet(90.0)),
            rate("fasten", WorkQuantity::Count(110)),
            rate("tape", feet(160.0)),
            rate("seal", feet(75.0)),
        ],
    }
}

fn task(name: &str, quantity: WorkQuantity, headroom: Option<f64>) -> Task {
    Task { task: name.into(), quantity, headroom: headroom.map(Length::new::<foot>) }
}

/// Rough-in of a mid-size house is about two days for a crew (common practice, no source): 141 ft
/// of wall 2 ft 4 in high.
#[test]
fn rough_in_takes_about_two_days() {
    let visit = WorkVisit {
        phase: "rough_in".into(),
        tasks: vec![
            task("hang", square_feet(141.0 * 3.3), None),
            task("set", square_feet(141.0 * 2.33), None),
            task("fasten", WorkQuantity::Count(71 + 18 * 8), None),
            task("tape", feet(141.0 * 3.0), None),
            task("seal", feet(141.0), None),
        ],
        rains: 0,
    };
    let (labor, findings) = visits(&[visit], &crew()).expect("sound rules");
    assert!(findings.is_empty());
    let days = labor[0].crew_days.get::<ratio>();
    assert!((1.5..=2.5).contains(&days), "{days}");
    // By hand: 3.324 + 3.650 + 1.955 + 2.644 + 1.880 + 1.25 = 14.70 h.
    assert!((labor[0].on_site.get::<hour>() - 14.70).abs() < 0.01);
    assert_eq!(labor[0].days, 2);
    assert!((labor[0].charged.get::<hour>() - 16.70).abs() < 0.01);
}

#[test]
fn headroom_rain_and_minimum() {
    let visit = |headroom, rains| WorkVisit {
        phase: "close_in".into(),
        tasks: vec![task("tape", feet(160.0), headroom)],
        rains,
    };
    let all = [visit(None, 0), visit(Some(3.0), 0), visit(Some(2.0), 0), visit(None, 2)];
    let (labor, _) = visits(&all, &crew()).expect("sound rules");
    let work: Vec<f64> = labor.iter().map(|l| l.work.get::<hour>()).collect();
    for (found, expected) in work.iter().zip([1.0, 1.25, 1.6, 1.0]) {
        assert!((found - expected).abs() < 1e-9);
    }
    // 1 + 1.25 + 1 h of travel is below the minimum of 4 h.
    assert!((labor[0].charged.get::<hour>() - 4.0).abs() < 1e-9);
    assert!((labor[3].on_site.get::<hour>() - 6.25).abs() < 1e-9);
    let wage = Money { amount: Decimal::from(50), currency: "USD".parse().expect("a currency") };
    // 4 + 4 + 4 + 7.25 h for three people at 50.
    let cost = labor_cost(&labor, 3, wage).expect("a sum");
    assert_eq!(cost.amount, Decimal::new(288_750, 2));
}

#[test]
fn what_cannot_be_counted_is_named() {
    let visit = WorkVisit {
        phase: "rough_in".into(),
        tasks: vec![
            task("gild", feet(1.0), None),
            task("tape", square_feet(1.0), None),
            task("seal", feet(f64::NAN), None),
            task("seal", feet(75.0), None),
        ],
        rains: 0,
    };
    let (labor, findings) = visits(&[visit], &crew()).expect("sound rules");
    let errors: Vec<_> = findings.into_iter().map(|f| f.error).collect();
    assert_eq!(
        errors,
        [
            LaborError::NoRate("gild".into()),
            LaborError::UnlikeUnits("tape".into()),
            LaborError::Quantity("seal".into()),
        ]
    );
    assert!((labor[0].work.get::<hour>() - 1.0).abs() < 1e-9);
    let idle = CrewRules { day: hours(0.0), ..crew() };
    assert_eq!(visits(&[], &idle), Err(LaborError::Rule("the working day")));
    let odd = CrewRules { travel: hours(f64::NAN), ..crew() };
    assert_eq!(visits(&[], &odd), Err(LaborError::Rule("travel")));
}
