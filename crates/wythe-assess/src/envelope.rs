//! What heat and moisture need of the geometry: floor, exposed perimeter, mean depth and heights.

use uom::si::f64::{Area, Length, Volume};
use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Basis, Plan, opening_rect, strips, wall_thickness};
use wythe_model::{Foundation, MeasuredFace};

/// The space in the measures of its inside faces. Means go by length of exposed wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Envelope {
    /// Area of the crawl floor inside the masonry, piers included.
    pub floor: Area,
    /// Length of wall, on its inside, between the space and the outside; old work that is tied to is left out.
    pub perimeter: Length,
    /// Length of wall against an old space.
    pub shared: Length,
    /// Mean depth of the crawl floor below the grade; nought where it lies higher.
    pub depth: Length,
    /// Mean height of the top of the masonry over the grade, or over the crawl floor where that is higher.
    pub above_grade: Length,
    /// Mean height from the crawl floor to the underside of the sill.
    pub clear: Length,
    /// Mean thickness of the exposed walls.
    pub thickness: Length,
    /// The walls that are exposed, by number.
    pub exposed: Vec<usize>,
}

impl Envelope {
    /// The volume of air, floor area times clear height.
    pub fn volume(&self) -> Volume {
        self.floor * self.clear
    }

    /// Measures a foundation as drawn.
    ///
    /// # Errors
    /// A finding where no wall is exposed or the walls enclose no floor.
    pub fn of(f: &Foundation) -> Result<Envelope, Box<Finding>> {
        let plan = Plan::of(f, Basis::Design);
        let floor = plan.area(MeasuredFace::Inside);
        let mut out = Envelope {
            floor,
            perimeter: Length::default(),
            shared: Length::default(),
            depth: Length::default(),
            above_grade: Length::default(),
            clear: Length::default(),
            thickness: Length::default(),
            exposed: Vec::new(),
        };
        // Sums of length times measure, divided by the length at the end.
        let [mut depth, mut above, mut clear, mut thickness] = [Area::default(); 4];
        for (index, (wall, drawn)) in f.walls.iter().zip(&plan.walls).enumerate() {
            if wall.existing {
                out.shared += drawn.inside.length();
                continue;
            }
            out.exposed.push(index);
            for strip in strips(wall, &drawn.inside) {
                let (run, l) = (strip.length(), strip.levels);
                out.perimeter += run;
                depth += run * (l.grade - l.ground).max(Length::default());
                above += run * (l.top - l.grade.max(l.ground)).max(Length::default());
                clear += run * (l.sill - l.ground).max(Length::default());
                thickness += run * wall_thickness(f, wall).unwrap_or_default();
            }
        }
        if !(out.perimeter.value > 1e-6 && out.perimeter.is_finite()) {
            let title = format!("no wall of {} stands against the outside", f.name);
            return Err(Box::new(
                Finding::new(codes::NO_EXPOSED_PERIMETER, f.origin, title)
                    .label("all its walls are old work, or have no length")
                    .mend("draw the walls that stand against the outside"),
            ));
        }
        if !(floor.value > 1e-6 && floor.is_finite()) {
            let title = format!("the walls of {} enclose no floor", f.name);
            return Err(Box::new(Finding::new(codes::FIGURE_REFUSED, f.origin, title).label("worked out for this")));
        }
        out.depth = depth / out.perimeter;
        out.above_grade = above / out.perimeter;
        out.clear = clear / out.perimeter;
        out.thickness = thickness / out.perimeter;
        Ok(out)
    }
}

/// The part of an opening that stands over the grade, as a share of one; all of it where its levels are not known.
pub(crate) fn share_above_grade(f: &Foundation, opening: usize) -> f64 {
    let at = || {
        let rect = opening_rect(f, opening)?.rect;
        let wall = f.walls.get(f.openings.get(opening)?.wall?)?;
        let levels = wythe_model::geometry::levels_at(wall, rect.from)?;
        let height = (rect.high - rect.low).value;
        (height > 0.0).then(|| ((rect.high - levels.grade.max(rect.low)).value / height).clamp(0.0, 1.0))
    };
    at().unwrap_or(1.0)
}
