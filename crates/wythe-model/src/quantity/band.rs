//! The inside of a wall as bands of one build-up each, and the average transmittance over them.

use uom::ConstZero;
use uom::si::f64::{Area, HeatTransfer, Length, Ratio};
use wythe_source::Symbol;

use crate::geometry::{Basis, OpeningRect, Plan, Strip, hair, net_rects, opening_rects, strips, total_area};
use crate::{Act, Assembly, Extent, Foundation, MeasuredFace, ThermalResistance};

/// A band of a wall with one set of layers, on one side of grade, over one stretch.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// The lower edge above the datum.
    pub low: Length,
    /// The upper edge above the datum.
    pub high: Length,
    /// Where its stretch begins, from the wall's start.
    pub from: Length,
    /// Where its stretch ends.
    pub to: Length,
    /// Its area less openings, on the inside face.
    pub area: Area,
    /// Whether outside air lies behind it; else earth.
    pub above_grade: bool,
    /// Its layers from outside to inside, those whose resistance is known. The structure goes by its product's name.
    pub layers: Vec<(Symbol, ThermalResistance)>,
    /// The sum of the layers' resistances, without films.
    pub r_total: ThermalResistance,
    /// Whether nothing but the structure resists.
    pub bare: bool,
}

impl Band {
    /// Its height.
    pub fn height(&self) -> Length {
        self.high - self.low
    }

    /// Its length.
    pub fn length(&self) -> Length {
        self.to - self.from
    }
}

/// Surface films. A band below grade has no outside air film.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Films {
    /// Inside.
    pub inside: ThermalResistance,
    /// Outside, in air.
    pub outside: ThermalResistance,
}

/// The average over a wall's bands.
#[derive(Clone, Debug, PartialEq)]
pub struct WallAverage {
    /// Transmittance averaged over the area.
    pub u: HeatTransfer,
    /// The area of all bands.
    pub area: Area,
    /// Each band's transmittance, in the order given.
    pub band_u: Vec<HeatTransfer>,
    /// Each band's share of the loss for one temperature difference over the whole wall, in the order given.
    pub loss_shares: Vec<Ratio>,
}

/// The bands of a wall from crawl floor to top of masonry, stretch by stretch, each from the top down.
///
/// A wall without an assembly has one set of bands with no layers. Openings are no part of any band.
pub fn wall_bands(f: &Foundation, wall: usize, basis: Basis) -> Vec<Band> {
    let plan = Plan::of(f, basis);
    let (Some(w), Some(drawn)) = (f.walls.get(wall), plan.walls.get(wall)) else { return Vec::new() };
    let assembly = w.assembly.and_then(|id| f.assemblies.get(id.0 as usize));
    let openings = opening_rects(f, wall);
    let strips = strips(w, drawn.line(MeasuredFace::Inside));
    strips.iter().flat_map(|s| strip_bands(s, assembly.map(AsRef::as_ref), &openings)).collect()
}

/// A layer with a resistance, and how far it reaches; `None` is the whole height.
type Resisting = (Symbol, ThermalResistance, Option<Extent>);

fn resisting(assembly: &Assembly) -> Vec<Resisting> {
    let on_face = |name: &str| {
        let works = assembly.face(name).map(|face| face.works.as_slice()).unwrap_or_default();
        let covers =
            |w: &&crate::Work| matches!(w.act, Act::Coat | Act::Hang | Act::Set | Act::Lay) && w.extent.is_some();
        let layer = |w: &crate::Work| Some((w.layer, w.product.as_ref()?.layer_resistance()?, w.extent));
        works.iter().filter(covers).filter_map(layer).collect::<Vec<_>>()
    };
    let mut outside = on_face("outside");
    outside.reverse();
    let structure = assembly.structure.iter().filter_map(|p| Some((p.name, p.layer_resistance()?, None)));
    let all = outside.into_iter().chain(structure).chain(on_face("inside"));
    all.filter(|(_, r, _)| *r > ThermalResistance::ZERO && r.is_finite()).collect()
}

fn strip_bands(strip: &Strip, assembly: Option<&Assembly>, openings: &[OpeningRect]) -> Vec<Band> {
    let levels = &strip.levels;
    let (bottom, top) = (levels.ground, levels.top);
    let layers = assembly.map(resisting).unwrap_or_default();
    let structure = assembly.and_then(|a| a.structure.as_ref()).map(|p| p.name);
    let ends = layers.iter().filter_map(|(_, _, e)| *e).flat_map(|e| {
        let (low, high) = e.on(levels);
        [low, high]
    });
    let mut cuts: Vec<Length> =
        ends.chain([levels.grade]).filter(|x| *x > bottom + hair() && *x + hair() < top).collect();
    cuts.extend([bottom, top]);
    cuts.sort_by(|a, b| b.value.total_cmp(&a.value));
    cuts.dedup_by(|a, b| (*a - *b).abs() < hair());
    if top <= bottom {
        return Vec::new();
    }
    let band = |pair: &[Length]| {
        let (high, low) = (pair[0], pair[1]);
        let middle = (high + low) / 2.0;
        let here = |e: &Option<Extent>| {
            e.is_none_or(|e| {
                let (from, to) = e.on(levels);
                from < middle && middle < to
            })
        };
        let layers: Vec<(Symbol, ThermalResistance)> =
            layers.iter().filter(|(_, _, e)| here(e)).map(|(name, r, _)| (*name, *r)).collect();
        let area = total_area(&net_rects(std::slice::from_ref(strip), openings, |_| (low, high)));
        Band {
            low,
            high,
            from: strip.from,
            to: strip.to,
            area,
            above_grade: middle > levels.grade,
            r_total: layers.iter().fold(ThermalResistance::ZERO, |sum, (_, r)| sum + *r),
            bare: layers.iter().all(|(name, _)| Some(*name) == structure),
            layers,
        }
    };
    cuts.windows(2).map(band).collect()
}

/// The height of the bare band at the top of a wall: the least over its stretches; nought where insulation
/// reaches the top, nothing where there are no bands.
pub fn bare_band(bands: &[Band]) -> Option<Length> {
    let mut least: Option<Length> = None;
    let mut at = 0;
    while let Some(first) = bands.get(at) {
        let stretch = bands[at..].iter().take_while(|b| (b.from - first.from).abs() < hair());
        let count = stretch.clone().count().max(1);
        let bare = stretch.take_while(|b| b.bare).map(Band::height).fold(Length::default(), |a, b| a + b);
        least = Some(least.map_or(bare, |l| l.min(bare)));
        at += count;
    }
    least
}

/// The average transmittance of bands, weighted by area. Nothing where there is no area or a band resists nothing.
pub fn wall_average(bands: &[Band], films: Films) -> Option<WallAverage> {
    let area = bands.iter().map(|b| b.area).fold(Area::default(), |a, b| a + b);
    if area <= Area::default() {
        return None;
    }
    let mut band_u = Vec::with_capacity(bands.len());
    for band in bands {
        let outside = if band.above_grade { films.outside } else { ThermalResistance::ZERO };
        let r = band.r_total + films.inside + outside;
        if !(r > ThermalResistance::ZERO && r.is_finite()) {
            return None;
        }
        band_u.push(HeatTransfer::from(1.0 / r));
    }
    let loss = |(band, u): (&Band, &HeatTransfer)| *u * band.area;
    let total = bands.iter().zip(&band_u).map(loss).reduce(|a, b| a + b)?;
    let loss_shares = bands.iter().zip(&band_u).map(|pair| loss(pair) / total).collect();
    Some(WallAverage { u: total / area, area, band_u, loss_shares })
}
