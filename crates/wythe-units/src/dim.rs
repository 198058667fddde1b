//! Dimensions: rational exponents over length, mass, time and temperature, and up to three
//! nominal units.

use crate::Nominal;

/// Exponents are stored in sixths, so that square and cube roots stay whole.
const SIXTHS: i8 = 6;
const NOMINALS: usize = 3;

/// A product of powers that does not fit: an exponent past 21, or more than three nominal units.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
#[error("the dimension is too large to be of use")]
pub struct DimOverflow;

/// The dimension of a quantity.
///
/// Temperature is a temperature *difference*; money and counting units are nominal.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Dim {
    /// Length, mass, time, temperature, in sixths.
    base: [i8; 4],
    /// Exponents of the nominal units, in sixths; zero where there is none.
    powers: [i8; NOMINALS],
    /// The nominal units by number, ascending, then zeros.
    nominals: [u32; NOMINALS],
}

const fn base(length: i8, mass: i8, time: i8, temperature: i8) -> Dim {
    Dim {
        base: [length * SIXTHS, mass * SIXTHS, time * SIXTHS, temperature * SIXTHS],
        powers: [0; NOMINALS],
        nominals: [0; NOMINALS],
    }
}

impl Dim {
    /// A plain number.
    pub const NONE: Dim = base(0, 0, 0, 0);
    /// Plane angle: a plain number of radians. A [`crate::Kind`] keeps it apart.
    pub const ANGLE: Dim = Dim::NONE;
    /// Length, m.
    pub const LENGTH: Dim = base(1, 0, 0, 0);
    /// Area, m².
    pub const AREA: Dim = base(2, 0, 0, 0);
    /// Volume, m³.
    pub const VOLUME: Dim = base(3, 0, 0, 0);
    /// Mass, kg.
    pub const MASS: Dim = base(0, 1, 0, 0);
    /// Time, s.
    pub const TIME: Dim = base(0, 0, 1, 0);
    /// Temperature difference, K.
    pub const TEMPERATURE: Dim = base(0, 0, 0, 1);
    /// Speed, m/s.
    pub const SPEED: Dim = base(1, 0, -1, 0);
    /// Force, N.
    pub const FORCE: Dim = base(1, 1, -2, 0);
    /// Pressure, Pa.
    pub const PRESSURE: Dim = base(-1, 1, -2, 0);
    /// Energy, J.
    pub const ENERGY: Dim = base(2, 1, -2, 0);
    /// Power, W.
    pub const POWER: Dim = base(2, 1, -3, 0);
    /// Heat flux, W/m².
    pub const HEAT_FLUX: Dim = base(0, 1, -3, 0);
    /// Thermal resistance of an area (R), m²·K/W.
    pub const AREAL_RESISTANCE: Dim = base(0, -1, 3, 1);
    /// Thermal transmittance (U), W/(m²·K).
    pub const TRANSMITTANCE: Dim = base(0, 1, -3, -1);
    /// Thermal conductivity, W/(m·K).
    pub const CONDUCTIVITY: Dim = base(1, 1, -3, -1);
    /// Heat loss coefficient, W/K.
    pub const CONDUCTANCE: Dim = base(2, 1, -3, -1);
    /// Linear thermal transmittance (psi value) shares W/(m·K) with conductivity.
    pub const LINEAR_TRANSMITTANCE: Dim = Dim::CONDUCTIVITY;
    /// Heat capacity, J/K.
    pub const HEAT_CAPACITY: Dim = base(2, 1, -2, -1);
    /// Specific heat, J/(kg·K).
    pub const SPECIFIC_HEAT: Dim = base(2, 0, -2, -1);
    /// Water vapor permeance, kg/(s·m²·Pa).
    pub const PERMEANCE: Dim = base(-1, 0, 1, 0);
    /// Vapor resistance, the reciprocal of permeance.
    pub const VAPOR_RESISTANCE: Dim = base(1, 0, -1, 0);
    /// Water vapor permeability, kg/(s·m·Pa): the dimension of time. A kind keeps it apart.
    pub const PERMEABILITY: Dim = Dim::TIME;
    /// Volume flow, m³/s.
    pub const FLOW: Dim = base(3, 0, -1, 0);
    /// Mass flow, kg/s.
    pub const MASS_FLOW: Dim = base(0, 1, -1, 0);
    /// Mass flow through an area, kg/(m²·s).
    pub const MASS_FLUX: Dim = base(-2, 1, -1, 0);
    /// Density, kg/m³.
    pub const DENSITY: Dim = base(-3, 1, 0, 0);
    /// Mass of an area, kg/m².
    pub const AREAL_MASS: Dim = base(-2, 1, 0, 0);
    /// Tensile strength of a sheet, N/m.
    pub const LINE_FORCE: Dim = base(0, 1, -2, 0);
    /// Something per time, such as air changes.
    pub const FREQUENCY: Dim = base(0, 0, -1, 0);

    /// The dimension of a nominal unit.
    pub fn nominal(unit: Nominal) -> Dim {
        let mut dim = Dim::NONE;
        dim.powers[0] = SIXTHS;
        dim.nominals[0] = unit.id();
        dim
    }

    /// Money of a currency, by its ISO 4217 code.
    pub fn money(code: &str) -> Dim {
        Dim::nominal(Nominal::currency(code.into()))
    }

    /// Whether this is a plain number.
    pub fn is_none(self) -> bool {
        self == Dim::NONE
    }

    /// The product.
    #[expect(clippy::should_implement_trait, reason = "the operators cannot fail, this can")]
    pub fn mul(self, other: Dim) -> Result<Dim, DimOverflow> {
        self.combine(other, i8::checked_add)
    }

    /// The quotient.
    #[expect(clippy::should_implement_trait, reason = "the operators cannot fail, this can")]
    pub fn div(self, other: Dim) -> Result<Dim, DimOverflow> {
        self.combine(other, i8::checked_sub)
    }

    /// The reciprocal.
    pub fn recip(self) -> Result<Dim, DimOverflow> {
        Dim::NONE.div(self)
    }

    /// The whole power.
    pub fn pow(self, exponent: i8) -> Result<Dim, DimOverflow> {
        if exponent == 0 {
            return Ok(Dim::NONE);
        }
        self.each(|power| power.checked_mul(exponent))
    }

    /// The root; refused when an exponent would not be a whole number of sixths.
    pub fn root(self, degree: u8) -> Result<Dim, DimOverflow> {
        let degree = i8::try_from(degree).ok().filter(|&d| d > 0).ok_or(DimOverflow)?;
        self.each(|power| (power % degree == 0).then_some(power / degree))
    }

    /// Exponents of length, mass, time and temperature in sixths.
    pub fn base_sixths(self) -> [i8; 4] {
        self.base
    }

    /// The nominal units and their exponents in sixths, ordered by name so that text made from
    /// them does not depend on which was met first.
    pub fn nominal_sixths(self) -> Vec<(Nominal, i8)> {
        let mut list: Vec<(Nominal, i8)> = self
            .nominals
            .iter()
            .zip(self.powers)
            .filter(|&(_, power)| power != 0)
            .map(|(&id, power)| (Nominal::from_id(id), power))
            .collect();
        list.sort_by_key(|(unit, _)| (unit.name(), unit.scope()));
        list
    }

    /// Whether any nominal unit takes part.
    pub fn has_nominal(self) -> bool {
        self.powers[0] != 0
    }

    /// The currency, if this is an amount of money and nothing else.
    pub fn as_money(self) -> Option<Nominal> {
        self.as_nominal().filter(|unit| unit.is_currency())
    }

    /// The nominal unit, if this is one to the first power and nothing else.
    pub fn as_nominal(self) -> Option<Nominal> {
        let alone = self.base == [0; 4] && self.powers == [SIXTHS, 0, 0];
        alone.then(|| Nominal::from_id(self.nominals[0]))
    }

    /// The part without nominal units.
    pub fn physical(self) -> Dim {
        Dim { base: self.base, ..Dim::NONE }
    }

    fn each(self, f: impl Fn(i8) -> Option<i8>) -> Result<Dim, DimOverflow> {
        let mut out = self;
        for power in out.base.iter_mut().chain(out.powers.iter_mut()) {
            *power = f(*power).ok_or(DimOverflow)?;
        }
        Ok(out)
    }

    fn combine(self, other: Dim, op: impl Fn(i8, i8) -> Option<i8>) -> Result<Dim, DimOverflow> {
        let mut out = Dim::NONE;
        for i in 0..self.base.len() {
            out.base[i] = op(self.base[i], other.base[i]).ok_or(DimOverflow)?;
        }
        if !self.has_nominal() && !other.has_nominal() {
            return Ok(out);
        }
        // Merge of two ascending lists; powers that cancel leave no trace.
        let (mut i, mut j, mut k) = (0, 0, 0);
        loop {
            let left = self.at(i);
            let right = other.at(j);
            let (id, power) = match (left, right) {
                (None, None) => return Ok(out),
                (Some((a, p)), Some((b, q))) if a == b => {
                    (i, j) = (i + 1, j + 1);
                    (a, op(p, q))
                }
                (Some((a, p)), right) if right.is_none_or(|(b, _)| a < b) => {
                    i += 1;
                    (a, op(p, 0))
                }
                (_, Some((b, q))) => {
                    j += 1;
                    (b, op(0, q))
                }
                (Some(_), None) => return Err(DimOverflow),
            };
            let power = power.ok_or(DimOverflow)?;
            if power != 0 {
                *out.nominals.get_mut(k).ok_or(DimOverflow)? = id;
                out.powers[k] = power;
                k += 1;
            }
        }
    }

    fn at(self, index: usize) -> Option<(u32, i8)> {
        let power = *self.powers.get(index)?;
        (power != 0).then(|| (self.nominals[index], power))
    }
}

impl std::fmt::Debug for Dim {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.describe())
    }
}

const _: () = assert!(size_of::<Dim>() <= 24);
