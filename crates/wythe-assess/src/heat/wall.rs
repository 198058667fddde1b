//! Each wall: its layers, its bands, the fasteners through its insulation and the price of its bare strip.

use uom::si::f64::{Area, HeatTransfer, Length, ThermalConductance};
use wythe_findings::{Finding, codes};
use wythe_model::geometry::Basis;
use wythe_model::quantity::{Band, Measure, Quantities, Role, WorkOf, quantities, wall_bands};
use wythe_model::{Act, Assembly, Class, Foundation, Interval, Product, ThermalResistance, Wall, Work};
use wythe_physics::PhysicsError;
use wythe_physics::heat::fastener::{FastenedLayer, Fastener, fastener_transmittance};
use wythe_physics::heat::film::{inside_film_us, outside_film_us};
use wythe_physics::heat::series::series;
use wythe_source::Symbol;

use super::report::{BandHeat, BareBand, FastenerBridge, LayerFigure, WallHeat};
use crate::Assumptions;
use crate::assumption::ASSUMED;
use crate::figure::{lambda, m2, map, share, u, w_per_k};

/// Shank of an anchor through board, m: 3/16 in of steel.
const SHANK: f64 = 0.0048;
/// Conductivity of steel, W/(m·K).
const STEEL: f64 = 50.0;

/// All walls, in the order of the walk.
pub(crate) fn walls(
    f: &Foundation,
    assumed: &mut Assumptions,
    findings: &mut Vec<Finding>,
) -> Result<Vec<WallHeat>, PhysicsError> {
    assumed.note(
        "surface films of walls",
        "R-0.68 inside, R-0.17 outside in air, none against earth",
        "ASHRAE Handbook of Fundamentals, surface conductances (outside from memory)",
    );
    let measured = quantities(f, Basis::Design);
    f.walls.iter().enumerate().map(|(index, wall)| one(f, index, wall, &measured, assumed, findings)).collect()
}

fn assembly<'f>(f: &'f Foundation, wall: &Wall) -> Option<&'f Assembly> {
    f.assemblies.get(wall.assembly?.0 as usize).map(AsRef::as_ref)
}

fn one(
    f: &Foundation,
    index: usize,
    wall: &Wall,
    measured: &Quantities,
    assumed: &mut Assumptions,
    findings: &mut Vec<Finding>,
) -> Result<WallHeat, PhysicsError> {
    let mut out = WallHeat {
        name: wall.name,
        origin: wall.origin,
        exposed: !wall.existing,
        layers: assembly(f, wall).map(layers).unwrap_or_default(),
        bands: Vec::new(),
        area: Area::default(),
        transmittance: Interval::exact(HeatTransfer::default()),
        without_fasteners: HeatTransfer::default(),
        fasteners: Vec::new(),
        bare: None,
    };
    let bands = wall_bands(f, index, Basis::Design);
    let bands: Vec<&Band> = bands.iter().filter(|b| b.area.value > 0.0).collect();
    if bands.is_empty() || bands.iter().any(|b| b.layers.is_empty()) {
        if out.exposed {
            let title = format!("the heat through {} cannot be worked out", wall.name);
            findings.push(
                Finding::new(codes::HEAT_UNKNOWN, wall.origin, title)
                    .label("nothing here has a thermal resistance over the whole wall")
                    .item(format!("{}.{}", f.name, wall.name)),
            );
        }
        return Ok(out);
    }
    let through = through_insulation(f, wall, index, measured, assumed);
    for band in bands {
        out.bands.push(band_heat(band, &out.layers, &through)?);
    }
    average(&mut out, &through)?;
    Ok(out)
}

/// The layers of an assembly's two faces and its structure, from outside to inside.
fn layers(assembly: &Assembly) -> Vec<LayerFigure> {
    let face = |name: &str, word: &'static str| {
        let works = assembly.face(name).map(|f| f.works.as_slice()).unwrap_or_default();
        let covers = |w: &&Work| matches!(w.act, Act::Coat | Act::Hang | Act::Set | Act::Lay) && w.extent.is_some();
        let figure = |w: &Work| {
            let product = w.product.as_ref()?;
            Some(layer_figure(word, w.layer, product, w.origin))
        };
        works.iter().filter(covers).filter_map(figure).collect::<Vec<_>>()
    };
    let mut out = face("outside", "outside");
    out.reverse();
    let origin = assembly.structure_origin.unwrap_or(assembly.origin);
    out.extend(assembly.structure.as_ref().map(|p| layer_figure("structure", p.name, p, origin)));
    out.extend(face("inside", "inside"));
    out
}

fn layer_figure(face: &'static str, name: Symbol, product: &Product, origin: wythe_source::Span) -> LayerFigure {
    LayerFigure {
        face,
        name,
        product: product.name,
        thickness: product.thickness,
        resistance: resistance(product),
        permeance: product.permeance,
        source: product.source.clone(),
        origin,
    }
}

/// The resistance of a product's layer with its bounds.
pub(crate) fn resistance(product: &Product) -> Option<Interval<ThermalResistance>> {
    if let Some(stated) = product.resistance {
        return Some(stated);
    }
    let (thickness, conductivity) = (product.thickness?, product.conductivity?);
    (conductivity.low.value > 0.0).then(|| Interval {
        low: thickness / conductivity.high,
        mid: thickness / conductivity.mid,
        high: thickness / conductivity.low,
    })
}

/// Fasteners of one piece of work that pass an insulating layer.
struct Through {
    fastener: Symbol,
    layer: Symbol,
    thickness: Length,
    resistance: ThermalResistance,
    conductivity: f64,
    count: u64,
    /// Fasteners for each square meter of the layer.
    density: f64,
}

fn through_insulation(
    f: &Foundation,
    wall: &Wall,
    index: usize,
    measured: &Quantities,
    assumed: &mut Assumptions,
) -> Vec<Through> {
    let (Some(id), Some(assembly)) = (wall.assembly, assembly(f, wall)) else { return Vec::new() };
    let mut out = Vec::new();
    for face in assembly.faces.iter().filter(|face| face.name.as_str() != "head") {
        for (number, work) in face.works.iter().enumerate() {
            let Some(fastener) =
                work.product.as_ref().filter(|p| work.act == Act::Fasten && p.class == Class::Fastener)
            else {
                continue;
            };
            let placed = face.works[..number].iter().rev().find(|w| w.act.places() && w.layer == work.layer);
            let Some(product) = placed.and_then(|w| w.product.as_ref()) else { continue };
            // A sheet has no resistance worth a bridge; only insulation makes the pin one.
            let (Some(resistance), Some(thickness)) = (resistance(product), product.thickness) else { continue };
            let line = |role: Role, n: usize| {
                measured.lines.iter().find(|l| {
                    l.element == f.walls[index].name
                        && l.of == WorkOf::Assembly(id)
                        && l.face == face.name
                        && l.work == n
                        && l.role == role
                })
            };
            let count = line(Role::Fasteners, number).map(|l| l.measure);
            let surface = face.works.iter().position(|w| w.act.places() && w.layer == work.layer);
            let area = surface.and_then(|n| line(Role::Surface, n)).map(|l| l.measure);
            if let (Some(Measure::Count(count)), Some(Measure::Area(area))) = (count, area)
                && count > 0
                && area.value > 0.0
            {
                if fastener.conductivity.is_none() {
                    assumed.note("conductivity of fastener shanks", "50 W/(m·K), steel", "ISO 10456 (from memory)");
                }
                assumed.note("diameter of fastener shanks", "3/16 in (4.8 mm), through the whole board", ASSUMED);
                out.push(Through {
                    fastener: fastener.name,
                    layer: work.layer,
                    thickness,
                    resistance: resistance.mid,
                    conductivity: fastener.conductivity.map_or(STEEL, |c| c.mid.value),
                    count,
                    density: count as f64 / area.value,
                });
            }
        }
    }
    out
}

fn band_heat(band: &Band, layers: &[LayerFigure], through: &[Through]) -> Result<BandHeat, PhysicsError> {
    let bounds = |name: &Symbol, mid: ThermalResistance| {
        layers.iter().find(|l| l.name == *name).and_then(|l| l.resistance).unwrap_or(Interval::exact(mid))
    };
    let each: Vec<Interval<ThermalResistance>> = band.layers.iter().map(|(name, r)| bounds(name, *r)).collect();
    let sum = |pick: fn(&Interval<ThermalResistance>) -> ThermalResistance| {
        each.iter().map(pick).fold(ThermalResistance::default(), |a, b| a + b)
    };
    let resistance = Interval { low: sum(|r| r.low), mid: sum(|r| r.mid), high: sum(|r| r.high) };
    let outside = if band.above_grade { outside_film_us() } else { ThermalResistance::default() };
    let plain = |pick: fn(&Interval<ThermalResistance>) -> ThermalResistance| {
        let layers: Vec<ThermalResistance> = each.iter().map(pick).collect();
        series(inside_film_us(), &layers, outside)
    };
    let mid = plain(|r| r.mid)?;
    let bridges = bridges(band, mid.resistance, through)?;
    let with = |plain: HeatTransfer| plain + bridges;
    Ok(BandHeat {
        low: band.low,
        high: band.high,
        from: band.from,
        to: band.to,
        area: band.area,
        above_grade: band.above_grade,
        bare: band.bare,
        layers: band.layers.iter().map(|(name, _)| *name).collect(),
        resistance,
        without_fasteners: mid.transmittance,
        transmittance: Interval {
            low: with(plain(|r| r.high)?.transmittance),
            mid: with(mid.transmittance),
            high: with(plain(|r| r.low)?.transmittance),
        },
        area_share: share(0.0),
        loss_share: share(0.0),
    })
}

/// What the fasteners add to a band, by area: ISO 6946:2017 annex F.3.
fn bridges(band: &Band, total: ThermalResistance, through: &[Through]) -> Result<HeatTransfer, PhysicsError> {
    let mut sum = 0.0;
    for t in through.iter().filter(|t| band.layers.iter().any(|(name, _)| *name == t.layer)) {
        sum += t.density * point(t, total)?.value;
    }
    Ok(u(sum))
}

fn point(t: &Through, total: ThermalResistance) -> Result<ThermalConductance, PhysicsError> {
    let fastener = Fastener {
        conductivity: lambda(t.conductivity),
        section: m2(std::f64::consts::FRAC_PI_4 * SHANK * SHANK),
        length_in_insulation: t.thickness,
    };
    fastener_transmittance(&fastener, &FastenedLayer { thickness: t.thickness, resistance: t.resistance, total })
}

/// The averages over the bands, the shares, the fasteners and the bare strip.
fn average(wall: &mut WallHeat, through: &[Through]) -> Result<(), PhysicsError> {
    let area: f64 = wall.bands.iter().map(|b| b.area.value).sum();
    let mean = |pick: &dyn Fn(&BandHeat) -> HeatTransfer| {
        wall.bands.iter().map(|b| pick(b).value * b.area.value).sum::<f64>() / area
    };
    wall.transmittance = map(
        Interval {
            low: mean(&|b| b.transmittance.low),
            mid: mean(&|b| b.transmittance.mid),
            high: mean(&|b| b.transmittance.high),
        },
        u,
    );
    wall.without_fasteners = u(mean(&|b| b.without_fasteners));
    wall.area = m2(area);
    let loss = wall.transmittance.mid.value * area;
    for band in &mut wall.bands {
        band.area_share = share(band.area.value / area);
        band.loss_share = share(band.transmittance.mid.value * band.area.value / loss);
    }
    for t in through {
        let mut sum = 0.0;
        for band in wall.bands.iter().filter(|b| b.layers.contains(&t.layer)) {
            let total = ThermalResistance::from(1.0 / band.without_fasteners);
            sum += t.density * point(t, total)?.value * band.area.value;
        }
        wall.fasteners.push(FastenerBridge {
            product: t.fastener,
            layer: t.layer,
            count: t.count,
            conductance: w_per_k(sum),
            loss_share: share(sum / loss),
        });
    }
    wall.bare = bare(&wall.bands, area, loss);
    Ok(())
}

fn bare(bands: &[BandHeat], area: f64, loss: f64) -> Option<BareBand> {
    let of = |side: bool, bare: bool| bands.iter().filter(move |b| b.above_grade == side && b.bare == bare);
    // The insulated wall beside it on the same side of grade, or on the other where there is none.
    let insulated = |side: bool| {
        let all: Vec<&BandHeat> = of(side, false).chain(of(!side, false)).collect();
        all.first().map(|b| b.transmittance.mid.value)
    };
    let (mut bare_area, mut bare_loss, mut extra) = (0.0, 0.0, 0.0);
    for band in bands.iter().filter(|b| b.bare) {
        let beside = insulated(band.above_grade)?;
        bare_area += band.area.value;
        bare_loss += band.transmittance.mid.value * band.area.value;
        extra += (band.transmittance.mid.value - beside) * band.area.value;
    }
    (bare_area > 0.0).then(|| BareBand {
        area: m2(bare_area),
        area_share: share(bare_area / area),
        loss_share: share(bare_loss / loss),
        extra: w_per_k(extra),
    })
}

/// The mean resistance of the bands below grade of exposed walls, films left out, fasteners included; by area.
pub(super) fn below_grade_resistance(walls: &[WallHeat]) -> Option<Interval<ThermalResistance>> {
    let bands: Vec<&BandHeat> =
        walls.iter().filter(|w| w.exposed).flat_map(|w| &w.bands).filter(|b| !b.above_grade).collect();
    let area: f64 = bands.iter().map(|b| b.area.value).sum();
    if bands.is_empty() || area <= 0.0 {
        return None;
    }
    let film = inside_film_us().value;
    let of = |pick: fn(&BandHeat) -> f64| {
        let conductance: f64 = bands.iter().map(|b| pick(b) * b.area.value).sum::<f64>() / area;
        (1.0 / conductance - film).max(0.0)
    };
    let value = |r: f64| wythe_physics::quantity::insulance_si(r);
    Some(Interval {
        low: value(of(|b| b.transmittance.high.value)),
        mid: value(of(|b| b.transmittance.mid.value)),
        high: value(of(|b| b.transmittance.low.value)),
    })
}

/// The area and the mean transmittance of the bands above grade of exposed walls.
pub(super) fn above_grade_transmittance(walls: &[WallHeat]) -> Option<(Area, HeatTransfer)> {
    let bands = walls.iter().filter(|w| w.exposed).flat_map(|w| &w.bands).filter(|b| b.above_grade);
    let (mut area, mut loss) = (0.0, 0.0);
    for band in bands {
        area += band.area.value;
        loss += band.area.value * band.transmittance.mid.value;
    }
    (area > 0.0).then(|| (m2(area), u(loss / area)))
}
