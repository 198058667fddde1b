//! Build-ups with framing or cores: the ISO 6946 combined method of two limits.

use uom::si::f64::{HeatTransfer, Ratio};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{ThermalInsulance, insulance_si, ratio, transmittance_si};

/// One path through the build-up, perpendicular to its faces.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatPath {
    /// Share of the area this path takes.
    pub share: Ratio,
    /// Resistance of each layer along the path, from inside to outside, films left out.
    pub layers: Vec<ThermalInsulance>,
}

/// Both limits of the total resistance and their mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CombinedResistance {
    /// Upper limit: the paths in parallel, no sideways flow.
    pub upper: ThermalInsulance,
    /// Lower limit: each layer's planes at one temperature.
    pub lower: ThermalInsulance,
    /// Mean of the limits.
    pub resistance: ThermalInsulance,
    /// U = 1/R.
    pub transmittance: HeatTransfer,
    /// Upper over lower limit.
    pub limit_ratio: Ratio,
}

impl CombinedResistance {
    /// Whether the method holds: ISO 6946:2017 clause 6.7.2.1 sets the ratio of limits at 1.5.
    #[must_use]
    pub fn within_method(&self) -> bool {
        self.limit_ratio.value <= 1.5
    }
}

/// ISO 6946:2017 clause 6.7.2: the mean of the upper and lower limit of resistance.
///
/// # Errors
/// No paths, paths of unequal layer count, shares that do not sum to one (within 1e-6),
/// resistances that are not positive.
pub fn combined(inside: ThermalInsulance, paths: &[HeatPath], outside: ThermalInsulance) -> Result<CombinedResistance> {
    let films = admit::not_negative("inside film", inside.value, "m²·K/W")?
        + admit::not_negative("outside film", outside.value, "m²·K/W")?;
    let Some(first) = paths.first() else {
        return Err(PhysicsError::Empty { what: "list of heat paths".into() });
    };
    let count = first.layers.len();
    if count == 0 {
        return Err(PhysicsError::Empty { what: "list of layers".into() });
    }
    let mut share_sum = 0.0;
    let mut upper_conductance = 0.0;
    let mut plane_conductance = vec![0.0; count];
    for (number, path) in paths.iter().enumerate() {
        let share = admit::within(format!("area share of path {}", number + 1), path.share.value, 0.0, 1.0, "")?;
        if path.layers.len() != count {
            return Err(PhysicsError::Contradiction {
                what: format!("path {}", number + 1).into(),
                why: format!("has {} layers, the first path {count}", path.layers.len()).into(),
            });
        }
        let mut total = films;
        for (index, layer) in path.layers.iter().enumerate() {
            let r = admit::positive(
                format!("resistance of layer {} of path {}", index + 1, number + 1),
                layer.value,
                "m²·K/W",
            )?;
            total += r;
            plane_conductance[index] += share / r;
        }
        upper_conductance += share / total;
        share_sum += share;
    }
    if (share_sum - 1.0).abs() > 1e-6 {
        return Err(PhysicsError::Contradiction {
            what: "area shares of the heat paths".into(),
            why: format!("sum to {share_sum}, not to 1").into(),
        });
    }
    let upper = 1.0 / upper_conductance;
    let lower = films + plane_conductance.iter().map(|c| 1.0 / c).sum::<f64>();
    let mean = 0.5 * (upper + lower);
    Ok(CombinedResistance {
        upper: insulance_si(upper),
        lower: insulance_si(lower),
        resistance: insulance_si(mean),
        transmittance: transmittance_si(1.0 / mean),
        limit_ratio: ratio(upper / lower),
    })
}
