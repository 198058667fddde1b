//! What the checks ask for, each a named value with its source, so that a rule pack can ask for another.

use std::sync::Arc;

use uom::si::length::inch;
use wythe_model::{Length, Permeance};
use wythe_source::Span;

/// A length the checks ask for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Need {
    /// Contact of a coating with a sheet, for the vapor line.
    VaporContact,
    /// Lap of sheet over sheet, for the vapor line.
    VaporLap,
    /// How far the pier wrap is tied up the pier.
    PierTurnUp,
    /// Widest gap between two pieces of insulation that still touch.
    HeatJoint,
    /// How far below outside grade insulation goes where it does not reach the crawl floor.
    HeatDepth,
    /// Lap of an upper waterproof layer outside a lower one.
    WaterLap,
    /// Farthest a drain may lie from the lower end of the waterproofing.
    DrainReach,
    /// Widest spacing of the fasteners of a hung sheet.
    LinerSpacing,
    /// Least bite of a fastener whose product states none.
    FastenerBite,
    /// Widest band that counts as left bare on purpose.
    BareBand,
    /// How far apart two layers may lie for a mend between them to be looked for.
    MendReach,
}

impl Need {
    /// All, in order.
    pub const ALL: [Need; 11] = [
        Need::VaporContact,
        Need::VaporLap,
        Need::PierTurnUp,
        Need::HeatJoint,
        Need::HeatDepth,
        Need::WaterLap,
        Need::DrainReach,
        Need::LinerSpacing,
        Need::FastenerBite,
        Need::BareBand,
        Need::MendReach,
    ];

    /// The name by which a pack sets it.
    pub const fn name(self) -> &'static str {
        match self {
            Need::VaporContact => "vapor_contact",
            Need::VaporLap => "vapor_lap",
            Need::PierTurnUp => "pier_turn_up",
            Need::HeatJoint => "heat_joint",
            Need::HeatDepth => "heat_depth",
            Need::WaterLap => "water_lap",
            Need::DrainReach => "drain_reach",
            Need::LinerSpacing => "liner_spacing",
            Need::FastenerBite => "fastener_bite",
            Need::BareBand => "bare_band",
            Need::MendReach => "mend_reach",
        }
    }

    /// The need of a name, of those that a pack or a manifest may set. How far mends are looked for is nobody's to ask.
    pub fn of_name(name: &str) -> Option<Need> {
        Need::ALL.into_iter().find(|n| n.name() == name && *n != Need::MendReach)
    }

    /// What is asked for where no pack says otherwise, in inches, and where that comes from.
    const fn default(self) -> (f64, &'static str) {
        const PRACTICE: &str = "common practice, no source";
        match self {
            Need::VaporContact => (3.0, PRACTICE),
            Need::VaporLap => {
                (6.0, "IRC R408.3 (from memory): joints of the ground vapor retarder lap 6 in and are sealed")
            }
            Need::PierTurnUp => (4.0, PRACTICE),
            Need::HeatJoint => (0.125, PRACTICE),
            Need::HeatDepth => (24.0, "IECC R402.2.11 (from memory): crawl wall insulation goes 24 in below grade"),
            Need::WaterLap => (2.0, PRACTICE),
            Need::DrainReach => (12.0, PRACTICE),
            Need::LinerSpacing => (24.0, PRACTICE),
            Need::FastenerBite => (0.75, PRACTICE),
            Need::BareBand => (6.0, PRACTICE),
            Need::MendReach => (24.0, "a limit of the search, not of the trade"),
        }
    }
}

/// The name by which a pack sets the most permeance a layer of the vapor line may have.
pub const VAPOR_LIMIT: &str = "vapor_limit";

/// One thing asked for, with its name.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Ask {
    /// A length.
    Length(Need, Length),
    /// The most permeance a layer of the vapor line may have.
    VaporLimit(Permeance),
}

impl Ask {
    /// Whether such a thing can be asked for: a length from nothing to a mile, a permeance of more than nothing.
    pub fn is_possible(&self) -> bool {
        match self {
            Ask::Length(_, length) => (0.0..=1609.344).contains(&length.value),
            Ask::VaporLimit(limit) => limit.value > 0.0 && limit.value.is_finite(),
        }
    }
}

/// What the checks ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct Requirements {
    lengths: [Length; Need::ALL.len()],
    sources: [Arc<str>; Need::ALL.len()],
    origins: [Option<Span>; Need::ALL.len()],
    /// The most permeance a layer of the vapor line may have.
    pub vapor_limit: Permeance,
    /// Where the limit comes from.
    pub vapor_limit_source: Arc<str>,
}

impl Requirements {
    /// The length asked for.
    pub fn length(&self, need: Need) -> Length {
        self.lengths[need as usize]
    }

    /// Whose requirement it is.
    pub fn source(&self, need: Need) -> &str {
        &self.sources[need as usize]
    }

    /// Where it is asked for, if a pack or a manifest does.
    pub fn origin(&self, need: Need) -> Option<Span> {
        self.origins[need as usize]
    }

    /// Asks for something else, and says on whose word and where. What cannot be asked for is passed over.
    pub fn set(&mut self, ask: Ask, source: impl Into<Arc<str>>, origin: Option<Span>) {
        match ask {
            _ if !ask.is_possible() => {}
            Ask::Length(need, length) => {
                self.lengths[need as usize] = length;
                self.sources[need as usize] = source.into();
                self.origins[need as usize] = origin;
            }
            Ask::VaporLimit(limit) => {
                self.vapor_limit = limit;
                self.vapor_limit_source = source.into();
            }
        }
    }
}

/// 1 perm in kg/(s·m²·Pa): 1 grain/(h·ft²·inHg), NIST SP 811 (2008) appendix B.8, perm at 0 °C and 23 °C: 5.72135e-11 and
/// 5.74525e-11; the value at 0 °C is the one in common use.
const PERM: f64 = 5.721_35e-11;

impl Default for Requirements {
    fn default() -> Self {
        Requirements {
            lengths: Need::ALL.map(|n| Length::new::<inch>(n.default().0)),
            sources: Need::ALL.map(|n| Arc::from(n.default().1)),
            origins: [None; Need::ALL.len()],
            vapor_limit: permeance_in_perms(0.1),
            vapor_limit_source: Arc::from("IRC R202 (from memory): class I vapor retarder, 0.1 perm or less"),
        }
    }
}

/// A permeance from a figure in perms.
pub(crate) fn permeance_in_perms(perms: f64) -> Permeance {
    Permeance { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: perms * PERM }
}

#[cfg(test)]
mod tests {
    use uom::si::length::inch;

    use super::{Ask, Length, Need, Requirements};

    #[test]
    fn each_need_has_its_own_slot_and_name() {
        let mut asked = Requirements::default();
        for (at, need) in Need::ALL.into_iter().enumerate() {
            assert_eq!(need as usize, at);
            assert_eq!(Need::of_name(need.name()), Some(need).filter(|n| *n != Need::MendReach));
        }
        asked.set(Ask::Length(Need::VaporLap, Length::new::<inch>(12.0)), "a pack", None);
        asked.set(Ask::Length(Need::VaporLap, Length::new::<inch>(f64::NAN)), "nobody", None);
        asked.set(Ask::Length(Need::VaporContact, Length::new::<inch>(-1.0)), "nobody", None);
        assert_eq!(asked.length(Need::VaporLap), Length::new::<inch>(12.0));
        assert_eq!(asked.source(Need::VaporLap), "a pack");
        assert_eq!(asked.length(Need::VaporContact), Length::new::<inch>(3.0));
    }
}
