//! Literals in and text out.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use proptest::prelude::*;
use wythe_units::{
    CompoundUnit, Dim, DisplayOptions, Kind, LengthLiteralError, LumberSize, Nominal, NumberError, Quantity,
    RValueError, Scalar, TYPE_NAMES, UnitSystem, UnitTerm, absolute_from, all_units, canonical_length_us,
    format_distinct, format_in, format_point, format_quantity, parse_length_marks, parse_lumber, parse_r_value,
    preferred_unit, show, unit_named,
};

fn unit(text: &str) -> CompoundUnit {
    let terms = |names: &str| -> Vec<UnitTerm> {
        names.split_whitespace().map(|name| UnitTerm::Known(unit_named(name).unwrap())).collect()
    };
    let (above, below) = text.split_once("per ").unwrap_or((text, ""));
    CompoundUnit::new(&terms(above), &terms(below)).unwrap()
}

fn of(value: &str, name: &str) -> Quantity {
    let (sign, digits) = value.strip_prefix('-').map_or((1, value), |rest| (-1, rest));
    let value = Scalar::parse(digits).unwrap().checked_mul(Scalar::int(sign)).unwrap();
    Quantity::of(value, &unit(name)).unwrap()
}

fn us(quantity: Quantity) -> String {
    format_quantity(quantity, &DisplayOptions::new(UnitSystem::Us))
}

fn si(quantity: Quantity) -> String {
    format_quantity(quantity, &DisplayOptions::new(UnitSystem::Si))
}

#[test]
fn numbers_as_the_language_writes_them() {
    let exact = |n, d| Ok(Scalar::ratio(n, d).unwrap());
    assert_eq!(Scalar::parse("12"), exact(12, 1));
    assert_eq!(Scalar::parse("1_000"), exact(1000, 1));
    assert_eq!(Scalar::parse("0.5"), exact(1, 2));
    assert_eq!(Scalar::parse("3/8"), exact(3, 8));
    assert_eq!(Scalar::parse("4-1/2"), exact(9, 2));
    assert_eq!(Scalar::parse("1e5"), Err(NumberError::Exponent));
    assert_eq!(Scalar::parse("3/0"), Err(NumberError::ZeroDenominator));
    assert_eq!(Scalar::parse("4-5/4"), Err(NumberError::ImproperFraction));
    assert_eq!(Scalar::parse("1_"), Err(NumberError::Underscore));
    assert_eq!(Scalar::parse("1__0"), Err(NumberError::Underscore));
    assert_eq!(Scalar::parse("_1"), Err(NumberError::Underscore));
    assert_eq!(Scalar::parse(""), Err(NumberError::NoDigits));
    assert_eq!(Scalar::parse(".5"), Err(NumberError::NoDigits));
    assert_eq!(Scalar::parse("5."), Err(NumberError::NoDigits));
    assert_eq!(Scalar::parse("4-1"), Err(NumberError::Unexpected('-')));
    assert_eq!(Scalar::parse("½"), Err(NumberError::Unexpected('½')));
    assert_eq!(Scalar::parse(&"9".repeat(301)), Err(NumberError::TooLarge));
    assert!(!Scalar::parse(&"9".repeat(300)).unwrap().is_exact());
}

#[test]
fn lengths_with_marks() {
    let same = |text: &str, value: &str, name: &str| {
        assert_eq!(parse_length_marks(text), Ok(of(value, name)), "{text}");
    };
    same("3'", "3", "ft");
    same("4-1/2\"", "4.5", "in");
    same("3' 4-1/2\"", "40.5", "in");
    same("3'4\"", "40", "in");
    same("28' 6\"", "342", "in");
    same("5/8\"", "5/8", "in");
    same("0'", "0", "in");
    same("3.5'", "42", "in");
    let error = |text: &str| parse_length_marks(text).unwrap_err();
    assert_eq!(error("3' 4"), LengthLiteralError::MissingInchMark("3' 4\"".into()));
    assert_eq!(error("3' 14\""), LengthLiteralError::InchesPastFoot("4' 2\"".into()));
    assert_eq!(error("3.5' 4\""), LengthLiteralError::FeetNotWhole);
    assert_eq!(error("3' 4\" 5"), LengthLiteralError::AfterMark);
    assert_eq!(error("3"), LengthLiteralError::NoMark);
    assert_eq!(error(""), LengthLiteralError::NoMark);
    assert_eq!(error("'"), LengthLiteralError::Number(NumberError::NoDigits));
    assert_eq!(error("1/0\""), LengthLiteralError::Number(NumberError::ZeroDenominator));
}

#[test]
fn the_formatter_has_one_way_to_write_a_length() {
    for (written, canonical) in [
        ("3'4-1/2\"", "3' 4-1/2\""),
        ("3'   4\"", "3' 4\""),
        ("4-2/4\"", "4-1/2\""),
        ("24\"", "24\""),
        ("2' 0\"", "2'"),
        ("0' 6\"", "6\""),
        ("7.25\"", "7-1/4\""),
        ("03'", "3'"),
        ("0.3\"", "0.3\""),
        ("1/3\"", "1/3\""),
        ("not a length", "not a length"),
    ] {
        assert_eq!(canonical_length_us(written), canonical, "{written}");
    }
}

#[test]
fn thermal_values_and_lumber() {
    let r = unit("h ft2 °F per Btu");
    assert_eq!(parse_r_value("R-10").unwrap(), Quantity::of(Scalar::int(10), &r).unwrap());
    assert_eq!(parse_r_value("RSI-1.76").unwrap(), of("1.76", "m2 K per W"));
    assert_eq!(parse_r_value("U-0.06").unwrap(), of("0.06", "Btu per h ft2 °F"));
    assert_eq!(parse_r_value("X-1"), Err(RValueError::Prefix));
    assert!(parse_r_value("R-").is_err());
    assert_eq!(parse_lumber("2x8"), Ok(LumberSize { thickness: 2, width: 8 }));
    assert_eq!(parse_lumber("2x10").unwrap().to_string(), "2x10");
    for bad in ["2x", "x8", "2 x 8", "2x8x3", "0x8", "2x99999", "+2x8"] {
        assert!(parse_lumber(bad).is_err(), "{bad}");
    }
}

#[test]
fn each_quantity_in_the_unit_of_its_trade() {
    assert_eq!(us(of("40-1/2", "in")), "3' 4-1/2\"");
    assert_eq!(si(of("40-1/2", "in")), "1029 mm");
    assert_eq!(us(of("-16", "in")), "-1' 4\"");
    assert_eq!(us(of("0", "in")), "0\"");
    assert_eq!(us(of("1010", "ft2")), "1010 ft2");
    assert_eq!(us(of("72", "in2")), "0.5 ft2");
    assert_eq!(si(of("12.5", "m2")), "12.5 m2");
    assert_eq!(us(parse_r_value("R-1.1").unwrap()), "R-1.1");
    assert_eq!(us(parse_r_value("R-11.96").unwrap()), "R-11.96");
    assert_eq!(si(parse_r_value("R-10").unwrap()), "RSI-1.76");
    assert_eq!(us(parse_r_value("U-0.08361").unwrap()), "U-0.0836");
    assert_eq!(us(of("0.05", "perm")), "0.05 perm");
    assert_eq!(si(of("1", "perm")), "57.2 ng per Pa s m2");
    assert_eq!(us(of("1.2", "perm_in")), "1.2 perm_in");
    assert_eq!(us(of("30", "cfm")), "30 cfm");
    assert_eq!(si(of("0.2822", "W per m2 K")), "0.282 W per m2 K");
    assert_eq!(us(of("-2", "h ft2 °F per Btu")), "-2 h ft2 °F per Btu");
    assert_eq!(us(of("0.022", "W per m K")), "0.153 Btu in per h ft2 °F");
    assert_eq!(us(of("37", "deg")), "37 deg");
    assert_eq!(us(of("492", "USD")), "492.00 USD");
    assert_eq!(us(of("1234.565", "USD")), "1234.57 USD");
    assert_eq!(us(of("1200", "JPY")), "1200 JPY");
    assert_eq!(us(of("12", "pc")), "12 pc");
    assert_eq!(us(of("120", "ft2 per h")), "120 ft2 per h");
    assert_eq!(us(of("2.5", "USD per ft2")), "2.5 USD per ft2");
    assert_eq!(us(of("3/8", "%")), "0.00375");
    assert_eq!(us(of("9", "°F")), "9 °F");
    assert_eq!(us(Quantity::number(Scalar::ratio(1, 3).unwrap())), "0.3333");
    let point = absolute_from(unit_named("°F").unwrap(), Scalar::int(52)).unwrap();
    assert_eq!(format_point(point, &DisplayOptions::default()), "52 °F");
    assert_eq!(format_point(point, &DisplayOptions::new(UnitSystem::Si)), "11.1 °C");
}

#[test]
fn a_given_unit_and_a_preferred_one() {
    assert_eq!(format_in(of("3", "in"), &unit("in")).unwrap(), "3 in");
    assert_eq!(format_in(of("40-1/2", "in"), &unit("in")).unwrap(), "40-1/2 in");
    assert_eq!(format_in(of("-1/2", "in"), &unit("in")).unwrap(), "-1/2 in");
    assert_eq!(format_in(of("100", "mm"), &unit("in")).unwrap(), "3.937 in");
    assert_eq!(format_in(of("40-1/2", "in"), &unit("ft")).unwrap(), "3.38 ft");
    assert_eq!(format_in(of("8", "%"), &unit("%")).unwrap(), "8 %");
    assert!(format_in(of("3", "in"), &unit("lb")).is_err());
    let mut options = DisplayOptions::new(UnitSystem::Us);
    options.prefer(None, unit("in2"));
    assert_eq!(format_quantity(of("0.5", "ft2"), &options), "72 in2");
    options.prefer(Some(Kind::NetArea), unit("yd2"));
    let net = of("9", "ft2").with_kind(Some(Kind::NetArea)).unwrap();
    assert_eq!(format_quantity(net, &options), "1 yd2");
}

#[test]
fn what_is_rounded_says_so_and_found_never_reads_as_due() {
    let options = DisplayOptions::default();
    let shown = |q| show(q, &options).is_rounded;
    assert!(!shown(of("40-1/2", "in")) && !shown(of("1/16", "in")));
    assert!(shown(of("1/32", "in")) && shown(of("100", "mm")));
    assert!(!shown(of("492", "USD")) && shown(of("1/3", "USD")));
    assert!(!shown(of("0.05", "perm")));
    let pair = |a, b| format_distinct(a, b, &options);
    assert_eq!(pair(of("4", "in"), of("6", "in")), ("4\"".into(), "6\"".into()));
    assert_eq!(pair(of("2-31/32", "in"), of("3", "in")), ("2-31/32\"".into(), "3\"".into()));
    let (found, due) = pair(of("2.99999", "in"), of("3", "in"));
    assert_eq!((found.as_str(), due.as_str()), ("2.99999 in", "3 in"));
    let (found, due) = pair(of("0.1001", "perm"), of("0.1", "perm"));
    assert_eq!((found.as_str(), due.as_str()), ("0.1001 perm", "0.1 perm"));
}

#[test]
fn dimensions_in_words() {
    let words = |text: &str| unit(text).dim().describe();
    assert_eq!(words("ft"), "a length");
    assert_eq!(words("ft2"), "an area");
    assert_eq!(words("ft2 per h"), "an area per hour");
    assert_eq!(words("perm"), "a permeance");
    assert_eq!(words("h ft2 °F per Btu"), "a thermal resistance");
    assert_eq!(words("USD"), "an amount of money in USD");
    assert_eq!(words("USD per ft2"), "an amount in USD per area");
    assert_eq!(words("pc per h"), "an amount in pc per hour");
    assert_eq!(words("ft2 per pc"), "an area per pc");
    assert_eq!(words("per h"), "a number per hour");
    assert_eq!(words("%"), "a plain number");
    assert_eq!(words("ft2 ft2"), "a volume times length");
    assert_eq!(words("K K per kg"), "a quantity in K2 per kg");
    assert_eq!(of("1", "perm_in").describe(), "a vapor permeability");
    let sheet = Dim::nominal(Nominal::new("library".into(), "sheet".into()));
    assert_eq!(Dim::money("USD").div(sheet).unwrap().describe(), "an amount in USD per sheet");
}

#[test]
fn type_names_lead_to_dimensions_and_back() {
    assert_eq!(Dim::of_type_name("ThermalResistance"), Some((Dim::AREAL_RESISTANCE, None)));
    assert_eq!(Dim::of_type_name("NetArea"), Some((Dim::AREA, Some(Kind::NetArea))));
    assert_eq!(Dim::of_type_name("Permeability"), Some((Dim::TIME, Some(Kind::Permeability))));
    assert_eq!(Dim::of_type_name("Wall"), None);
    for (name, dim) in TYPE_NAMES {
        assert_eq!(Dim::of_type_name(name), Some((dim, None)));
        let back = dim.type_name().and_then(Dim::of_type_name);
        assert_eq!(back, Some((dim, None)), "{name}");
    }
}

#[test]
fn preferred_units_measure_what_they_stand_for() {
    for (name, dim) in TYPE_NAMES {
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let Some((unit, _)) = preferred_unit(dim, None, system) else {
                assert!(dim.is_none(), "{name}");
                continue;
            };
            assert_eq!(unit.dim(), dim, "{name}");
        }
    }
    let sheet = Nominal::new("library".into(), "sheet".into());
    let price = Dim::money("USD").div(Dim::nominal(sheet)).unwrap();
    let (unit, _) = preferred_unit(price, None, UnitSystem::Us).unwrap();
    assert_eq!(unit.text(), "USD per sheet");
}

fn marks() -> impl Strategy<Value = String> {
    "[0-9'\"/ .x_-]{0,14}"
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1024) })]

    #[test]
    fn feet_inches_print_and_read_back(sixteenths in 0..10_000_000_i64) {
        let length = of(&format!("{sixteenths}/16"), "in");
        let text = us(length);
        prop_assert_eq!(parse_length_marks(&text).unwrap(), length);
        prop_assert_eq!(canonical_length_us(&text), text);
    }

    #[test]
    fn the_formatter_keeps_the_value_and_is_idempotent(text in marks()) {
        let canonical = canonical_length_us(&text);
        if let Ok(length) = parse_length_marks(&text) {
            prop_assert_eq!(parse_length_marks(&canonical), Ok(length));
        }
        prop_assert_eq!(canonical_length_us(&canonical), canonical);
    }

    #[test]
    fn no_text_panics(text in any::<String>(), marks in marks()) {
        for text in [text.as_str(), marks.as_str()] {
            let _ = (Scalar::parse(text), parse_length_marks(text), parse_r_value(text));
            let _ = (parse_lumber(text), canonical_length_us(text), Dim::of_type_name(text));
        }
    }

    #[test]
    fn no_quantity_panics(bits in any::<u64>(), n in any::<i64>(), d in 1..i64::MAX, i in 0..1000_usize, j in 0..1000_usize) {
        let units = all_units();
        let (above, below) = (&units[i % units.len()], &units[j % units.len()]);
        let compound = CompoundUnit::new(&[above.into()], &[below.into()]).unwrap();
        let values = [Scalar::approx(f64::from_bits(bits)).unwrap_or(Scalar::ZERO), Scalar::ratio(n, d).unwrap()];
        for value in values {
            for dim in [above.dim, compound.dim()] {
                let quantity = Quantity { value, dim, kind: above.kind.filter(|kind| kind.dim() == dim) };
                for system in [UnitSystem::Us, UnitSystem::Si] {
                    let options = DisplayOptions::new(system);
                    prop_assert!(!format_quantity(quantity, &options).contains("NaN"));
                    prop_assert!(!format_point(quantity, &options).is_empty());
                    format_distinct(quantity, -quantity, &options);
                }
                let _ = (format_in(quantity, &compound), quantity.describe());
            }
        }
    }

    #[test]
    fn text_that_claims_to_be_exact_is(n in -1_000_000..1_000_000_i64, d in 1..2000_i64) {
        let value = Scalar::ratio(n, d).unwrap();
        let shown = show(Quantity::number(value), &DisplayOptions::default());
        let digits = shown.text.strip_prefix('-').unwrap_or(&shown.text);
        let read = Scalar::parse(digits).unwrap();
        prop_assert_eq!(!shown.is_rounded, read == value.abs());
        let error = read.checked_sub(value.abs()).unwrap().abs().to_f64();
        prop_assert!(error <= 0.000_051);
    }
}
