//! Arithmetic: exact where it fits, total everywhere, and lawful.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::cmp::Ordering;

use proptest::prelude::*;
use wythe_units::{
    ArithmeticError, CompoundUnit, Dim, Kind, Nominal, Quantity, QuantityError, Scalar, UnitTerm, absolute_from,
    absolute_in, all_units, difference_from, unit_named,
};

fn unit(name: &str) -> CompoundUnit {
    CompoundUnit::from(unit_named(name).unwrap())
}

fn of(value: &str, name: &str) -> Quantity {
    Quantity::of(Scalar::parse(value).unwrap(), &unit(name)).unwrap()
}

#[test]
fn twenty_feet_are_two_hundred_and_forty_inches() {
    assert_eq!(of("20", "ft"), of("240", "in"));
    assert_eq!(of("20", "ft").in_unit(&unit("in")).unwrap(), Scalar::int(240));
    assert_eq!(of("12", "mil"), of("0.012", "in"));
    assert_eq!(of("1", "gal"), of("231", "in3"));
    assert_eq!(of("1", "floz"), of("1.8046875", "in3"));
    assert_eq!(of("8", "pint"), of("1", "gal"));
    assert_eq!(of("144", "in2"), of("1", "ft2"));
    assert_eq!(of("7000", "gr"), of("1", "lb"));
}

#[test]
fn areas_multiply_exactly() {
    // 42' x 28' 6" less 22' x 8' 6" is 1010 ft2.
    let times = |a: Quantity, b: Quantity| a.checked_mul(b).unwrap();
    let whole = times(of("42", "ft"), of("28-1/2", "ft"));
    let notch = times(of("22", "ft"), of("8-1/2", "ft"));
    assert_eq!(whole.checked_sub(notch).unwrap(), of("1010", "ft2"));
}

#[test]
fn permeances_in_series_add_as_reciprocals() {
    // 2.4 perm and 0.6 perm in series are 0.48 perm.
    let one = Quantity::number(Scalar::ONE);
    let inverse = |q: Quantity| one.checked_div(q).unwrap();
    let sum = inverse(of("2.4", "perm")).checked_add(inverse(of("0.6", "perm"))).unwrap();
    assert_eq!(inverse(sum).compare(of("0.48", "perm")), Ok(Ordering::Equal));
}

#[test]
fn sheets_and_rolls_never_add_and_money_keeps_its_currency() {
    let count =
        |name: &str, n| Quantity::new(Scalar::int(n), Dim::nominal(Nominal::new("library".into(), name.into())));
    let both = count("sheet", 3).checked_add(count("roll", 2));
    assert!(matches!(both, Err(QuantityError::Dimension { .. })));
    assert_eq!(both.unwrap_err().to_string(), "a count in sheet cannot join a count in roll");
    let sheet = Nominal::new("library".into(), "sheet".into());
    let price = CompoundUnit::new(&[unit_named("USD").unwrap().into()], &[sheet.into()]).unwrap();
    assert_eq!(price.text(), "USD per sheet");
    let cost = count("sheet", 12).checked_mul(Quantity::of(Scalar::int(41), &price).unwrap());
    assert_eq!(cost.unwrap(), of("492", "USD"));
    assert!(of("1", "USD").checked_add(of("1", "EUR")).is_err());
    let elsewhere = Dim::nominal(Nominal::new("other".into(), "sheet".into()));
    assert_ne!(count("sheet", 1).dim, elsewhere);
}

#[test]
fn temperatures_read_and_differ_exactly() {
    let fahrenheit = unit_named("°F").unwrap();
    let celsius = unit_named("°C").unwrap();
    let freezing = absolute_from(fahrenheit, Scalar::int(32)).unwrap();
    assert_eq!(freezing, absolute_from(celsius, Scalar::ZERO).unwrap());
    assert_eq!(freezing.value, Scalar::ratio(27_315, 100).unwrap());
    assert_eq!(absolute_in(freezing, &unit("°F")).unwrap(), Scalar::int(32));
    assert_eq!(difference_from(fahrenheit, Scalar::int(9)).unwrap().value, Scalar::int(5));
    assert_eq!(absolute_from(celsius, Scalar::int(-40)).unwrap(), absolute_from(fahrenheit, Scalar::int(-40)).unwrap());
    assert!(absolute_from(unit_named("ft").unwrap(), Scalar::ONE).is_err());
}

#[test]
fn a_degree_in_company_is_a_difference() {
    let term = |name| UnitTerm::Known(unit_named(name).unwrap());
    let r = CompoundUnit::new(&[term("h"), term("ft2"), term("°F")], &[term("Btu")]).unwrap();
    assert_eq!((r.offset(), r.dim()), (None, Dim::AREAL_RESISTANCE));
    assert!(unit("°F").offset().is_some());
    assert!(CompoundUnit::new(&[], &[]).is_err());
}

#[test]
fn kinds_add_only_to_themselves_and_products_drop_them() {
    let area = of("10", "ft2");
    let net = area.with_kind(Some(Kind::NetArea)).unwrap();
    let gross = area.with_kind(Some(Kind::GrossArea)).unwrap();
    assert!(net.checked_add(net).is_ok());
    let error = net.checked_add(gross).unwrap_err();
    assert_eq!(error.to_string(), "a net area cannot join a gross area");
    assert_eq!(net.checked_mul(of("1", "ft")).unwrap().kind, None);
    assert!(of("1", "ft").with_kind(Some(Kind::NetArea)).is_err());
    // Permeability has the dimension of time and is never added to one.
    assert!(of("1", "perm_in").checked_add(of("1", "h")).is_err());
}

#[test]
fn what_has_no_answer_says_so() {
    let zero = Quantity::number(Scalar::ZERO);
    let one = Quantity::number(Scalar::ONE);
    let by_zero = QuantityError::Arithmetic(ArithmeticError::DivisionByZero);
    assert_eq!(one.checked_div(zero), Err(by_zero));
    let huge = Scalar::approx(f64::MAX).unwrap();
    assert_eq!(huge.checked_mul(huge), Err(ArithmeticError::NotFinite));
    assert_eq!(Scalar::approx(f64::NAN), Err(ArithmeticError::NotFinite));
    assert!(Scalar::int(-4).checked_sqrt().is_err());
    let past = Scalar::int(i64::MIN).checked_div(Scalar::int(-1)).unwrap();
    assert_eq!(past, Scalar::approx(2f64.powi(63)).unwrap());
    let mut dim = Dim::LENGTH;
    let overflowed = (0..10).any(|_| match dim.mul(dim) {
        Ok(square) => {
            dim = square;
            false
        }
        Err(_) => true,
    });
    assert!(overflowed);
    assert_eq!(Dim::AREA.root(2), Ok(Dim::LENGTH));
    assert!(Dim::LENGTH.root(5).is_err());
}

#[test]
fn what_no_longer_fits_goes_on_as_a_float() {
    let third = Scalar::ratio(1, 3_000_000_019).unwrap();
    let product = third.checked_mul(third).unwrap().checked_mul(third).unwrap();
    assert!(!product.is_exact());
    let expected = 3_000_000_019_f64.powi(-3);
    assert!((product.to_f64() / expected - 1.0).abs() < 1e-12);
    // 0.1 + 0.2 - 0.3 in floats is rounding error, not a remainder.
    let f = |x| Scalar::approx(x).unwrap();
    assert!(f(0.1).checked_add(f(0.2)).unwrap().checked_sub(f(0.3)).unwrap().is_zero());
    assert_eq!(f(4.000_000_000_000_001).ceil().as_whole(), Some(4));
    assert_eq!(Scalar::ratio(-7, 2).unwrap().round(), Scalar::int(-4));
    assert_eq!(Scalar::ratio(-7, 2).unwrap().ceil(), Scalar::int(-3));
    assert_eq!(Scalar::ratio(7, 2).unwrap().floor(), Scalar::int(3));
}

fn scalar() -> impl Strategy<Value = Scalar> {
    prop_oneof![
        4 => (any::<i32>(), 1..1_000_i64).prop_map(|(n, d)| Scalar::ratio(i64::from(n), d).unwrap()),
        2 => (any::<i64>(), 1..i64::MAX).prop_map(|(n, d)| Scalar::ratio(n, d).unwrap()),
        1 => any::<f64>().prop_filter_map("finite", |x| Scalar::approx(x).ok()),
        1 => prop_oneof![Just(i64::MIN), Just(i64::MAX), Just(0), Just(-1)].prop_map(Scalar::int),
    ]
}

/// Numbers small enough that sums and products of three stay exact.
fn small() -> impl Strategy<Value = Scalar> {
    (-10_000..10_000_i64, 1..200_i64).prop_map(|(n, d)| Scalar::ratio(n, d).unwrap())
}

fn dim() -> impl Strategy<Value = Dim> {
    const NAMES: [&str; 10] = ["ft", "kg", "h", "K", "perm", "Btu", "USD", "pc", "EUR", "psi"];
    (proptest::sample::select(&NAMES[..]), -2..=2_i8)
        .prop_map(|(name, power)| unit_named(name).unwrap().dim.pow(power).unwrap())
}

fn close(a: Scalar, b: Scalar) -> bool {
    a.compare(b) == Ordering::Equal
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(512) })]

    #[test]
    fn operations_never_panic_and_never_leave_the_numbers(a in scalar(), b in scalar(), e in -4..4_i8) {
        let results = [
            a.checked_add(b), a.checked_sub(b), a.checked_mul(b), a.checked_div(b),
            a.checked_pow(e), a.checked_sqrt(), Ok(a.round()), Ok(a.floor()), Ok(a.ceil()), Ok(-a),
        ];
        for result in results.into_iter().flatten() {
            prop_assert!(result.to_f64().is_finite());
            if let Some((n, d)) = result.as_ratio() {
                prop_assert!(d > 0);
                prop_assert_eq!(Scalar::ratio(n, d).unwrap().as_ratio(), Some((n, d)));
            }
        }
    }

    #[test]
    fn small_numbers_are_a_field(a in small(), b in small(), c in small()) {
        let add = |x: Scalar, y| x.checked_add(y).unwrap();
        let mul = |x: Scalar, y| x.checked_mul(y).unwrap();
        prop_assert_eq!(add(a, b), add(b, a));
        prop_assert_eq!(add(add(a, b), c), add(a, add(b, c)));
        prop_assert_eq!(mul(a, b), mul(b, a));
        prop_assert_eq!(mul(mul(a, b), c), mul(a, mul(b, c)));
        prop_assert_eq!(mul(a, add(b, c)), add(mul(a, b), mul(a, c)));
        prop_assert_eq!(add(a, -a), Scalar::ZERO);
        if !b.is_zero() {
            prop_assert_eq!(mul(a.checked_div(b).unwrap(), b), a);
        }
    }

    #[test]
    fn the_total_order_is_total(a in scalar(), b in scalar(), c in scalar()) {
        prop_assert_eq!(a.total_cmp(b), b.total_cmp(a).reverse());
        prop_assert_eq!(a.total_cmp(b) == Ordering::Equal, a == b);
        let mut sorted = [a, b, c];
        sorted.sort_by(|x, y| x.total_cmp(*y));
        prop_assert!(sorted[0].total_cmp(sorted[2]).is_le());
        prop_assert!(sorted[0].to_f64() <= sorted[1].to_f64());
        prop_assert!(sorted[1].to_f64() <= sorted[2].to_f64());
    }

    #[test]
    fn the_tolerant_order_is_antisymmetric_and_exact_for_exact_numbers(a in scalar(), b in scalar()) {
        prop_assert_eq!(a.compare(b), b.compare(a).reverse());
        prop_assert_eq!(a.compare(a), Ordering::Equal);
        if a.is_exact() && b.is_exact() {
            prop_assert_eq!(a.compare(b), a.total_cmp(b));
        }
    }

    #[test]
    fn dimensions_are_a_group(a in dim(), b in dim(), c in dim()) {
        // Three factors of at most three nominal units in all always fit here when they fit at all.
        let (Ok(ab), Ok(bc)) = (a.mul(b), b.mul(c)) else { return Ok(()) };
        if let (Ok(left), Ok(right)) = (ab.mul(c), a.mul(bc)) {
            prop_assert_eq!(left, right);
        }
        prop_assert_eq!(ab, b.mul(a).unwrap());
        prop_assert_eq!(a.mul(Dim::NONE).unwrap(), a);
        prop_assert_eq!(a.mul(a.recip().unwrap()).unwrap(), Dim::NONE);
        prop_assert_eq!(ab.div(b).unwrap(), a);
        prop_assert_eq!(a.pow(2).unwrap().root(2).unwrap(), a);
    }

    #[test]
    fn conversion_there_and_back_is_exact(value in small(), index in 0..1000_usize) {
        let units = all_units();
        let unit = CompoundUnit::from(&units[index % units.len()]);
        let there = Quantity::of(value, &unit).unwrap();
        let back = there.in_unit(&unit).unwrap();
        prop_assert!(close(back, value), "{unit}");
        if there.value.is_exact() {
            prop_assert_eq!(back, value);
        }
    }

    #[test]
    fn lengths_and_areas_stay_exact(feet in 0..5_000_i64, sixteenths in 0..192_i64) {
        let length = of(&feet.to_string(), "ft")
            .checked_add(of(&format!("{sixteenths}/16"), "in")).unwrap();
        prop_assert!(length.value.is_exact());
        prop_assert!(length.checked_mul(length).unwrap().value.is_exact());
        let inches = length.in_unit(&unit("in")).unwrap();
        prop_assert_eq!(inches, Scalar::ratio(feet * 192 + sixteenths, 16).unwrap());
    }

    #[test]
    fn a_reading_comes_back(value in small()) {
        for name in ["°F", "°C", "K"] {
            let point = absolute_from(unit_named(name).unwrap(), value).unwrap();
            prop_assert_eq!(absolute_in(point, &unit(name)).unwrap(), value);
        }
    }
}
