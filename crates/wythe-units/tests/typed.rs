//! Quantities into the compile-time typed ones and back.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use uom::si::area::square_foot;
use uom::si::f64::{
    Area, Length, MassRate, Power, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature, Time, VolumeRate,
};
use uom::si::length::foot;
use uom::si::ratio::percent;
use uom::si::temperature_interval::degree_fahrenheit as fahrenheit_interval;
use uom::si::thermodynamic_temperature::degree_fahrenheit;
use wythe_units::{
    ArealThermalResistance, CompoundUnit, Dim, Permeance, Quantity, Scalar, ThermalTransmittance, VaporPermeability,
    absolute_from, parse_r_value, unit_named,
};

fn of(value: i64, name: &str) -> Quantity {
    let unit = CompoundUnit::from(unit_named(name).unwrap());
    Quantity::of(Scalar::int(value), &unit).unwrap()
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() <= 5e-6 * b.abs(), "{a} {b}");
}

#[test]
fn each_type_takes_its_dimension_and_refuses_others() {
    near(Length::try_from(of(3, "ft")).unwrap().get::<foot>(), 3.0);
    near(Area::try_from(of(3, "ft2")).unwrap().get::<square_foot>(), 3.0);
    near(Ratio::try_from(of(8, "%")).unwrap().get::<percent>(), 8.0);
    assert!(Length::try_from(of(3, "ft2")).is_err());
    assert!(Pressure::try_from(of(3, "ft")).is_err());
    assert!(Power::try_from(of(3, "W")).is_ok());
    assert!(MassRate::try_from(of(3, "cfm")).is_err());
    near(VolumeRate::try_from(of(1, "cfm")).unwrap().value, 4.719_474e-4);
    near(Permeance::try_from(of(1, "perm")).unwrap().value, 5.721_35e-11);
    near(VaporPermeability::try_from(of(1, "perm_in")).unwrap().value, 1.453_22e-12);
    near(Time::try_from(of(1, "h")).unwrap().value, 3600.0);
}

#[test]
fn a_resistance_inverts_to_a_transmittance() {
    let r = ArealThermalResistance::try_from(parse_r_value("R-10").unwrap()).unwrap();
    let u: ThermalTransmittance = r.recip();
    near(u.value, 0.567_826_3);
    near(1.0 / ThermalTransmittance::try_from(parse_r_value("U-0.1").unwrap()).unwrap().value, r.value);
}

#[test]
fn points_and_differences_of_temperature_are_two_types() {
    let point = absolute_from(unit_named("°F").unwrap(), Scalar::int(52)).unwrap();
    near(ThermodynamicTemperature::try_from(point).unwrap().get::<degree_fahrenheit>(), 52.0);
    near(TemperatureInterval::try_from(of(9, "°F")).unwrap().get::<fahrenheit_interval>(), 9.0);
}

#[test]
fn results_come_back_unless_they_are_no_numbers() {
    let back = Quantity::try_from(Length::new::<foot>(2.0)).unwrap();
    assert_eq!(back.dim, Dim::LENGTH);
    assert!(back.compare(of(24, "in")).unwrap().is_eq());
    assert!(Quantity::try_from(Length::new::<foot>(f64::NAN)).is_err());
}
