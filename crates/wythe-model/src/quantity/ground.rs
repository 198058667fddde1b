//! Work on the crawl floor.

use uom::si::f64::{Area, Length};

use super::fastener::{patches, whole_up};
use super::line::{Lack, Part, Role};
use super::measure::{How, Measure};
use super::placing;
use crate::geometry::{Footprint, Outline, Plan, risers};
use crate::{Act, Class, EdgeName, Face, Foundation, MeasuredFace, Work};

/// The crawl floor.
pub(crate) struct Floor {
    outline: Outline,
    inside: Area,
    piers: Area,
    risers: Area,
    perimeter: Length,
    cuts: Length,
}

impl Floor {
    /// The floor within the inside face, less the piers that stand on it, with the risers of its steps.
    pub fn of(f: &Foundation, plan: &Plan) -> Floor {
        let outline = plan.outline(MeasuredFace::Inside);
        let standing: Vec<Footprint> = f.piers.iter().map(Footprint::from).filter(|p| outline.contains(p.at)).collect();
        let sum = |areas: &mut dyn Iterator<Item = Area>| areas.fold(Area::default(), |a, b| a + b);
        Floor {
            inside: plan.area(MeasuredFace::Inside),
            piers: sum(&mut standing.iter().map(Footprint::area)),
            risers: sum(&mut risers(f, plan).iter().map(|r| r.area())),
            perimeter: plan.perimeter(MeasuredFace::Inside),
            cuts: standing.iter().map(Footprint::perimeter).fold(Length::default(), |a, b| a + b),
            outline,
        }
    }

    /// The parts of a work on the ground.
    pub fn measure(&self, face: &Face, number: usize) -> Result<Vec<Part>, Lack> {
        let work = face.works.get(number).ok_or(Lack::Layer)?;
        match work.act {
            Act::Set if work.product.as_ref().is_none_or(|p| p.class != Class::Board) => {
                Ok(vec![(Role::Pieces, Measure::Count(1), How::say("one"))])
            }
            Act::Lay | Act::Coat | Act::Hang | Act::Set => Ok(vec![self.cover(Role::Surface)]),
            Act::Remove => {
                placing(face, work.layer, number).ok_or(Lack::Layer)?;
                Ok(vec![self.cover(Role::Removed)])
            }
            Act::Fill => {
                let depth = work.by.or_else(|| work.product.as_ref()?.thickness).ok_or(Lack::Depth)?;
                let level = (self.inside - self.piers).max(Area::default());
                let how = How::say("floor").area(level).and("x depth").length(depth);
                Ok(vec![(Role::Fill, Measure::Volume(level * depth), how)])
            }
            Act::Fasten => self.fasteners(face, number, work),
            Act::Drain => {
                Ok(vec![(Role::Drain, Measure::Length(self.edge(face, number, work)?.1), How::say("length"))])
            }
            Act::Tape | Act::Seal | Act::Cap | Act::Lap => {
                if work.place.is_some_and(|p| p.edge == EdgeName::Heads) {
                    return self.heads(face, number, work);
                }
                let (role, length, how) = self.edge(face, number, work)?;
                let role = if work.act == Act::Seal { Role::Bead } else { role };
                Ok(vec![(role, Measure::Length(length), how)])
            }
        }
    }

    fn cover(&self, role: Role) -> Part {
        let mut how = How::say("floor within the walls").area(self.inside).and("less piers").area(self.piers);
        if self.risers > Area::default() {
            how = how.and("+ risers").area(self.risers);
        }
        let net = (self.inside - self.piers).max(Area::default()) + self.risers;
        (role, Measure::Area(net), how)
    }

    fn edge(&self, face: &Face, number: usize, work: &Work) -> Result<(Role, Length, How), Lack> {
        let place = work.place.ok_or(Lack::Edge)?;
        match place.edge {
            EdgeName::Laps | EdgeName::Joints => {
                let layer = placing(face, place.of.ok_or(Lack::Layer)?, number).ok_or(Lack::Layer)?;
                self.laps(layer)
            }
            EdgeName::Cuts => Ok((Role::Edge, self.cuts, How::say("round the piers"))),
            EdgeName::TopEdge | EdgeName::Perimeter | EdgeName::Footing => {
                Ok((Role::Edge, self.perimeter, How::say("round the floor at the walls")))
            }
            EdgeName::Layer(_) => Ok((Role::Laps, self.perimeter, How::say("round the floor at the walls"))),
            EdgeName::BottomEdge | EdgeName::EndEdges | EdgeName::Heads | EdgeName::Head => Err(Lack::EdgeHere),
        }
    }

    /// Laps of strips run along the floor's longer side from one edge on; a plain layout, which a better one
    /// replaces. Each lap is as long as the floor is where its middle runs.
    fn laps(&self, layer: &Work) -> Result<(Role, Length, How), Lack> {
        let (a, b) = layer.product.as_ref().and_then(|p| p.size).ok_or(Lack::Size)?;
        let (width, overlap) = (a.min(b), layer.by.unwrap_or_default().max(Length::default()));
        let Some((low, high)) = self.outline.bounds() else {
            return Ok((Role::Laps, Length::default(), How::default()));
        };
        let (across, outline, first) = if high.x - low.x >= high.y - low.y {
            (high.y - low.y, self.outline.clone(), low.y)
        } else {
            (high.x - low.x, self.outline.turned(), low.x)
        };
        let step = width - overlap;
        let strips = whole_up(across - overlap, step).filter(|n| *n < 100_000).ok_or(Lack::Size)?.max(1);
        let mut total = Length::default();
        for lap in 1..strips {
            let middle = first + step * lap as f64 + overlap / 2.0;
            let chords = outline.chords_at_north(middle);
            total += chords.iter().map(|c| c.length()).fold(Length::default(), |a, b| a + b);
        }
        let how = How::say("strips:").count(strips).and("of").length(width).and("lapped").length(overlap);
        Ok((Role::Laps, total, how.and(", laps between them").length(total)))
    }

    fn pieces(&self, work: &Work) -> Result<u64, Lack> {
        let every = work.every.ok_or(Lack::Spacing)?;
        whole_up(self.perimeter, every).ok_or(Lack::Spacing)
    }

    fn fasteners(&self, face: &Face, number: usize, work: &Work) -> Result<Vec<Part>, Lack> {
        placing(face, work.layer, number).ok_or(Lack::Layer)?;
        let how = How::say("round the floor at the walls").length(self.perimeter);
        Ok(vec![(Role::Fasteners, Measure::Count(self.pieces(work)?), how)])
    }

    fn heads(&self, face: &Face, number: usize, work: &Work) -> Result<Vec<Part>, Lack> {
        let fastener = work.place.and_then(|p| p.of).ok_or(Lack::Layer)?;
        let named = |w: &&Work| w.product.as_ref().is_some_and(|p| p.name == fastener && p.class == Class::Fastener);
        let fasten = face.works.iter().take(number).rev().find(named).ok_or(Lack::Layer)?;
        let head = fasten.product.as_ref().and_then(|p| p.head);
        Ok(vec![patches(self.pieces(fasten)?, head, work.product.as_ref().and_then(|p| p.width))])
    }
}
