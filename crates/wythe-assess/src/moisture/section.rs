//! Condensation inside walls and at the foot of piers, month by month: ISO 13788.

use uom::si::f64::ArealMassDensity;
use wythe_model::geometry::Basis;
use wythe_model::quantity::{Band, wall_bands};
use wythe_model::{Foundation, Product, Work};
use wythe_physics::PhysicsError;
use wythe_physics::air::saturation::saturation_iso_13788;
use wythe_physics::heat::film::{outside_film, sheltered_film};
use wythe_physics::heat::surface::MonthlyAir;
use wythe_physics::quantity::{RelativeHumidity, insulance_si};
use wythe_physics::vapor::interstitial::{
    InterstitialVerdict, InterstitialYear, VaporLayer, VaporMonth, VaporSection, interstitial_year,
};
use wythe_physics::vapor::permeance::Permeance;
use wythe_physics::weather::WeatherYear;
use wythe_physics::zone::result::ZoneYear;
use wythe_source::Symbol;

use super::space::covering;
use crate::Assumptions;
use crate::assumption::ASSUMED;
use crate::figure::{m, share};
use crate::heat::{WallHeat, monthly_air, resistance_of};

/// Condensation in one section.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionMoisture {
    /// Which section.
    pub name: String,
    /// Its layers, from the inside out.
    pub layers: Vec<Symbol>,
    /// Whether it condenses, dries or builds up.
    pub verdict: InterstitialVerdict,
    /// Most water held at the end of a month.
    pub peak: ArealMassDensity,
    /// Its months.
    pub year: InterstitialYear,
}

const DAYS: [u16; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

pub(super) fn sections(
    f: &Foundation,
    walls: &[WallHeat],
    weather: &WeatherYear,
    year: &ZoneYear,
    assumed: &mut Assumptions,
) -> Result<Vec<SectionMoisture>, PhysicsError> {
    assumed.note(
        "condensation inside walls",
        "steady months, film of 0.25 inside and 0.04 m²·K/W outside; no liquid flow, no storage, no air through the \
         layers",
        "ISO 13788:2012 clause 6",
    );
    assumed.note(
        "ground beside walls and under piers",
        "saturated; it swings half as far as the year outside and a month later",
        ASSUMED,
    );
    let air = monthly_air(year);
    let outside = months(&air, &outdoor_humidity(weather)?, weather, false)?;
    let ground = months(&air, &[RelativeHumidity::SATURATED; 12], weather, true)?;
    let mut out: Vec<SectionMoisture> = Vec::new();
    for (index, _) in walls.iter().enumerate().filter(|(_, w)| w.exposed && !w.bands.is_empty()) {
        for band in wall_bands(f, index, Basis::Design) {
            let side = if band.above_grade { "above grade" } else { "below grade" };
            let kind = if band.bare { "bare wall" } else { "insulated wall" };
            let layers = wall_layers(f, index, &band);
            let names: Vec<Symbol> = layers.iter().map(|(name, _)| *name).collect();
            let name = format!("{kind} {side}");
            if layers.is_empty() || out.iter().any(|s| s.name == name && s.layers == names) {
                continue;
            }
            let film = if band.above_grade { outside_film() } else { insulance_si(0.0) };
            let months = if band.above_grade { &outside } else { &ground };
            out.push(one(name, layers, film, months)?);
        }
    }
    if let Some(layers) = pier_layers(f) {
        out.push(one("pier at its foot".into(), layers, insulance_si(0.0), &ground)?);
    }
    Ok(out)
}

fn one(
    name: String,
    layers: Vec<(Symbol, VaporLayer)>,
    outside_film: wythe_model::ThermalResistance,
    months: &[VaporMonth],
) -> Result<SectionMoisture, PhysicsError> {
    let section = VaporSection {
        inside_film: sheltered_film(),
        layers: layers.iter().map(|(_, layer)| *layer).collect(),
        outside_film,
    };
    let year = interstitial_year(&section, months)?;
    let layers = layers.into_iter().map(|(name, _)| name).collect();
    Ok(SectionMoisture { name, layers, verdict: year.verdict, peak: year.peak, year })
}

/// A product as a layer; none where it has neither a resistance nor a permeance.
fn layer(product: &Product) -> Option<VaporLayer> {
    let resistance = resistance_of(product).map(|r| r.mid);
    let s_d = product.permeance.and_then(|p| Permeance::si(p.mid.value).ok()).map(Permeance::air_layer);
    if resistance.is_none() && s_d.is_none() {
        return None;
    }
    // A board or masonry that states no permeance is taken as a tenth of a meter of air.
    Some(VaporLayer { resistance: resistance.unwrap_or_default(), s_d: s_d.unwrap_or_else(|| m(0.1)) })
}

fn of_work(work: &Work) -> Option<(Symbol, VaporLayer)> {
    let product = work.product.as_deref().filter(|p| !p.sacrificial)?;
    Some((work.layer, layer(product)?))
}

fn wall_layers(f: &Foundation, wall: usize, band: &Band) -> Vec<(Symbol, VaporLayer)> {
    let assembly = f.walls.get(wall).and_then(|w| f.assemblies.get(w.assembly?.0 as usize));
    let structure = assembly.and_then(|a| a.structure.as_deref()).and_then(|p| Some((p.name, layer(p)?)));
    let mut inside: Vec<_> = covering(f, wall, band, "inside").into_iter().filter_map(of_work).collect();
    inside.reverse();
    let outside = covering(f, wall, band, "outside").into_iter().filter_map(of_work);
    inside.into_iter().chain(structure).chain(outside).collect()
}

/// From the air of the space through the wrap of a pier into its block, which stands in damp ground.
fn pier_layers(f: &Foundation) -> Option<Vec<(Symbol, VaporLayer)>> {
    let assembly = f.assemblies.get(f.piers.first()?.assembly?.0 as usize)?;
    let structure = assembly.structure.as_deref().and_then(|p| Some((p.name, layer(p)?)))?;
    let works = assembly.face("face").map(|face| face.works.as_slice()).unwrap_or_default();
    let mut layers: Vec<_> = works.iter().filter(|w| w.act.places()).filter_map(of_work).collect();
    layers.reverse();
    layers.push(structure);
    Some(layers)
}

/// Mean vapor of the outside air each month over saturation at its mean temperature.
fn outdoor_humidity(weather: &WeatherYear) -> Result<[RelativeHumidity; 12], PhysicsError> {
    let mut out = [RelativeHumidity::SATURATED; 12];
    for (slot, month) in out.iter_mut().zip(1..) {
        let (mut vapor, mut t, mut count) = (0.0, 0.0, 0.0);
        for hour in weather.hours().iter().filter(|h| h.month == month) {
            vapor += hour.humidity.ratio().value * saturation_iso_13788(hour.temperature)?.value;
            t += hour.temperature.value;
            count += 1.0;
        }
        if count > 0.0 {
            let mean =
                uom::si::f64::ThermodynamicTemperature::new::<uom::si::thermodynamic_temperature::kelvin>(t / count);
            let full = saturation_iso_13788(mean)?.value;
            *slot = RelativeHumidity::new(share((vapor / count / full).min(1.0)))?;
        }
    }
    Ok(out)
}

fn months(
    air: &[MonthlyAir],
    outside: &[RelativeHumidity; 12],
    weather: &WeatherYear,
    ground: bool,
) -> Result<Vec<VaporMonth>, PhysicsError> {
    let mean = weather.yearly_wave().mean;
    let count = air.len().max(1);
    Ok(air
        .iter()
        .enumerate()
        .map(|(n, month)| {
            let mut beyond = month.outside;
            if ground {
                let before = air[(n + count - 1) % count].outside;
                beyond.value = mean.value + 0.5 * (before.value - mean.value);
            }
            VaporMonth {
                inside: month.inside,
                inside_humidity: month.inside_humidity,
                outside: beyond,
                outside_humidity: outside.get(n).copied().unwrap_or(RelativeHumidity::SATURATED),
                days: DAYS.get(n).copied().unwrap_or(30),
            }
        })
        .collect())
}
