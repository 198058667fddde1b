//! The terms a takeoff is made under: allowances for waste, and the rules of cutting.

use uom::ConstZero as _;
use uom::si::f64::{Length, Ratio};
use uom::si::length::inch;
use wythe_model::Class;
use wythe_model::geometry::Basis;
use wythe_model::ledger::CrewRates;

/// The terms a takeoff is made under.
#[derive(Clone, Debug, PartialEq)]
pub struct Terms {
    /// Lengths as drawn, or as measured on site where measured.
    pub basis: Basis,
    /// Allowance for waste by class, as a share of the net quantity; none is nought.
    pub waste: Vec<(Class, Ratio)>,
    /// Smallest offcut worth keeping: short and long side.
    pub offcut_least: (Length, Length),
    /// Shortest piece of board along a wall, but for walls that are shorter (common practice, no source).
    pub least_piece: Length,
    /// Strips of board may also be cut across the sheet, which saves sheets and makes more joints.
    pub turn: bool,
    /// Only factory edges meet at joints.
    pub factory_joints: bool,
    /// Overlap where a hung sheet ends and the next begins, and at corners (the International Residential Code
    /// R408.3 asks for 6 in of lap on the ground; on walls common practice, no source).
    pub hung_lap: Length,
    /// Overlap of tape on tape (common practice, no source).
    pub tape_lap: Length,
    /// Least distance of an anchor from the edge of its piece (common practice, no source).
    pub anchor_edge: Length,
    /// Stone is bought by the cubic meter, not the cubic yard.
    pub metric: bool,
    /// Bead where the text gives none (common practice, no source).
    pub bead: Length,
}

impl Default for Terms {
    fn default() -> Self {
        let inches = Length::new::<inch>;
        Terms {
            basis: Basis::AsBuilt,
            waste: Vec::new(),
            offcut_least: (inches(6.0), inches(12.0)),
            least_piece: inches(24.0),
            turn: true,
            factory_joints: false,
            hung_lap: inches(6.0),
            tape_lap: inches(2.0),
            anchor_edge: inches(6.0),
            metric: false,
            bead: inches(0.375),
        }
    }
}

impl Terms {
    /// The terms with the allowances and the least offcut of a crew's rates.
    pub fn with_rates(mut self, crew: &CrewRates) -> Self {
        self.waste = crew.waste.iter().map(|w| (w.class, w.share)).collect();
        if let Some((a, b)) = crew.offcut_least {
            self.offcut_least = (a.min(b), a.max(b));
        }
        self
    }

    /// The allowance for a class; a share that is no number or under nought counts as nought.
    pub fn waste_of(&self, class: Class) -> Ratio {
        let share = self.waste.iter().find(|(c, _)| *c == class).map_or(Ratio::ZERO, |(_, s)| *s);
        if share.is_finite() { share.max(Ratio::ZERO) } else { Ratio::ZERO }
    }
}
