//! The house a sheet is about, with what is known of it.

use jiff::civil::Date;
use wythe_bill::Job;
use wythe_bill::progress::Progress;
use wythe_eval::RuleOutcome;
use wythe_findings::Finding;
use wythe_model::geometry::{Plan, hair};
use wythe_model::quantity::{Role, WorkOf};
use wythe_model::{Act, AssemblyId, Face, Foundation, Length, Levels, MeasuredFace, Phase, SurfaceKind, Work};
use wythe_source::Symbol;
use wythe_units::UnitSystem;

use crate::step::Telling;
use crate::words::Words;

/// The house a sheet is about.
#[derive(Clone, Copy, Debug)]
pub struct House<'a> {
    /// The language of the sheet.
    pub words: &'a Words,
    /// The units of the sheet.
    pub system: UnitSystem,
    /// The takeoff of the house alone.
    pub job: &'a Job,
    /// What is wrong with its plans.
    pub findings: &'a [Finding],
    /// What its code packs ask, and what came of it.
    pub rules: &'a [RuleOutcome],
    /// What its log says, where there is one.
    pub progress: Option<&'a Progress>,
    /// The day.
    pub today: Option<Date>,
    /// The visit a crew sheet is for; all, where none is named.
    pub visit: Option<Symbol>,
}

/// Works of one phase on elements that are built alike.
pub(crate) struct Visit<'a> {
    pub kind: SurfaceKind,
    pub face: &'a Face,
    pub elements: Vec<Symbol>,
    pub works: Vec<&'a Work>,
    pub levels: Levels,
}

impl Visit<'_> {
    /// Where it is done, in words.
    pub fn place(&self, house: &House<'_>) -> String {
        let telling = house.telling();
        let face = telling.face(self.kind, self.face.name);
        if self.elements.is_empty() {
            return telling.joint(self.kind);
        }
        let all_walls = self.kind == SurfaceKind::Wall && self.elements.len() == house.f().walls.len();
        if all_walls || self.kind == SurfaceKind::Ground {
            face
        } else {
            format!("{face} ({})", telling.names(&self.elements))
        }
    }

    /// Its steps in order; what one tape closes one after another is one step.
    pub fn steps(&self, house: &House<'_>) -> Vec<String> {
        let telling = house.telling();
        let mut out = Vec::new();
        let mut at = 0;
        while let Some(work) = self.works.get(at) {
            let same = |w: &&&Work| w.act == Act::Tape && work.act == Act::Tape && w.product == work.product;
            let count = self.works[at..].iter().take_while(|w| same(w)).count().max(1);
            out.push(if count > 1 {
                telling.taped(self.face, self.kind, &self.works[at..at + count])
            } else {
                telling.step(self.face, self.kind, work, &self.levels)
            });
            at += count;
        }
        out
    }
}

impl<'a> House<'a> {
    /// The building.
    pub fn f(&self) -> &'a Foundation {
        &self.job.houses[0]
    }

    /// Its plan.
    pub(crate) fn plan(&self) -> &'a Plan {
        &self.job.plans[0]
    }

    pub(crate) fn telling(&self) -> Telling<'a> {
        Telling { words: self.words, system: self.system, f: self.f() }
    }

    /// Its phases that have a name.
    pub(crate) fn phases(&self) -> impl Iterator<Item = (Symbol, &'a Phase)> + use<'a> {
        self.f().phases.iter().filter_map(|p| p.name.map(|n| (n, p.as_ref())))
    }

    /// What is done in a phase, face by face, walls first, joints last.
    pub(crate) fn visits(&self, phase: Symbol) -> Vec<Visit<'a>> {
        let f = self.f();
        let mut out = Vec::new();
        let of_phase =
            |face: &'a Face| face.works.iter().filter(|w| w.phase.is_some_and(|p| p.name == phase)).collect::<Vec<_>>();
        for kind in SurfaceKind::ALL {
            for (number, assembly) in f.assemblies.iter().enumerate().filter(|(_, a)| a.kind == kind) {
                let id = AssemblyId(number as u32);
                let elements: Vec<Symbol> = f.built_with(id);
                if elements.is_empty() {
                    continue;
                }
                for face in &assembly.faces {
                    let works = of_phase(face);
                    if !works.is_empty() {
                        out.push(Visit { kind, face, elements: elements.clone(), works, levels: self.levels(id) });
                    }
                }
            }
        }
        for joint in &f.joints {
            let works = of_phase(&joint.face);
            if !works.is_empty() {
                let kind = if joint.first.kind == SurfaceKind::Ground { joint.second.kind } else { joint.first.kind };
                out.push(Visit { kind, face: &joint.face, elements: Vec::new(), works, levels: self.first_levels() });
            }
        }
        out
    }

    /// The levels of the first element built with an assembly; heights are told in words, so that one stands for all.
    fn levels(&self, id: AssemblyId) -> Levels {
        let f = self.f();
        let wall = f.walls.iter().find(|w| w.assembly == Some(id)).and_then(|w| w.stretches.first()).map(|s| s.levels);
        let pier = || f.piers.iter().find(|p| p.assembly == Some(id)).map(wythe_model::Pier::levels);
        wall.or_else(pier).unwrap_or_else(|| self.first_levels())
    }

    pub(crate) fn first_levels(&self) -> Levels {
        let zero = Length::default();
        let none = Levels { top: zero, sill: zero, grade: zero, ground: zero, footing: zero };
        self.f().walls.first().and_then(|w| w.stretches.first()).map_or(none, |s| s.levels)
    }

    /// A wall's length inside.
    pub(crate) fn inside(&self, wall: usize) -> Length {
        self.plan().walls.get(wall).map_or(Length::default(), |w| w.line(MeasuredFace::Inside).length())
    }

    /// A wall's heights inside, crawl floor to top, one for each stretch that differs.
    pub(crate) fn heights(&self, wall: usize) -> Vec<Length> {
        let mut out: Vec<Length> = Vec::new();
        for stretch in self.f().walls.get(wall).map_or(&[][..], |w| &w.stretches) {
            let height = stretch.levels.top - stretch.levels.ground;
            if out.iter().all(|h| (*h - height).abs() > hair()) {
                out.push(height);
            }
        }
        out
    }

    /// The numbers of the board pieces on an element, as in the cut list.
    pub(crate) fn piece_marks(&self, element: Symbol) -> Vec<String> {
        let mut out = Vec::new();
        for (number, board) in self.job.boards.iter().enumerate() {
            for (_, piece) in board.plan.pieces() {
                if board.run_of(piece).is_some_and(|r| r.element == element) {
                    out.push(wythe_render::drawing::piece_mark(self.job, number, piece));
                }
            }
        }
        out
    }

    /// Fasteners of an element by product: `(product, how many)`.
    pub(crate) fn fasteners(&self, element: Symbol) -> Vec<(Symbol, u64)> {
        let mut out: Vec<(Symbol, u64)> = Vec::new();
        for line in self.job.lines.iter().filter(|l| l.element == element && l.role == Role::Fasteners) {
            let (Some(product), wythe_model::quantity::Measure::Count(n)) = (&line.product, line.net) else { continue };
            match out.iter_mut().find(|(p, _)| *p == product.name) {
                Some((_, count)) => *count += n,
                None => out.push((product.name, n)),
            }
        }
        out
    }

    /// An element's assembly.
    pub(crate) fn assembly_of(&self, element: Symbol) -> Option<(SurfaceKind, &'a wythe_model::Assembly)> {
        let f = self.f();
        let wall = f.walls.iter().find(|w| w.name == element).and_then(|w| w.assembly);
        let pier = || f.piers.iter().find(|p| p.name == element).and_then(|p| p.assembly);
        let opening = || f.openings.iter().find(|o| o.name == element).and_then(|o| o.assembly);
        let ground = || (element.as_str() == "ground").then_some(f.ground.assembly).flatten();
        let id = wall.or_else(pier).or_else(opening).or_else(ground)?;
        let assembly = f.assemblies.get(id.0 as usize)?;
        Some((assembly.kind, assembly))
    }

    /// How much of a work is done on an element, by the log; nothing without a log.
    pub(crate) fn done(&self, element: Symbol, of: WorkOf, face: Symbol, work: usize) -> Option<f64> {
        let progress = self.progress?;
        let mine =
            |l: &&wythe_bill::TakeoffLine| l.element == element && l.of == of && l.face == face && l.work == work;
        let at = self.job.lines.iter().position(|l| mine(&l))?;
        progress.done.get(at).map(|r| r.value)
    }
}
