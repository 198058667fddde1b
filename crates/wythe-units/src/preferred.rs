//! The unit a quantity is shown in when the program does not say, by dimension and system.

use crate::dim_words::powered;
use crate::{CompoundUnit, Dim, Kind, Nominal, UnitTerm, unit_named};

/// The system of units output is shown in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum UnitSystem {
    /// Feet and inches, pounds, degrees Fahrenheit.
    #[default]
    Us,
    /// Millimeters, kilograms, degrees Celsius.
    Si,
}

/// A row of the table: names above and below the line, and decimal places.
struct Row {
    dim: Dim,
    kind: Option<Kind>,
    us: (&'static [&'static str], &'static [&'static str], u8),
    si: (&'static [&'static str], &'static [&'static str], u8),
}

const fn row(
    dim: Dim,
    us: (&'static [&'static str], &'static [&'static str], u8),
    si: (&'static [&'static str], &'static [&'static str], u8),
) -> Row {
    Row { dim, kind: None, us, si }
}

/// Preferred units. Common practice, no source.
const ROWS: [Row; 27] = [
    row(Dim::LENGTH, (&["in"], &[], 3), (&["mm"], &[], 0)),
    row(Dim::AREA, (&["ft2"], &[], 2), (&["m2"], &[], 2)),
    row(Dim::VOLUME, (&["ft3"], &[], 2), (&["m3"], &[], 3)),
    row(Dim::MASS, (&["lb"], &[], 1), (&["kg"], &[], 2)),
    Row {
        dim: Dim::TIME,
        kind: Some(Kind::Permeability),
        us: (&["perm_in"], &[], 2),
        si: (&["ng"], &["Pa", "s", "m"], 1),
    },
    row(Dim::TIME, (&["h"], &[], 2), (&["h"], &[], 2)),
    row(Dim::TEMPERATURE, (&["°F"], &[], 1), (&["K"], &[], 1)),
    row(Dim::SPEED, (&["ft"], &["min"], 1), (&["m"], &["s"], 2)),
    row(Dim::FORCE, (&["lbf"], &[], 1), (&["N"], &[], 1)),
    row(Dim::PRESSURE, (&["psi"], &[], 2), (&["Pa"], &[], 1)),
    row(Dim::ENERGY, (&["Btu"], &[], 0), (&["kWh"], &[], 2)),
    row(Dim::POWER, (&["Btu"], &["h"], 0), (&["W"], &[], 1)),
    row(Dim::HEAT_FLUX, (&["Btu"], &["h", "ft2"], 2), (&["W"], &["m2"], 2)),
    row(Dim::AREAL_RESISTANCE, (&["h", "ft2", "°F"], &["Btu"], 2), (&["m2", "K"], &["W"], 2)),
    row(Dim::TRANSMITTANCE, (&["Btu"], &["h", "ft2", "°F"], 2), (&["W"], &["m2", "K"], 2)),
    row(Dim::CONDUCTIVITY, (&["Btu", "in"], &["h", "ft2", "°F"], 3), (&["W"], &["m", "K"], 3)),
    row(Dim::CONDUCTANCE, (&["Btu"], &["h", "°F"], 1), (&["W"], &["K"], 1)),
    row(Dim::HEAT_CAPACITY, (&["Btu"], &["°F"], 1), (&["kJ"], &["K"], 1)),
    row(Dim::SPECIFIC_HEAT, (&["Btu"], &["lb", "°F"], 3), (&["J"], &["kg", "K"], 0)),
    row(Dim::PERMEANCE, (&["perm"], &[], 2), (&["ng"], &["Pa", "s", "m2"], 1)),
    row(Dim::FLOW, (&["cfm"], &[], 1), (&["l"], &["s"], 2)),
    Row { dim: Dim::MASS_FLOW, kind: Some(Kind::VaporRate), us: (&["gr"], &["h"], 1), si: (&["g"], &["h"], 2) },
    row(Dim::MASS_FLOW, (&["lb"], &["day"], 2), (&["kg"], &["day"], 2)),
    row(Dim::MASS_FLUX, (&["gr"], &["h", "ft2"], 2), (&["g"], &["day", "m2"], 2)),
    row(Dim::DENSITY, (&["lb"], &["ft3"], 1), (&["kg"], &["m3"], 0)),
    row(Dim::AREAL_MASS, (&["lb"], &["ft2"], 2), (&["kg"], &["m2"], 2)),
    row(Dim::LINE_FORCE, (&["lbf"], &["in"], 1), (&["N"], &["m"], 1)),
];

/// Decimal places for a unit the table does not have.
const OTHER_PLACES: u8 = 2;

/// The unit a quantity of this dimension and kind is shown in, and the decimal places that go
/// with it. What has no row gets a unit put together from feet, pounds, hours and degrees (or
/// their SI fellows) and its nominal units. None for a plain number, and for exponents that are
/// not whole.
pub fn preferred_unit(dim: Dim, kind: Option<Kind>, system: UnitSystem) -> Option<(CompoundUnit, u8)> {
    if kind == Some(Kind::Angle) {
        return Some((CompoundUnit::from(unit_named("deg")?), OTHER_PLACES));
    }
    if dim.is_none() {
        return None;
    }
    if let Some(unit) = dim.as_nominal() {
        return Some((CompoundUnit::from(unit), OTHER_PLACES));
    }
    let by_kind = |row: &&Row| row.dim == dim && row.kind == kind;
    let found = ROWS.iter().find(by_kind);
    let found = found.or_else(|| ROWS.iter().find(|row| row.dim == dim && row.kind.is_none()));
    let Some(row) = found else {
        return Some((composed(dim, system)?, OTHER_PLACES));
    };
    let (above, below, places) = if system == UnitSystem::Us { row.us } else { row.si };
    Some((CompoundUnit::new(&known(above)?, &known(below)?).ok()?, places))
}

/// The decimal places a value in this unit is shown with.
pub(crate) fn places_of(unit: &CompoundUnit) -> u8 {
    let rows = || ROWS.iter().filter(|row| row.dim == unit.dim());
    if unit.offset().is_some() {
        return rows().map(|row| row.us.2).next().unwrap_or(OTHER_PLACES);
    }
    let choices = rows().flat_map(|row| [row.us, row.si]);
    choices
        .filter_map(|(above, below, places)| {
            let usual = CompoundUnit::new(&known(above)?, &known(below)?).ok()?;
            (usual.text() == unit.text()).then_some(places)
        })
        .next()
        .unwrap_or(OTHER_PLACES)
}

fn known(names: &[&str]) -> Option<Vec<UnitTerm>> {
    names.iter().map(|name| unit_named(*name).map(UnitTerm::Known)).collect()
}

/// A unit for any dimension with whole exponents, money first, counting units last.
fn composed(dim: Dim, system: UnitSystem) -> Option<CompoundUnit> {
    let names = match system {
        UnitSystem::Us => ["ft", "lb", "h", "°F"],
        UnitSystem::Si => ["m", "kg", "s", "K"],
    };
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let mut nominal = |want: fn(Nominal) -> bool, above: &mut Vec<UnitTerm>| {
        for (unit, sixths) in dim.nominal_sixths() {
            if want(unit) {
                let list = if sixths > 0 { &mut *above } else { &mut below };
                let times = whole(sixths)?;
                list.extend(std::iter::repeat_n(UnitTerm::Nominal(unit), times));
            }
        }
        Some(())
    };
    nominal(Nominal::is_currency, &mut above)?;
    let mut counts = Vec::new();
    nominal(|unit| !unit.is_currency(), &mut counts)?;
    for (name, sixths) in names.into_iter().zip(dim.base_sixths()) {
        let list = if sixths > 0 { &mut above } else { &mut below };
        repeat(name, whole(sixths)?, list)?;
    }
    above.append(&mut counts);
    CompoundUnit::new(&above, &below).ok()
}

fn whole(sixths: i8) -> Option<usize> {
    (sixths % 6 == 0).then(|| usize::from(sixths.unsigned_abs()) / 6)
}

/// The base unit `times` over, in squares and cubes where the table has them.
fn repeat(name: &str, times: usize, list: &mut Vec<UnitTerm>) -> Option<()> {
    let mut left = times;
    for power in (1..=3_u8).rev() {
        let Some(unit) = unit_named(powered(name, power * 6).as_str()) else {
            continue;
        };
        while left >= usize::from(power) {
            list.push(UnitTerm::Known(unit));
            left -= usize::from(power);
        }
    }
    (left == 0).then_some(())
}
