//! Every unit's factor against NIST SP 811, against the units library pint, and against uom.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::collections::BTreeSet;

use uom::si;
use wythe_units::{CompoundUnit, Dim, Factor, UnitTerm, all_units, unit_named};

const NIST: &str = include_str!("../../../tests/reference/units/nist_sp811.csv");
const PINT: &str = include_str!("../../../tests/reference/units/pint_factors.csv");

fn rows(text: &str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.records().map(|row| row.unwrap()).collect()
}

fn compound(text: &str) -> CompoundUnit {
    let terms = |names: &str| -> Vec<UnitTerm> {
        names
            .split_whitespace()
            .map(|name| UnitTerm::Known(unit_named(name).unwrap_or_else(|| panic!("no {name}"))))
            .collect()
    };
    let (above, below) = text.split_once("per ").unwrap_or((text, ""));
    CompoundUnit::new(&terms(above), &terms(below)).unwrap()
}

/// Half a unit in the last printed place, as a share of the value: `4.788026E+01` has six decimals.
fn printed_precision(printed: &str) -> f64 {
    let mantissa = printed.split('E').next().unwrap();
    let decimals = mantissa.split_once('.').map_or(0, |(_, digits)| digits.len());
    0.5 * 10_f64.powi(-(decimals as i32)) / mantissa.parse::<f64>().unwrap()
}

/// A decimal such as `2.54E-05` as an exact fraction.
fn fraction(printed: &str) -> (i128, i128) {
    let (mantissa, exponent) = printed.split_once('E').unwrap();
    let (whole, decimals) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let digits: i128 = format!("{whole}{decimals}").parse().unwrap();
    let power = exponent.parse::<i32>().unwrap() - decimals.len() as i32;
    let ten = 10_i128.pow(power.unsigned_abs());
    if power < 0 { (digits, ten) } else { (digits * ten, 1) }
}

#[test]
fn every_factor_agrees_with_nist_sp_811() {
    for row in rows(NIST) {
        let unit = compound(&row[0]);
        let published: f64 = row[1].parse().unwrap();
        if &row[2] == "yes" {
            let Factor::Exact(factor) = unit.factor() else { panic!("{} is not exact", &row[0]) };
            let (n, d) = fraction(&row[1]);
            assert_eq!(factor.numer() * d, factor.denom() * n, "{}", &row[0]);
        } else {
            let share = (unit.factor().to_f64() - published).abs() / published;
            // A hair over half a place for a last digit rounded up from an exact half.
            assert!(share <= printed_precision(&row[1]) * 1.001, "{}: {share:e}", &row[0]);
        }
    }
}

#[test]
fn every_unit_has_a_published_factor_or_is_a_thing_of_its_own() {
    let published: BTreeSet<String> = rows(NIST).iter().map(|row| row[0].to_owned()).collect();
    for unit in all_units() {
        let own = unit.nominal().is_some() && unit.factor == Factor::ONE;
        assert!(own || published.contains(unit.symbol), "{} has no row", unit.symbol);
    }
}

#[test]
fn every_factor_agrees_with_pint() {
    let rows = rows(PINT);
    assert!(rows.len() > 60);
    for row in rows {
        let theirs: f64 = row[1].parse().unwrap();
        let share = (compound(&row[0]).factor().to_f64() - theirs).abs() / theirs;
        assert!(share < 1e-14, "{}: {share:e}", &row[0]);
    }
}

/// The typed library rounds many US factors to seven digits, so agreement is to its rounding.
#[test]
fn factors_agree_with_the_typed_library() {
    macro_rules! compare {
        ($($symbol:literal $quantity:ident $module:ident $unit:ident $share:literal;)*) => {$(
            let theirs = si::f64::$quantity::new::<si::$module::$unit>(1.0).value;
            let ours = compound($symbol).factor().to_f64();
            assert!(((ours - theirs) / ours).abs() < $share, "{}: {ours} {theirs}", $symbol);
        )*};
    }
    compare! {
        "mil" Length length mil 1e-15;
        "in" Length length inch 1e-15;
        "ft" Length length foot 1e-15;
        "yd" Length length yard 1e-15;
        "mi" Length length mile 1e-15;
        "in2" Area area square_inch 1e-6;
        "ft2" Area area square_foot 1e-6;
        "yd2" Area area square_yard 1e-6;
        "in3" Volume volume cubic_inch 1e-6;
        "ft3" Volume volume cubic_foot 1e-6;
        "yd3" Volume volume cubic_yard 1e-6;
        "floz" Volume volume fluid_ounce 1e-6;
        "pint" Volume volume pint_liquid 1e-6;
        "qt" Volume volume quart_liquid 1e-6;
        "gal" Volume volume gallon 1e-6;
        "l" Volume volume liter 1e-15;
        "gr" Mass mass grain 1e-6;
        "oz" Mass mass ounce 1e-6;
        "lb" Mass mass pound 1e-6;
        "lbf" Force force pound_force 1e-6;
        "psf" Pressure pressure pound_force_per_square_foot 1e-6;
        "psi" Pressure pressure psi 1e-6;
        "inHg" Pressure pressure inch_of_mercury 1e-6;
        "Btu" Energy energy btu_it 1e-6;
        "kWh" Energy energy kilowatt_hour 1e-15;
        "cfm" VolumeRate volume_rate cubic_foot_per_minute 1e-6;
        "°F" TemperatureInterval temperature_interval degree_fahrenheit 1e-7;
        "deg" Angle angle degree 1e-9;
        "day" Time time day 1e-15;
        "lb per ft3" MassDensity mass_density pound_per_cubic_foot 1e-6;
    }
}

#[test]
fn the_perm_is_that_of_zero_celsius() {
    // 1 perm = 1 gr/(h·ft²·inHg); NIST SP 811 B.8 prints 5.72135E-11 at 0 °C and 5.74525E-11 at
    // 23 °C. The conventional inch of mercury gives the former.
    let perm = compound("perm");
    assert_eq!(perm.factor(), compound("gr per h ft2 inHg").factor());
    assert_eq!(perm.dim(), Dim::PERMEANCE);
    assert!((perm.factor().to_f64() * 1e12 - 57.2135).abs() < 5e-5);
}
