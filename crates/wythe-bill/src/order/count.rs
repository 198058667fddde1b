//! From net quantities to purchase units, by the class of the product.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::ConstZero as _;
use uom::si::f64::{Area, Length, Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::{cubic_meter, cubic_yard};
use wythe_model::quantity::Measure;
use wythe_model::{Class, Product};
use wythe_takeoff::nest::pieces::{self, Piece, PieceRules};
use wythe_takeoff::nest::{LeastOffcut, Sheet};
use wythe_takeoff::purchase::{
    BeadShape, Cartridge, Coat, Purchase, TapeRoll, bead_section, pails, tape_rolls, whole_units,
};

use super::item::Basis;
use crate::{Job, TakeoffLine};

/// Units counted.
pub(super) struct Units {
    pub units: u64,
    pub needed: Ratio,
    pub waste: Ratio,
    pub bound: Option<u64>,
    pub basis: Basis,
    pub wet_film: Option<Length>,
}

impl Units {
    fn of(p: Purchase, basis: Basis) -> Self {
        Units { units: p.units, needed: p.needed, waste: p.waste_share, bound: None, basis, wet_film: None }
    }
}

type Counted = Result<Units, String>;

/// The purchase units of a product for its lines; what is missing, in words.
pub(super) fn count(job: &Job, product: &Arc<Product>, lines: &[&TakeoffLine]) -> Counted {
    let waste = job.terms.waste_of(product.class);
    match product.class {
        Class::Board => match job.boards.iter().find(|b| b.product == *product) {
            Some(board) => Ok(sheets(board, area(lines))),
            None => by_area(product, lines, waste, "a sheet needs its `size`"),
        },
        Class::Membrane => {
            rolls(job, product).map_or_else(|| by_area(product, lines, waste, "a roll needs its `size`"), Ok)
        }
        Class::Coating => coating(product, lines, waste),
        Class::Tape => {
            let length =
                product.length.or(product.size.map(|(a, b)| a.max(b))).ok_or("a roll of tape needs its `length`")?;
            let strips: Vec<Length> = lines.iter().map(|l| length_of(l.net)).collect();
            let roll = TapeRoll { length, overlap: job.terms.tape_lap };
            tape_rolls(&strips, roll, waste).map(|p| Units::of(p, Basis::Tape)).map_err(|e| e.to_string())
        }
        Class::Sealant => sealant(job, product, lines, waste),
        Class::Drain => {
            let each = product.length.ok_or("a pipe needs its `length`")?;
            whole(length(lines) / each, waste, Basis::Length)
        }
        Class::Aggregate | Class::Concrete | Class::Masonry => {
            let volume = lines.iter().map(|l| volume_of(l.net)).fold(Volume::ZERO, |a, b| a + b);
            let each = if job.terms.metric { Volume::new::<cubic_meter>(1.0) } else { Volume::new::<cubic_yard>(1.0) };
            whole(volume / each, waste, Basis::Volume)
        }
        Class::Fastener | Class::Equipment | Class::Lumber => {
            let pieces = lines.iter().map(|l| pieces_of(l.net)).sum::<u64>();
            whole(Ratio::new::<ratio>(pieces as f64), waste, Basis::Pieces)
        }
    }
}

fn whole(net: Ratio, waste: Ratio, basis: Basis) -> Counted {
    whole_units(net, waste).map(|p| Units::of(p, basis)).map_err(|e| e.to_string())
}

fn sheets(board: &crate::board::BoardPlan, net: Area) -> Units {
    let sheet = board.sheet.length * board.sheet.width;
    let bought = board.plan.bought as u64;
    let (needed, all) = (net / sheet, Ratio::new::<ratio>(bought as f64));
    let kept = board.plan.kept_area() / sheet;
    let waste = if bought > 0 { ((all - needed) / all).max(Ratio::ZERO) } else { Ratio::ZERO };
    Units {
        units: bought,
        // What is left over are the offcuts worth keeping; the rest of the sheets is used or lost.
        needed: (all - kept).max(Ratio::ZERO),
        waste,
        bound: Some(board.plan.bound as u64),
        basis: Basis::CutList,
        wet_film: None,
    }
}

fn by_area(product: &Product, lines: &[&TakeoffLine], waste: Ratio, lack: &str) -> Counted {
    let (a, b) = product.size.ok_or(lack)?;
    whole(area(lines) / (a * b), waste, Basis::Area)
}

/// Rolls of the floors and of what is hung. The strips of several floors are cut from the same rolls.
fn rolls(job: &Job, product: &Arc<Product>) -> Option<Units> {
    let floors: Vec<_> = job.floors.iter().filter(|l| l.product == *product).collect();
    let hung = job.hung.iter().find(|h| h.product == *product);
    if floors.is_empty() && hung.is_none() {
        return None;
    }
    let (mut units, mut bound, mut used, mut net) = (0_u64, 0_u64, Ratio::ZERO, Ratio::ZERO);
    if let [one] = floors.as_slice() {
        units += one.rolls();
        bound += one.layout.bound as u64;
    } else if let Some(first) = floors.first() {
        let roll = Sheet { length: first.roll.length, width: first.roll.width };
        let cut = floors.iter().flat_map(|l| &l.layout.pieces).map(|p| (p.length, roll.width));
        let risers = floors.iter().map(|l| l.risers / roll.width).filter(|l| *l > Length::ZERO);
        let wanted: Vec<(Length, Length)> = cut.chain(risers.map(|l| (l.min(roll.length), roll.width))).collect();
        let (bought, least) = pool(&wanted, roll)?;
        units += bought;
        bound += least;
    }
    for l in &floors {
        used += l.used() / l.roll.length;
        net += (l.layout.net_area + l.risers) / (l.roll.length * l.roll.width);
    }
    if let Some(h) = hung {
        let roll = h.roll.length * h.roll.width;
        units += h.plan.bought as u64;
        bound += h.plan.bound as u64;
        used += (Ratio::new::<ratio>(h.plan.bought as f64) - h.plan.kept_area() / roll).max(Ratio::ZERO);
        net += h.plan.piece_area() / roll;
    }
    let all = Ratio::new::<ratio>(units as f64);
    let waste = if units > 0 { ((all - net) / all).max(Ratio::ZERO) } else { Ratio::ZERO };
    Some(Units { units, needed: used.min(all), waste, bound: Some(bound), basis: Basis::Rolls, wet_film: None })
}

fn pool(wanted: &[(Length, Length)], roll: Sheet) -> Option<(u64, u64)> {
    let pieces: Vec<Piece> = wanted
        .iter()
        .map(|(length, width)| Piece { name: String::new(), length: *length, width: *width, count: 1 })
        .collect();
    let rules = PieceRules {
        kerf: Length::ZERO,
        least_offcut: LeastOffcut { short: Length::ZERO, long: Length::ZERO },
        turn: false,
    };
    let plan = pieces::plan(roll, &pieces, &rules).ok()?;
    Some((plan.bought as u64, plan.bound as u64))
}

fn coating(product: &Product, lines: &[&TakeoffLine], waste: Ratio) -> Counted {
    let film = product.thickness.zip(product.solids).map(|(dry, solids)| Coat {
        dry_film: dry,
        solids,
        wet_film_per_pass: dry,
    });
    let wet_film = film.and_then(|c| c.wet_film().ok());
    if let Some(covers) = product.covers.filter(|c| *c > Area::ZERO) {
        let counted = whole(area(lines) / covers, waste, Basis::Coverage)?;
        return Ok(Units { wet_film, ..counted });
    }
    let (Some(coat), Some(volume)) = (film, product.volume) else {
        return Err("a coating needs what a unit `covers`, or its `thickness`, `solids` and `volume`".into());
    };
    let counted = pails(&coat, area(lines), volume, waste).map(|p| Units::of(p, Basis::WetFilm));
    counted.map(|c| Units { wet_film, ..c }).map_err(|e| e.to_string())
}

/// Beads of one section are filled together.
fn sealant(job: &Job, product: &Product, lines: &[&TakeoffLine], waste: Ratio) -> Counted {
    let tube = Cartridge { volume: product.volume.ok_or("a tube needs its `volume`")? };
    let mut by_bead: BTreeMap<u64, (Length, Length)> = BTreeMap::new();
    for line in lines {
        let bead = line.bead.unwrap_or(job.terms.bead);
        let entry = by_bead.entry(bead.value.to_bits()).or_insert((bead, Length::ZERO));
        entry.1 += length_of(line.net);
    }
    let mut needed = Volume::ZERO;
    for (bead, length) in by_bead.into_values() {
        let section = bead_section(BeadShape::Round { diameter: bead }).map_err(|e| e.to_string())?;
        let volume: Volume = section * length;
        needed += volume;
    }
    whole(needed / tube.volume, waste, Basis::Bead)
}

fn area(lines: &[&TakeoffLine]) -> Area {
    let of = |m: Measure| if let Measure::Area(a) = m { a } else { Area::ZERO };
    lines.iter().map(|l| of(l.net)).fold(Area::ZERO, |a, b| a + b)
}

fn length(lines: &[&TakeoffLine]) -> Length {
    lines.iter().map(|l| length_of(l.net)).fold(Length::ZERO, |a, b| a + b)
}

fn length_of(measure: Measure) -> Length {
    if let Measure::Length(l) = measure { l } else { Length::ZERO }
}

fn volume_of(measure: Measure) -> Volume {
    if let Measure::Volume(v) = measure { v } else { Volume::ZERO }
}

fn pieces_of(measure: Measure) -> u64 {
    if let Measure::Count(n) = measure { n } else { 0 }
}
