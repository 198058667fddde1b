//! The search over directions and offsets, and what comes of it.

use super::outline::{Floor, Point, View, to_plan};
use super::unroll::{self, PieceOfRoll, Roll, Unrolled};
use crate::grid::{self, Ticks};
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::f64::{Angle, Area, Length};
use uom::si::length::meter;

/// Rules of laying.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollRules {
    /// Overlap of neighboring strips, and of pieces end to end.
    pub lap: Length,
    /// How far the sheet goes up at the edge of the floor, and at what stands in it.
    pub turn_up: Length,
    /// Strips may be pieced where that saves a roll.
    pub piece_to_save: bool,
    /// Lay only along this direction (counterclockwise from east); `None` tries all.
    pub direction: Option<Angle>,
}

/// What makes a layout impossible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum RollError {
    /// The roll has no size.
    #[error("a roll must have a positive width and length")]
    RollSize,
    /// A lap or turn-up is negative or not a number.
    #[error("lap and turn-up must not be negative")]
    Rule,
    /// The lap leaves nothing of the roll.
    #[error("the lap is as wide as the roll")]
    LapTooWide,
    /// More pieces than one layout takes.
    #[error("the floor needs more than {} pieces", MOST_PIECES)]
    TooManyPieces,
}

/// Something to know about a layout that is complete.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum RollNote {
    /// The floor is narrower than one lap: a cut from a roll would do.
    FloorNarrowerThanLap,
    /// One strip covers the floor.
    SingleStrip,
}

/// How two pieces meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeamKind {
    /// Between neighboring strips.
    Side,
    /// Between pieces of one strip.
    End,
}

/// A lap to tape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seam {
    /// How it lies.
    pub kind: SeamKind,
    /// Length to tape, holes left out.
    pub length: Length,
}

/// One strip in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripOfRoll {
    /// From 1, in the order of laying.
    pub number: usize,
    /// Length cut, turn-ups included.
    pub length: Length,
    /// Corners of the strip laid flat, counterclockwise from its start.
    pub corners: [Point; 4],
}

/// A whole layout.
#[derive(Clone, Debug, PartialEq)]
pub struct RollLayout {
    /// The way the strips run, counterclockwise from east.
    pub direction: Angle,
    /// Strips in order.
    pub strips: Vec<StripOfRoll>,
    /// Pieces cut, by strip.
    pub pieces: Vec<PieceOfRoll>,
    /// What is left of each roll.
    pub left: Vec<Length>,
    /// Laps between strips and pieces.
    pub seams: Vec<Seam>,
    /// Floor with turn-ups: what must be covered at least.
    pub net_area: Area,
    /// Material cut.
    pub cut_area: Area,
    /// Least rolls by area alone.
    pub bound: usize,
    /// Things to know.
    pub notes: Vec<RollNote>,
}

impl RollLayout {
    /// Rolls to buy.
    pub fn rolls(&self) -> usize {
        self.left.len()
    }

    /// Length of all seams.
    pub fn seam_length(&self) -> Length {
        self.seams.iter().map(|s| s.length).fold(Length::new::<meter>(0.0), |a, b| a + b)
    }
}

/// The most pieces one layout takes.
pub const MOST_PIECES: usize = 2_000;

/// Lays rolls over a floor: fewest rolls, then least material, then shortest seam.
pub fn plan(floor: &Floor, roll: Roll, rules: &RollRules) -> Result<RollLayout, RollError> {
    let job = Job::new(roll, rules)?;
    let directions = match rules.direction {
        Some(angle) if angle.get::<radian>().is_finite() => vec![angle.get::<radian>()],
        Some(_) => return Err(RollError::Rule),
        None => floor.directions(),
    };
    let mut best: Option<(Score, f64, f64)> = None;
    for direction in directions {
        let view = floor.along(direction, job.turn_up);
        for offset in job.offsets(&view)? {
            let laid = job.lay(&view, offset);
            let score = job.score(&view, &laid);
            if best.as_ref().is_none_or(|(b, ..)| score.better_than(b)) {
                best = Some((score, direction, offset));
            }
        }
    }
    let (_, direction, offset) = best.ok_or(RollError::Rule)?;
    let view = floor.along(direction, job.turn_up);
    let laid = job.lay(&view, offset);
    Ok(job.finish(&view, direction, laid))
}

struct Job {
    width: f64,
    roll: Ticks,
    lap: f64,
    lap_ticks: Ticks,
    turn_up: f64,
    piece_to_save: bool,
}

/// Strips in view coordinates.
struct Laid {
    /// Low edge, start and end of each strip, from low to high.
    strips: Vec<(f64, f64, f64)>,
    unrolled: Unrolled,
}

/// What is minimized, in this order; lengths in meters.
struct Score {
    rolls: usize,
    cut: Ticks,
    seam: f64,
}

impl Score {
    fn better_than(&self, other: &Self) -> bool {
        // A tenth of a millimeter either way is a tie.
        let cut = self.cut / 64;
        let other_cut = other.cut / 64;
        (self.rolls, cut) < (other.rolls, other_cut)
            || (self.rolls, cut) == (other.rolls, other_cut) && self.seam < other.seam - 1e-4
    }
}

impl Job {
    fn new(roll: Roll, rules: &RollRules) -> Result<Self, RollError> {
        let width = grid::positive(roll.width).ok_or(RollError::RollSize)?;
        let length = grid::positive(roll.length).ok_or(RollError::RollSize)?;
        let lap = grid::not_negative(rules.lap).ok_or(RollError::Rule)?;
        let turn_up = grid::not_negative(rules.turn_up).ok_or(RollError::Rule)?;
        if lap >= width || lap >= length {
            return Err(RollError::LapTooWide);
        }
        let meters = |t: Ticks| grid::length(t).get::<meter>();
        Ok(Self {
            width: meters(width),
            roll: length,
            lap: meters(lap),
            lap_ticks: lap,
            turn_up: meters(turn_up),
            piece_to_save: rules.piece_to_save,
        })
    }

    fn pitch(&self) -> f64 {
        self.width - self.lap
    }

    /// Offsets of the first strip below the low edge at which something changes: a strip edge
    /// meets a corner of the outline. Between two of these the material varies evenly, so that
    /// the best is at one of them.
    fn offsets(&self, view: &View) -> Result<Vec<f64>, RollError> {
        let Some((low, high)) = view.extent() else {
            return Ok(Vec::new());
        };
        let strips = (high - low) / self.pitch() + 1.0;
        let each = view.longest() / (grid::length(self.roll).get::<meter>() - self.lap) + 1.0;
        if strips * each > MOST_PIECES as f64 {
            return Err(RollError::TooManyPieces);
        }
        let mut offsets = vec![0.0];
        for y in view.corners() {
            // A low edge at the corner, and a high edge at the corner.
            for edge in [y - low, y - low - self.width] {
                let below = (-edge).rem_euclid(self.pitch());
                offsets.push(below);
            }
        }
        offsets.retain(|o| *o < self.width - 1e-9);
        offsets.sort_by(f64::total_cmp);
        offsets.dedup_by(|a, b| (*a - *b).abs() < 1e-7);
        Ok(offsets)
    }

    fn lay(&self, view: &View, offset: f64) -> Laid {
        let mut strips = Vec::new();
        if let Some((low, high)) = view.extent() {
            let mut edge = low - offset;
            let mut index = 0;
            while index == 0 || edge + self.lap < high - 1e-7 {
                for (from, to) in view.stretches(edge, edge + self.width) {
                    strips.push((edge, from, to));
                }
                index += 1;
                edge = low - offset + f64::from(index) * self.pitch();
            }
        }
        let lengths: Vec<Ticks> =
            strips.iter().map(|s| grid::ticks(Length::new::<meter>(s.2 - s.1)).unwrap_or(0).max(1)).collect();
        let unrolled = unroll::unroll(&lengths, self.roll, self.lap_ticks, self.piece_to_save);
        Laid { strips, unrolled }
    }

    /// Heights of the middle of every lap.
    fn laps(&self, laid: &Laid) -> Vec<f64> {
        let mut edges: Vec<f64> = laid.strips.iter().map(|s| s.0).collect();
        edges.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        edges.iter().skip(1).map(|e| e + self.lap / 2.0).collect()
    }

    fn score(&self, view: &View, laid: &Laid) -> Score {
        let sides: f64 = self.laps(laid).iter().map(|&y| view.length_at(y)).sum();
        let ends = laid.unrolled.end_laps(laid.strips.len()) as f64 * self.width;
        Score { rolls: laid.unrolled.rolls(), cut: laid.unrolled.cut(), seam: sides + ends }
    }

    fn finish(&self, view: &View, direction: f64, laid: Laid) -> RollLayout {
        let sides = self
            .laps(&laid)
            .into_iter()
            .map(|y| Seam { kind: SeamKind::Side, length: Length::new::<meter>(view.length_at(y)) });
        let ends = laid.unrolled.end_laps(laid.strips.len());
        let end = Seam { kind: SeamKind::End, length: Length::new::<meter>(self.width) };
        let seams = sides.chain(std::iter::repeat_n(end, ends)).collect();
        let strips: Vec<StripOfRoll> = laid
            .strips
            .iter()
            .enumerate()
            .map(|(i, &(edge, from, to))| StripOfRoll {
                number: i + 1,
                length: Length::new::<meter>(to - from),
                corners: [(from, edge), (to, edge), (to, edge + self.width), (from, edge + self.width)]
                    .map(|(x, y)| to_plan(direction, x, y)),
            })
            .collect();
        let mut notes = Vec::new();
        if strips.len() == 1 {
            notes.push(RollNote::SingleStrip);
        }
        if view.narrowest() < self.lap {
            notes.push(RollNote::FloorNarrowerThanLap);
        }
        let net = view.grown_area();
        let roll_length = grid::length(self.roll).get::<meter>();
        RollLayout {
            direction: Angle::new::<radian>(direction),
            strips,
            pieces: laid.unrolled.public(),
            left: laid.unrolled.left.iter().map(|&l| grid::length(l)).collect(),
            seams,
            net_area: Area::new::<square_meter>(net),
            cut_area: Length::new::<meter>(self.width) * grid::length(laid.unrolled.cut()),
            bound: (net / (self.width * roll_length) - 1e-9).ceil().max(0.0) as usize,
            notes,
        }
    }
}
