//! Code minimums that go by floor area, with their numbers passed in.

use uom::si::f64::{Area, MassRate, Ratio, VolumeRate};

use crate::admit;
use crate::error::Result;
use crate::quantity::square_metre;

/// An amount for every so much floor, such as 1 cfm for 50 ft².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PerFloorArea<Q> {
    /// The amount.
    pub amount: Q,
    /// The floor it serves.
    pub area: Area,
}

/// Ways of conditioning a closed crawl space, of which a code asks for one (IRC R408.3 item 2 by
/// the numbers 1 cfm/50 ft², 1 cfm/50 ft² and 70 pint/day per 1000 ft²; editions differ).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClosedCrawlCode {
    /// Continuous exhaust.
    pub exhaust: PerFloorArea<VolumeRate>,
    /// Conditioned supply air.
    pub supply: PerFloorArea<VolumeRate>,
    /// Dehumidifier, at the rating condition the code leaves open: state it beside the number.
    pub dehumidifier: PerFloorArea<MassRate>,
}

/// The options for one floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClosedCrawlOptions {
    /// Least continuous exhaust.
    pub exhaust: VolumeRate,
    /// Least supply air.
    pub supply: VolumeRate,
    /// Least dehumidifier rating.
    pub dehumidifier: MassRate,
}

impl ClosedCrawlCode {
    /// The options for a floor: any one of them serves.
    ///
    /// # Errors
    /// An area that is not positive.
    pub fn options(&self, floor: Area) -> Result<ClosedCrawlOptions> {
        let area = admit::positive("floor area", floor.value, "m²")?;
        let times = |per: Area, what: &'static str| Ok(area / admit::positive(what, per.value, "m²")?);
        Ok(ClosedCrawlOptions {
            exhaust: self.exhaust.amount * times(self.exhaust.area, "floor area per exhaust")?,
            supply: self.supply.amount * times(self.supply.area, "floor area per supply")?,
            dehumidifier: self.dehumidifier.amount * times(self.dehumidifier.area, "floor area per dehumidifier")?,
        })
    }
}

/// Least net vent area for a floor and a share of it (IRC R408.1: 1/150, or 1/1500 with a class I
/// ground cover).
///
/// # Errors
/// An area that is not positive, a share outside 0 to 1.
pub fn vent_area(floor: Area, share: Ratio) -> Result<Area> {
    let area = admit::positive("floor area", floor.value, "m²")?;
    let share = admit::within("share of floor for vents", share.value, 0.0, 1.0, "")?;
    Ok(square_metre(area * share))
}
