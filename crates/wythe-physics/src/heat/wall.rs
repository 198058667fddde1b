//! A wall averaged over its horizontal bands, with each band's share of the loss: the price of
//! the bare inspection band shown beside its share of area.

use uom::si::f64::{Area, HeatTransfer, Length, Ratio, ThermalConductance};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{ThermalInsulance, conductance_si, insulance_si, ratio, square_metre, transmittance_si};

/// A horizontal band of one build-up.
#[derive(Debug, Clone, PartialEq)]
pub struct WallBand {
    /// Name of the band, for the report.
    pub name: String,
    /// Height of the band.
    pub height: Length,
    /// Length of the band along the wall.
    pub length: Length,
    /// Transmittance of its build-up.
    pub transmittance: HeatTransfer,
}

/// What one band contributes.
#[derive(Debug, Clone, PartialEq)]
pub struct BandLoss {
    /// Name of the band.
    pub name: String,
    /// Its area.
    pub area: Area,
    /// Its conductance, U·A.
    pub conductance: ThermalConductance,
    /// Its share of the area.
    pub area_share: Ratio,
    /// Its share of the loss.
    pub loss_share: Ratio,
}

/// A wall averaged over its bands.
#[derive(Debug, Clone, PartialEq)]
pub struct WallAverage {
    /// Total area.
    pub area: Area,
    /// Area-weighted transmittance.
    pub transmittance: HeatTransfer,
    /// Reciprocal of the mean transmittance: the effective resistance.
    pub resistance: ThermalInsulance,
    /// The bands, in the order given.
    pub bands: Vec<BandLoss>,
}

/// Area-weighted transmittance of bands side by side (parallel heat flow; sideways flow between
/// bands is neglected, see the two-dimensional section for that).
///
/// # Errors
/// No bands, or a height, length or transmittance that is not positive.
pub fn wall_average(bands: &[WallBand]) -> Result<WallAverage> {
    if bands.is_empty() {
        return Err(PhysicsError::Empty { what: "list of wall bands".into() });
    }
    let mut areas = Vec::with_capacity(bands.len());
    let mut total_area = 0.0;
    let mut total_loss = 0.0;
    for band in bands {
        let height = admit::positive(format!("height of band {}", band.name), band.height.value, "m")?;
        let length = admit::positive(format!("length of band {}", band.name), band.length.value, "m")?;
        let u = admit::positive(format!("transmittance of band {}", band.name), band.transmittance.value, "W/(m²·K)")?;
        let area = height * length;
        total_area += area;
        total_loss += u * area;
        areas.push((area, u * area));
    }
    let bands = bands
        .iter()
        .zip(&areas)
        .map(|(band, &(area, loss))| BandLoss {
            name: band.name.clone(),
            area: square_metre(area),
            conductance: conductance_si(loss),
            area_share: ratio(area / total_area),
            loss_share: ratio(loss / total_loss),
        })
        .collect();
    let mean = total_loss / total_area;
    Ok(WallAverage {
        area: square_metre(total_area),
        transmittance: transmittance_si(mean),
        resistance: insulance_si(1.0 / mean),
        bands,
    })
}

/// Extra conductance of a bare band over the same area built like its insulated neighbor: what
/// the inspection gap costs, W/K.
///
/// # Errors
/// A band whose name is not among `wall`'s bands, a transmittance that is not positive.
pub fn band_cost(wall: &WallAverage, bare: &str, insulated: HeatTransfer) -> Result<ThermalConductance> {
    let u = admit::positive("insulated transmittance", insulated.value, "W/(m²·K)")?;
    let band = wall.bands.iter().find(|band| band.name == bare).ok_or_else(|| PhysicsError::Contradiction {
        what: format!("band {bare}").into(),
        why: "is not a band of this wall".into(),
    })?;
    Ok(conductance_si(band.conductance.value - u * band.area.value))
}
