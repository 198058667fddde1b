//! Dimensions in words, for messages: a permeance, an area per hour.

use crate::{Dim, Kind, Quantity};

/// Trade names, the plainest first: a message picks the first that fits.
const NAMES: [(Dim, &str); 26] = [
    (Dim::NONE, "plain number"),
    (Dim::LENGTH, "length"),
    (Dim::AREA, "area"),
    (Dim::VOLUME, "volume"),
    (Dim::MASS, "mass"),
    (Dim::TIME, "time"),
    (Dim::TEMPERATURE, "temperature difference"),
    (Dim::SPEED, "speed"),
    (Dim::FORCE, "force"),
    (Dim::PRESSURE, "pressure"),
    (Dim::ENERGY, "energy"),
    (Dim::POWER, "power"),
    (Dim::HEAT_FLUX, "heat flux"),
    (Dim::AREAL_RESISTANCE, "thermal resistance"),
    (Dim::TRANSMITTANCE, "thermal transmittance"),
    (Dim::CONDUCTIVITY, "thermal conductivity"),
    (Dim::CONDUCTANCE, "heat loss coefficient"),
    (Dim::HEAT_CAPACITY, "heat capacity"),
    (Dim::SPECIFIC_HEAT, "specific heat"),
    (Dim::PERMEANCE, "permeance"),
    (Dim::FLOW, "flow rate"),
    (Dim::MASS_FLOW, "mass flow rate"),
    (Dim::MASS_FLUX, "mass flow through an area"),
    (Dim::DENSITY, "density"),
    (Dim::AREAL_MASS, "mass of an area"),
    (Dim::LINE_FORCE, "force on a line"),
];

/// What may stand after "per" or "times", the plainest first.
const PARTNERS: [(Dim, &str, &str); 6] = [
    (Dim::TIME, "hour", "time"),
    (Dim::LENGTH, "length", "length"),
    (Dim::AREA, "area", "area"),
    (Dim::VOLUME, "volume", "volume"),
    (Dim::MASS, "mass", "mass"),
    (Dim::TEMPERATURE, "degree", "temperature difference"),
];

impl Dim {
    /// The trade name, if the dimension has one: "permeance", "thermal resistance".
    pub fn name(self) -> Option<&'static str> {
        NAMES.iter().find(|(dim, _)| *dim == self).map(|(_, name)| *name)
    }

    /// Readable words with their article: "a length", "an area per hour", "USD per sheet".
    pub fn describe(self) -> String {
        let physical = self.physical();
        let (above, below) = self.nominal_words();
        let mut words = match (physical.is_none(), above.is_empty()) {
            (true, true) if below.is_empty() => "a plain number".to_owned(),
            (true, true) => "a number".to_owned(),
            (true, false) => match self.as_nominal() {
                Some(unit) if unit.is_currency() => {
                    format!("an amount of money in {}", unit.name())
                }
                Some(unit) => format!("a count in {}", unit.name()),
                None => format!("an amount in {}", above.join(" ")),
            },
            (false, true) => with_article(&physical.words()),
            (false, false) => match physical.recip().ok().and_then(Dim::per_name) {
                Some(partner) if below.is_empty() => {
                    return format!("an amount in {} per {partner}", above.join(" "));
                }
                _ => format!("{} times {}", with_article(&physical.words()), above.join(" ")),
            },
        };
        if !below.is_empty() {
            words.push_str(" per ");
            words.push_str(&below.join(" "));
        }
        words
    }

    /// As [`Dim::describe`], with the kind's own name where there is one.
    pub fn describe_kind(self, kind: Option<Kind>) -> String {
        kind.map_or_else(|| self.describe(), |kind| with_article(kind.name()))
    }

    /// Names of the nominal units above and below the line.
    fn nominal_words(self) -> (Vec<String>, Vec<String>) {
        let (mut above, mut below) = (Vec::new(), Vec::new());
        for (unit, sixths) in self.nominal_sixths() {
            let list = if sixths > 0 { &mut above } else { &mut below };
            list.push(powered(unit.name().as_str(), sixths.unsigned_abs()));
        }
        (above, below)
    }

    fn per_name(self) -> Option<&'static str> {
        PARTNERS.iter().find(|(dim, ..)| *dim == self).map(|(_, per, _)| *per)
    }

    /// Words for a dimension without nominal units.
    fn words(self) -> String {
        if let Some(name) = self.name() {
            return name.to_owned();
        }
        for (partner, per, _) in PARTNERS {
            if let Some(name) = self.mul(partner).ok().and_then(Dim::name) {
                let name = if name == "plain number" { "number" } else { name };
                return format!("{name} per {per}");
            }
        }
        for (partner, _, times) in PARTNERS {
            if let Some(name) = self.div(partner).ok().and_then(Dim::name) {
                return format!("{name} times {times}");
            }
        }
        if let Some(name) = self.recip().ok().and_then(Dim::name) {
            return format!("number per {name}");
        }
        let (mut above, mut below) = (Vec::new(), Vec::new());
        for (symbol, sixths) in ["m", "kg", "s", "K"].into_iter().zip(self.base_sixths()) {
            match sixths {
                0 => {}
                1.. => above.push(powered(symbol, sixths.unsigned_abs())),
                _ => below.push(powered(symbol, sixths.unsigned_abs())),
            }
        }
        let above = if above.is_empty() { "1".to_owned() } else { above.join(" ") };
        if below.is_empty() {
            format!("quantity in {above}")
        } else {
            format!("quantity in {above} per {}", below.join(" "))
        }
    }
}

impl Quantity {
    /// What sort of quantity this is, in words: "a length", "a net area".
    pub fn describe(&self) -> String {
        self.dim.describe_kind(self.kind)
    }
}

/// A name with its exponent: `m`, `m2`, `m^1/2`.
pub(crate) fn powered(name: &str, sixths: u8) -> String {
    match (sixths / 6, sixths % 6) {
        (1, 0) => name.to_owned(),
        (whole, 0) => format!("{name}{whole}"),
        (_, 3) => format!("{name}^{}/2", sixths / 3),
        (_, rest) if rest % 2 == 0 => format!("{name}^{}/3", sixths / 2),
        _ => format!("{name}^{sixths}/6"),
    }
}

fn with_article(words: &str) -> String {
    let vowel = words.starts_with(['a', 'e', 'i', 'o']);
    format!("{} {words}", if vowel { "an" } else { "a" })
}
