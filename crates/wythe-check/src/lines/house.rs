//! What a line proof knows of the house, and what it collects: traces, and breaks that are told once.

use wythe_findings::Finding;
use wythe_model::{Control, Foundation, SurfaceKind};
use wythe_source::{Span, Symbol};

use super::fault::{Break, Owner};
use super::section::{Section, carries};
use super::trace::{Mend, Status, Step, Trace};
use crate::Requirements;
use crate::order::history::History;

/// The house under proof.
pub(crate) struct House<'a> {
    /// The foundation.
    pub foundation: &'a Foundation,
    /// What is asked for.
    pub asked: &'a Requirements,
    /// Its sections.
    pub sections: Vec<Section<'a>>,
    /// The crawl floor, as a section of its own.
    pub ground: Option<Section<'a>>,
}

impl<'a> House<'a> {
    /// Cuts a foundation into sections.
    pub fn of(foundation: &'a Foundation, asked: &'a Requirements) -> Self {
        let ground = foundation.ground.assembly.and_then(|id| {
            let assembly = foundation.assemblies.get(id.0 as usize)?;
            Some(Section::of(id, assembly, crate::levels::levels_of(foundation, id), Symbol::new("ground")))
        });
        House { foundation, asked, sections: super::section::sections(foundation), ground }
    }

    /// The history of the crawl floor's face.
    pub fn ground_face(&self) -> Option<&History<'a>> {
        self.ground.as_ref()?.faces.first()
    }

    /// Whether a name is a layer of the ground that stays and carries a line.
    pub fn ground_carries(&self, name: Symbol, control: Control) -> bool {
        self.ground_face().is_some_and(|h| {
            h.lives.iter().any(|l| {
                l.name == name
                    && l.stays()
                    && !l.is_sacrificial()
                    && l.product.is_some_and(|p| carries(p, control, self.asked))
            })
        })
    }

    /// The layer of the ground that carries a line, newest first.
    pub fn ground_layer(&self, control: Control) -> Option<(Symbol, Span)> {
        let history = self.ground_face()?;
        let life =
            history.lives.iter().rev().find(|l| {
                l.stays() && !l.is_sacrificial() && l.product.is_some_and(|p| carries(p, control, self.asked))
            })?;
        Some((life.name, history.works()[life.work].origin))
    }
}

/// What a proof collects.
#[derive(Default)]
pub(crate) struct Out {
    /// The traces.
    pub traces: Vec<Trace>,
    /// The breaks, each place once.
    pub breaks: Vec<(Break, Vec<Symbol>)>,
    /// Findings that are no breaks.
    pub findings: Vec<Finding>,
}

impl Out {
    /// Adds a break in some parts; the same mend at the same line is one break, whichever lines it mends.
    pub fn add(&mut self, new: Break, places: &[Symbol]) {
        let same =
            self.breaks.iter_mut().find(|(b, _)| b.origin == new.origin && b.mend == new.mend && b.owner == new.owner);
        let Some((old, old_places)) = same else {
            self.breaks.push((new, places.to_vec()));
            return;
        };
        for control in new.controls {
            if !old.controls.contains(&control) {
                old.controls.push(control);
            }
        }
        for place in places {
            if !old_places.contains(place) {
                old_places.push(*place);
            }
        }
    }
}

impl House<'_> {
    /// A trace of a section.
    pub fn trace(
        &self,
        control: Control,
        section: &Section,
        steps: Vec<Step>,
        status: Status,
        mends: Vec<Mend>,
        note: &str,
    ) -> Trace {
        Trace {
            control,
            kind: section.assembly.kind,
            places: section.places.clone(),
            assembly: Some(section.id),
            levels: section.levels,
            steps,
            status,
            mends,
            note: note.to_owned(),
        }
    }

    /// The mend of a break, for a trace.
    pub fn mend(&self, b: &Break) -> Mend {
        let required = b.fault.short.map(|(_, need)| self.asked.length(need));
        let whose = b.fault.short.map_or(String::new(), |(_, need)| self.asked.source(need).to_owned());
        let found = b.fault.short.map(|(found, _)| found);
        Mend { text: b.mend.clone(), origin: b.origin, elevation: b.elevation, found, required, whose }
    }

    /// The owner of a face.
    pub fn owner(&self, section: &Section, face: Option<usize>) -> Owner {
        let name = face.and_then(|f| section.faces.get(f)).map_or_else(|| Symbol::new("inside"), |h| h.face.name);
        Owner::Assembly(section.id, name)
    }
}

/// A step of a trace for a layer of an element.
pub(crate) fn step(kind: SurfaceKind, segment: &super::section::Segment, section: &Section, joined: String) -> Step {
    let face = segment.face.map_or_else(|| Symbol::new("structure"), |f| section.faces[f].face.name);
    Step {
        layer: segment.name,
        element: kind,
        face,
        from: segment.range.high,
        to: segment.range.low,
        origin: segment.origin,
        joined,
    }
}
