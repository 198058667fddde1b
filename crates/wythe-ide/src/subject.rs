//! What a drawing beside the text is of, by the cursor: the section of a wall, a pier, the plan of a foundation.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_model::{Assembly, Foundation, SurfaceKind};
use wythe_project::Project;
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{DeclKind, Item, StatementKind};

use crate::{buildings, scope};

/// What is drawn.
#[derive(Clone, Debug)]
pub enum Subject {
    /// The section of a wall at a place along it.
    Section(Arc<Foundation>, usize, Length),
    /// A pier.
    Pier(Arc<Foundation>, usize),
    /// The plan of a foundation.
    Plan(Arc<Foundation>),
}

/// What is drawn for an offset; nothing where no foundation shows what stands there.
pub fn subject(project: &Project, file: FileId, offset: u32) -> Option<Subject> {
    let (_, decl) = scope::around(project.program(), file, offset)?;
    match &decl.kind {
        DeclKind::Foundation { .. } => {
            let f = buildings::around(project, decl.name.span)?;
            let here = Span::new(file, offset, offset);
            let wall = f.walls.iter().position(|w| statement(project, w.origin).is_some_and(|s| s.holds(here)));
            if let Some(wall) = wall {
                return Some(section(f, wall));
            }
            let pier = f.piers.iter().position(|p| statement(project, p.origin).is_some_and(|s| s.holds(here)));
            Some(pier.map_or_else(|| Subject::Plan(f.clone()), |pier| Subject::Pier(f.clone(), pier)))
        }
        DeclKind::Buildup { .. } => built_with(project, decl.name.span),
        DeclKind::Joint { .. } => {
            let judged = buildings::all(project);
            let f = judged.map(|j| &j.foundation).find(|f| f.joints.iter().any(|j| j.origin == decl.name.span))?;
            Some(section(f, 0))
        }
        _ => None,
    }
}

fn built_with(project: &Project, buildup: Span) -> Option<Subject> {
    let (f, assembly) = buildings::made_of(project, buildup).into_iter().next()?;
    let is = |id: Option<wythe_model::AssemblyId>| {
        id.and_then(|id| f.assemblies.get(id.0 as usize)).is_some_and(|a: &Arc<Assembly>| Arc::ptr_eq(a, assembly))
    };
    match assembly.kind {
        SurfaceKind::Wall => Some(section(f, f.walls.iter().position(|w| is(w.assembly))?)),
        SurfaceKind::Pier => Some(Subject::Pier(f.clone(), f.piers.iter().position(|p| is(p.assembly))?)),
        SurfaceKind::Ground => Some(section(f, 0)),
        SurfaceKind::Opening => {
            let opening = f.openings.iter().find(|o| is(o.assembly))?;
            Some(Subject::Section(f.clone(), opening.wall?, opening.at + opening.width / 2.0))
        }
    }
}

/// A wall cut where no opening is in the way, if there is such a place near its middle.
fn section(f: &Arc<Foundation>, wall: usize) -> Subject {
    let length = f.walls.get(wall).map_or_else(Length::default, |w| w.length);
    let free =
        |at: &Length| f.openings.iter().filter(|o| o.wall == Some(wall)).all(|o| *at < o.at || *at > o.at + o.width);
    let tries = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
    let at = tries.into_iter().map(|share| length * share).find(free).unwrap_or(length / 2.0);
    Subject::Section(f.clone(), wall, at)
}

/// The statement that declares a part of a foundation, by the place of its name.
fn statement(project: &Project, name: Span) -> Option<Span> {
    let module = &project.program().module(name.file)?.module;
    let decl = module.decls.iter().find(|d| d.span.holds(name))?;
    let block = decl.kind.block()?;
    let mut items: Vec<&Item> = block.items.iter().collect();
    for item in &block.items {
        if let Item::Section { block, .. } = item {
            items.extend(&block.items);
        }
    }
    items.into_iter().find_map(|item| match item {
        Item::Statement(s) => {
            let declares =
                matches!(s.kind, StatementKind::Wall { .. } | StatementKind::Pier { .. } | StatementKind::Piers { .. });
            (declares && s.span.holds(name)).then_some(s.span)
        }
        _ => None,
    })
}

impl Subject {
    /// What it is called.
    pub fn title(&self) -> String {
        match self {
            Subject::Section(f, wall, _) => {
                let wall = f.walls.get(*wall).map_or("", |w| w.name.as_str());
                format!("{}: section of {wall}", f.name)
            }
            Subject::Pier(f, pier) => format!("{}: {}", f.name, f.piers.get(*pier).map_or("", |p| p.name.as_str())),
            Subject::Plan(f) => format!("{}: plan", f.name),
        }
    }

    /// The foundation.
    pub const fn foundation(&self) -> &Arc<Foundation> {
        match self {
            Subject::Section(f, ..) | Subject::Pier(f, _) | Subject::Plan(f) => f,
        }
    }
}
