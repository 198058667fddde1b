//! The table of units. Factors are exact by definition: the yard and the pound are metric by the
//! 1959 agreement (NIST SP 811, B.6), the gallon is 231 in³, the Btu is that of the International
//! Table (1055.05585262 J), and the inch of mercury is the conventional one (13 595.1 kg/m³ times
//! standard gravity).

use std::f64::consts::PI;
use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use wythe_source::Symbol;

use crate::currency::CURRENCIES;
use crate::preferred::UnitSystem;
use crate::{Dim, Factor, Kind, Nominal, Scalar, Unit};

static UNITS: LazyLock<Vec<Unit>> = LazyLock::new(build);

static BY_NAME: LazyLock<FxHashMap<Symbol, usize>> =
    LazyLock::new(|| UNITS.iter().enumerate().map(|(i, unit)| (Symbol::new(unit.symbol), i)).collect());

/// The unit of a name, unless it is one the program declares.
pub fn unit_named(name: impl Into<Symbol>) -> Option<&'static Unit> {
    BY_NAME.get(&name.into()).and_then(|&index| UNITS.get(index))
}

/// Every unit, in the order of the table: by quantity, small to large.
pub fn all_units() -> &'static [Unit] {
    &UNITS
}

fn exact(numerator: i128, denominator: i128) -> Factor {
    Factor::exact(numerator, denominator)
}

fn build() -> Vec<Unit> {
    let us = Some(UnitSystem::Us);
    let si = Some(UnitSystem::Si);
    let mut units = Vec::new();
    let mut add = |symbol, dim, factor, system, singular, plural| {
        units.push(Unit { symbol, dim, factor, offset: None, kind: None, system, singular, plural });
    };

    let inch = exact(254, 10_000);
    let foot = exact(3048, 10_000);
    let yard = exact(9144, 10_000);
    let mm = exact(1, 1000);
    let cm = exact(1, 100);
    add("mil", Dim::LENGTH, exact(254, 10_000_000), us, "mil", "mils");
    add("in", Dim::LENGTH, inch, us, "inch", "inches");
    add("ft", Dim::LENGTH, foot, us, "foot", "feet");
    add("yd", Dim::LENGTH, yard, us, "yard", "yards");
    add("mi", Dim::LENGTH, exact(1_609_344, 1000), us, "mile", "miles");
    add("mm", Dim::LENGTH, mm, si, "millimeter", "millimeters");
    add("cm", Dim::LENGTH, cm, si, "centimeter", "centimeters");
    add("m", Dim::LENGTH, Factor::ONE, si, "meter", "meters");
    add("km", Dim::LENGTH, exact(1000, 1), si, "kilometer", "kilometers");

    let square = |side: Factor| side.times(side);
    let cube = |side: Factor| side.times(side).times(side);
    let foot2 = square(foot);
    add("in2", Dim::AREA, square(inch), us, "square inch", "square inches");
    add("ft2", Dim::AREA, foot2, us, "square foot", "square feet");
    add("yd2", Dim::AREA, square(yard), us, "square yard", "square yards");
    add("mm2", Dim::AREA, square(mm), si, "square millimeter", "square millimeters");
    add("cm2", Dim::AREA, square(cm), si, "square centimeter", "square centimeters");
    add("m2", Dim::AREA, Factor::ONE, si, "square meter", "square meters");

    let gallon = cube(inch).times(exact(231, 1));
    let pint = gallon.times(exact(1, 8));
    add("in3", Dim::VOLUME, cube(inch), us, "cubic inch", "cubic inches");
    add("ft3", Dim::VOLUME, cube(foot), us, "cubic foot", "cubic feet");
    add("yd3", Dim::VOLUME, cube(yard), us, "cubic yard", "cubic yards");
    add("floz", Dim::VOLUME, gallon.times(exact(1, 128)), us, "US fluid ounce", "US fluid ounces");
    add("pint", Dim::VOLUME, pint, us, "US liquid pint", "US liquid pints");
    add("qt", Dim::VOLUME, gallon.times(exact(1, 4)), us, "US liquid quart", "US liquid quarts");
    add("gal", Dim::VOLUME, gallon, us, "US gallon", "US gallons");
    add("ml", Dim::VOLUME, exact(1, 1_000_000), si, "milliliter", "milliliters");
    add("l", Dim::VOLUME, exact(1, 1000), si, "liter", "liters");
    add("m3", Dim::VOLUME, Factor::ONE, si, "cubic meter", "cubic meters");

    let pound = exact(45_359_237, 100_000_000);
    let grain = pound.times(exact(1, 7000));
    add("gr", Dim::MASS, grain, us, "grain", "grains");
    add("oz", Dim::MASS, pound.times(exact(1, 16)), us, "ounce", "ounces");
    add("lb", Dim::MASS, pound, us, "pound", "pounds");
    add("ng", Dim::MASS, exact(1, 1_000_000_000_000), si, "nanogram", "nanograms");
    add("mg", Dim::MASS, exact(1, 1_000_000), si, "milligram", "milligrams");
    add("g", Dim::MASS, exact(1, 1000), si, "gram", "grams");
    add("kg", Dim::MASS, Factor::ONE, si, "kilogram", "kilograms");

    let gravity = exact(980_665, 100_000);
    let pound_force = pound.times(gravity);
    let mercury = exact(135_951, 10).times(gravity).times(inch);
    add("lbf", Dim::FORCE, pound_force, us, "pound-force", "pounds-force");
    add("N", Dim::FORCE, Factor::ONE, si, "newton", "newtons");
    let per_foot2 = pound_force.times(foot2.recip());
    let per_inch2 = pound_force.times(square(inch).recip());
    add("psf", Dim::PRESSURE, per_foot2, us, "pound per square foot", "pounds per square foot");
    add("psi", Dim::PRESSURE, per_inch2, us, "pound per square inch", "pounds per square inch");
    add("inHg", Dim::PRESSURE, mercury, us, "inch of mercury", "inches of mercury");
    add("Pa", Dim::PRESSURE, Factor::ONE, si, "pascal", "pascals");
    add("kPa", Dim::PRESSURE, exact(1000, 1), si, "kilopascal", "kilopascals");

    let hour = exact(3600, 1);
    add("s", Dim::TIME, Factor::ONE, None, "second", "seconds");
    add("min", Dim::TIME, exact(60, 1), None, "minute", "minutes");
    add("h", Dim::TIME, hour, None, "hour", "hours");
    add("day", Dim::TIME, exact(86_400, 1), None, "day", "days");
    add("week", Dim::TIME, exact(604_800, 1), None, "week", "weeks");

    let btu = exact(105_505_585_262, 100_000_000);
    add("J", Dim::ENERGY, Factor::ONE, si, "joule", "joules");
    add("kJ", Dim::ENERGY, exact(1000, 1), si, "kilojoule", "kilojoules");
    add("MJ", Dim::ENERGY, exact(1_000_000, 1), si, "megajoule", "megajoules");
    add("Btu", Dim::ENERGY, btu, us, "Btu", "Btu");
    add("kBtu", Dim::ENERGY, btu.times(exact(1000, 1)), us, "thousand Btu", "thousand Btu");
    add("MMBtu", Dim::ENERGY, btu.times(exact(1_000_000, 1)), us, "million Btu", "million Btu");
    add("Wh", Dim::ENERGY, hour, None, "watt hour", "watt hours");
    add("kWh", Dim::ENERGY, exact(3_600_000, 1), None, "kilowatt hour", "kilowatt hours");
    add("W", Dim::POWER, Factor::ONE, None, "watt", "watts");
    add("kW", Dim::POWER, exact(1000, 1), None, "kilowatt", "kilowatts");

    let perm = grain.times(hour.recip()).times(foot2.recip()).times(mercury.recip());
    add("perm", Dim::PERMEANCE, perm, us, "perm", "perms");
    let cfm = cube(foot).times(exact(1, 60));
    add("cfm", Dim::FLOW, cfm, us, "cubic foot per minute", "cubic feet per minute");
    add("K", Dim::TEMPERATURE, Factor::ONE, si, "kelvin", "kelvins");
    add("%", Dim::NONE, exact(1, 100), None, "percent", "percent");

    let mut special = |symbol, dim, factor, offset, kind, system, singular, plural| {
        units.push(Unit { symbol, dim, factor, offset, kind, system, singular, plural });
    };
    special(
        "°F",
        Dim::TEMPERATURE,
        exact(5, 9),
        Scalar::ratio(45_967, 100).ok(),
        None,
        us,
        "degree Fahrenheit",
        "degrees Fahrenheit",
    );
    special(
        "°C",
        Dim::TEMPERATURE,
        Factor::ONE,
        Scalar::ratio(27_315, 100).ok(),
        None,
        si,
        "degree Celsius",
        "degrees Celsius",
    );
    // The only factor that is not rational.
    let degree = Factor::Approx(PI / 180.0);
    special("deg", Dim::ANGLE, degree, None, Some(Kind::Angle), None, "degree", "degrees");
    special(
        "perm_in",
        Dim::PERMEABILITY,
        perm.times(inch),
        None,
        Some(Kind::Permeability),
        us,
        "perm inch",
        "perm inches",
    );
    let piece = Dim::nominal(Nominal::built_in(Symbol::new("pc")));
    special("pc", piece, Factor::ONE, None, None, None, "piece", "pieces");
    for (code, singular, plural, _) in CURRENCIES {
        let money = Dim::money(code);
        special(code, money, Factor::ONE, None, None, None, singular, plural);
    }
    units
}
