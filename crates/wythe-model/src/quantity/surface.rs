//! The face of a wall or a pier, unrolled flat: its strips, its openings and the line it stands on.

use uom::si::f64::{Area, Length};
use wythe_source::Symbol;

use crate::geometry::{Footprint, OpeningRect, Plan, Rect, Strip, hair, net_rects, opening_rects, strips};
use crate::{Extent, Foundation, MeasuredFace, Pier, Wall};

/// A face of a wall or a pier.
pub(crate) struct Surface<'a> {
    pub strips: Vec<Strip>,
    pub openings: Vec<OpeningRect>,
    pub head_area: Area,
    /// The length of the middle of the head.
    pub head_length: Length,
    body: Body<'a>,
}

enum Body<'a> {
    Wall { f: &'a Foundation, plan: &'a Plan, index: usize, face: MeasuredFace },
    Pier { perimeter: Length },
}

impl<'a> Surface<'a> {
    /// The face of a wall by name; the head is taken on the middle of the wall.
    pub fn of_wall(f: &'a Foundation, plan: &'a Plan, index: usize, face: &str) -> Option<Surface<'a>> {
        let face = match face {
            "outside" => MeasuredFace::Outside,
            "inside" => MeasuredFace::Inside,
            _ => MeasuredFace::Center,
        };
        let (wall, drawn) = (f.walls.get(index)?, plan.walls.get(index)?);
        Some(Surface {
            strips: strips(wall, drawn.line(face)),
            openings: opening_rects(f, index),
            head_area: drawn.head_area,
            head_length: drawn.center.length(),
            body: Body::Wall { f, plan, index, face },
        })
    }

    /// The four sides of a pier as one.
    pub fn of_pier(pier: &Pier) -> Surface<'a> {
        let footprint = Footprint::from(pier);
        let perimeter = footprint.perimeter();
        let levels = pier.levels();
        Surface {
            strips: vec![Strip { from: Length::default(), to: perimeter, levels }],
            openings: Vec::new(),
            head_area: footprint.area(),
            head_length: perimeter,
            body: Body::Pier { perimeter },
        }
    }

    /// Whether it runs round to its own start.
    pub fn is_closed(&self) -> bool {
        matches!(self.body, Body::Pier { .. })
    }

    /// Its length along its foot.
    pub fn length(&self) -> Length {
        self.strips.iter().map(Strip::length).fold(Length::default(), |a, b| a + b)
    }

    /// The rectangles of a layer, less openings.
    pub fn rects(&self, extent: Extent) -> Vec<Rect> {
        net_rects(&self.strips, &self.openings, |l| extent.on(l))
    }

    /// The area of a layer before openings are taken off.
    pub fn gross(&self, extent: Extent) -> Area {
        let each = self.strips.iter().map(|s| {
            let (low, high) = extent.on(&s.levels);
            s.length() * (high - low)
        });
        each.fold(Area::default(), |a, b| a + b)
    }

    /// The strips of the line this far off the face, where its middle runs, as a tail or a trench lies.
    pub fn strips_off(&self, distance: Length) -> Vec<Strip> {
        match &self.body {
            Body::Wall { f, plan, index, face } => {
                let inward = if *face == MeasuredFace::Outside { -distance } else { distance };
                let line = plan.line(*index, *face, inward);
                f.walls.get(*index).zip(line).map(|(wall, line)| strips(wall, &line)).unwrap_or_default()
            }
            Body::Pier { perimeter } => {
                let to = *perimeter + distance * 8.0;
                self.strips.first().map(|s| vec![Strip { to, ..*s }]).unwrap_or_default()
            }
        }
    }

    /// What the footing drops or rises along the wall, and from the wall before it.
    pub fn footing_steps(&self) -> Length {
        let before = self.neighbor(-1).and_then(|w| w.stretches.last()).map(|s| s.levels.footing);
        let heights = before.into_iter().chain(self.strips.iter().map(|s| s.levels.footing));
        let heights: Vec<Length> = heights.collect();
        heights.windows(2).map(|w| (w[1] - w[0]).abs()).fold(Length::default(), |a, b| a + b)
    }

    /// How high the joint is at the wall's end with the next wall, where that has the same layer on the same face.
    pub fn corner_joint(&self, face: Symbol, layer: Symbol, extent: Extent) -> Length {
        let found = || {
            let Body::Wall { f, .. } = &self.body else { return None };
            let next = self.neighbor(1)?;
            let assembly = f.assemblies.get(next.assembly?.0 as usize)?;
            let their_face = assembly.faces.iter().find(|x| x.name == face)?;
            let work = their_face.works.iter().find(|w| w.act.places() && w.layer == layer)?;
            let (low, high) = extent.on(&self.strips.last()?.levels);
            let (their_low, their_high) = work.extent?.on(&next.stretches.first()?.levels);
            Some(high.min(their_high) - low.max(their_low))
        };
        found().unwrap_or_default().max(Length::default())
    }

    /// The runs of a layer: strips next to one another between the same heights are one.
    pub fn runs(&self, extent: Extent) -> Vec<Rect> {
        let mut out: Vec<Rect> = Vec::with_capacity(self.strips.len());
        for strip in &self.strips {
            let (low, high) = extent.on(&strip.levels);
            match out.last_mut() {
                Some(last) if (last.low - low).abs() < hair() && (last.high - high).abs() < hair() => {
                    last.to = strip.to
                }
                _ => out.push(Rect { from: strip.from, to: strip.to, low, high }),
            }
        }
        out
    }

    fn neighbor(&self, step: isize) -> Option<&Wall> {
        let Body::Wall { f, index, .. } = &self.body else { return None };
        let count = isize::try_from(f.walls.len()).ok().filter(|n| *n > 1)?;
        let at = (isize::try_from(*index).ok()? + step).rem_euclid(count);
        f.walls.get(usize::try_from(at).ok()?)
    }
}
