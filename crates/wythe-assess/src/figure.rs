//! Plain numbers into quantities, and ranges between the bounds of a figure.

use uom::si::f64::{
    Area, HeatTransfer, Length, Mass, MassDensity, Pressure, Ratio, ThermalConductance, ThermalConductivity, Time,
    VolumeRate,
};
use uom::si::{
    area, heat_transfer, length, mass, mass_density, pressure, ratio, thermal_conductance, thermal_conductivity, time,
    volume_rate,
};
use wythe_model::Interval;

pub(crate) fn m(value: f64) -> Length {
    Length::new::<length::meter>(value)
}

pub(crate) fn m2(value: f64) -> Area {
    Area::new::<area::square_meter>(value)
}

pub(crate) fn u(value: f64) -> HeatTransfer {
    HeatTransfer::new::<heat_transfer::watt_per_square_meter_kelvin>(value)
}

pub(crate) fn w_per_k(value: f64) -> ThermalConductance {
    ThermalConductance::new::<thermal_conductance::watt_per_kelvin>(value)
}

pub(crate) fn lambda(value: f64) -> ThermalConductivity {
    ThermalConductivity::new::<thermal_conductivity::watt_per_meter_kelvin>(value)
}

pub(crate) fn share(value: f64) -> Ratio {
    Ratio::new::<ratio::ratio>(value)
}

pub(crate) fn kg(value: f64) -> Mass {
    Mass::new::<mass::kilogram>(value)
}

pub(crate) fn kg_per_m3(value: f64) -> MassDensity {
    MassDensity::new::<mass_density::kilogram_per_cubic_meter>(value)
}

pub(crate) fn pa(value: f64) -> Pressure {
    Pressure::new::<pressure::pascal>(value)
}

pub(crate) fn days(value: f64) -> Time {
    Time::new::<time::day>(value)
}

pub(crate) fn m3_per_s(value: f64) -> VolumeRate {
    VolumeRate::new::<volume_rate::cubic_meter_per_second>(value)
}

/// The three ends of an interval by the same calculation. Where the result falls as the figure rises, its low end
/// comes from the figure's high one; the ends are put in order.
pub(crate) fn over<T: Copy, E>(figure: Interval<T>, work: impl Fn(T) -> Result<f64, E>) -> Result<Interval<f64>, E> {
    let (a, mid, b) = (work(figure.low)?, work(figure.mid)?, work(figure.high)?);
    Ok(Interval { low: a.min(b).min(mid), mid, high: a.max(b).max(mid) })
}

/// The same interval in another form.
pub(crate) fn map<T: Copy, V>(interval: Interval<T>, to: impl Fn(T) -> V) -> Interval<V> {
    Interval { low: to(interval.low), mid: to(interval.mid), high: to(interval.high) }
}
