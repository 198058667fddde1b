//! The work of a cut in the order it is done, up to a phase, without what has been taken away again.

use wythe_model::{Act, Assembly, Face, Foundation, Joint, SurfaceKind, Work};

/// Which face or joint a work belongs to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Owner<'a> {
    /// A face of a wall, pier or the ground.
    Face(SurfaceKind, &'a Face),
    /// A joint.
    Joint(&'a Joint),
}

/// One piece of work in a cut.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Event<'a> {
    /// What it belongs to.
    pub owner: Owner<'a>,
    /// Its place in the order of work of its face, from 1.
    pub number: usize,
    /// The work.
    pub work: &'a Work,
    /// The phase it is done in, by number; work without a phase is there from the start.
    pub phase: usize,
}

impl Event<'_> {
    /// The letter and number on a drawing: `I3`.
    pub fn badge(&self) -> String {
        format!("{}{}", self.letter(), self.number)
    }

    fn letter(&self) -> &'static str {
        match self.owner {
            Owner::Joint(_) => "J",
            Owner::Face(SurfaceKind::Ground, _) => "G",
            Owner::Face(SurfaceKind::Pier, face) if face.name.as_str() != "head" => "P",
            Owner::Face(_, face) => match face.name.as_str() {
                "head" => "T",
                "outside" => "O",
                _ => "I",
            },
        }
    }

    /// The name of its face, or its joint.
    pub fn face_name(&self) -> &'static str {
        match self.owner {
            Owner::Face(_, face) => face.name.as_str(),
            Owner::Joint(joint) => joint.name.as_str(),
        }
    }

    /// What it is on.
    pub fn kind(&self) -> SurfaceKind {
        match self.owner {
            Owner::Face(kind, _) => kind,
            Owner::Joint(_) => SurfaceKind::Ground,
        }
    }
}

/// All work on an assembly, the ground and the joints between the two, in the order it is done.
pub(crate) fn events<'a>(f: &'a Foundation, on: Option<&'a Assembly>, until: Option<usize>) -> Vec<Event<'a>> {
    let ground = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).map(AsRef::as_ref);
    let mut out = Vec::new();
    let mut add = |owner: Owner<'a>, face: &'a Face| {
        for (at, work) in face.works.iter().enumerate() {
            let phase = work.phase.and_then(|p| f.phase_index(p.name)).unwrap_or(0);
            out.push(Event { owner, number: at + 1, work, phase });
        }
    };
    for assembly in on.into_iter().chain(ground) {
        for face in &assembly.faces {
            add(Owner::Face(assembly.kind, face), face);
        }
    }
    let kind = on.map(|a| a.kind);
    let meets = |j: &Joint| {
        let kinds = [j.first.kind, j.second.kind];
        kinds.contains(&SurfaceKind::Ground) && kind.is_some_and(|k| kinds.contains(&k))
    };
    for joint in f.joints.iter().filter(|j| meets(j)) {
        add(Owner::Joint(joint), &joint.face);
    }
    out.retain(|e| until.is_none_or(|until| e.phase <= until));
    out.sort_by_key(|e| e.phase);
    without_removed(out)
}

/// Drops each removal, and the newest layer of its name before it with all that was done to it.
fn without_removed(events: Vec<Event<'_>>) -> Vec<Event<'_>> {
    let mut out: Vec<Event<'_>> = Vec::with_capacity(events.len());
    for event in events {
        if event.work.act != Act::Remove {
            out.push(event);
            continue;
        }
        let same = |e: &Event<'_>| e.work.layer == event.work.layer && e.owner == event.owner;
        if let Some(placed) = out.iter().rposition(|e| same(e) && e.work.act.places()) {
            let of_it = |e: &Event<'_>| same(e) || e.work.place.is_some_and(|p| p.of == Some(event.work.layer));
            let mut at = 0;
            out.retain(|e| {
                at += 1;
                at <= placed || !of_it(e)
            });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use wythe_model::fixture::unit_4;

    use super::*;

    #[test]
    fn work_comes_in_order_and_what_is_taken_away_is_gone() {
        let f = unit_4();
        let wall = f.assemblies[0].as_ref();
        let all = events(&f, Some(wall), None);
        assert!(all.windows(2).all(|w| w[0].phase <= w[1].phase));
        assert!(all.iter().all(|e| e.work.layer.as_str() != "build_sheet"));
        assert!(all.iter().any(|e| e.badge() == "G3" && e.work.layer.as_str() == "ground_liner"));
        let early = events(&f, Some(wall), f.phase_index(wythe_source::Symbol::new("rough_in")));
        assert!(early.iter().any(|e| e.work.layer.as_str() == "build_sheet"));
        assert!(early.iter().all(|e| e.badge() != "J1"));
    }
}
