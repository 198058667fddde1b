//! How far the work has come by the log, what goes on next, and what must be seen first.

use rustc_hash::FxHashSet;
use wythe_eval::{Evaluator, Frame, Value};
use wythe_model::{Face, Foundation};
use wythe_project::Project;
use wythe_sema::DefId;
use wythe_source::Symbol;
use wythe_syntax::ast::{Block, DeclKind, Item, StatementKind};

/// What a log says of a foundation.
#[derive(Default)]
struct Progress {
    /// Phases that are done.
    done: FxHashSet<Symbol>,
    /// Phases whose inspection has been passed.
    passed: FxHashSet<Symbol>,
    /// The name of the log.
    log: Option<Symbol>,
}

/// The inspections between two phases, the earlier one's own included: phase and what must be seen.
pub(crate) fn holds_between(f: &Foundation, from: Option<Symbol>, to: Option<Symbol>) -> Vec<(Symbol, String)> {
    let at = |name: Option<Symbol>| name.and_then(|n| f.phase_index(n));
    let (start, end) = (at(from).unwrap_or(0), at(to).unwrap_or(f.phases.len()));
    let between = f.phases.iter().take(end).skip(start);
    between.filter_map(|p| Some((p.name?, p.hold.as_ref()?.to_string()))).collect()
}

/// What goes on next on the inside of a wall, and what must be seen before it: by the log if there is one, else the
/// first work of the face.
pub(crate) fn next_on_wall(project: &Project, f: &Foundation, wall: usize) -> Option<String> {
    let assembly = f.assemblies.get(f.walls.get(wall)?.assembly?.0 as usize)?;
    let progress = read(project, f);
    let inside = assembly.face("inside")?;
    let next = first_open(f, inside, &progress);
    let mut lines = Vec::new();
    let by = progress.log.map(|log| format!(" by {log}")).unwrap_or_default();
    match next {
        None => lines.push(format!("**Next inside{by}**: nothing; every layer's phase is done")),
        Some((phase, works)) => {
            let words: Vec<_> = works.iter().map(|w| format!("{} {}", w.act.word(), w.layer)).collect();
            lines.push(format!("**Next inside{by}**, in {phase}: {}", words.join(", ")));
            let until = f.phase_index(phase).unwrap_or(0);
            let waiting = f.phases.iter().take(until).filter_map(|p| Some((p.name?, p.hold.as_ref()?)));
            for (name, hold) in waiting.filter(|(name, _)| !progress.passed.contains(name)) {
                lines.push(format!("- seen first, after {name}: {hold}"));
            }
        }
    }
    Some(lines.join("\n"))
}

fn first_open<'f>(f: &Foundation, face: &'f Face, progress: &Progress) -> Option<(Symbol, Vec<&'f wythe_model::Work>)> {
    let phases = f.phases.iter().filter_map(|p| p.name).filter(|p| !progress.done.contains(p));
    for phase in phases {
        let works: Vec<_> = face.works.iter().filter(|w| w.phase.is_some_and(|p| p.name == phase)).collect();
        if !works.is_empty() {
            return Some((phase, works));
        }
    }
    None
}

fn read(project: &Project, f: &Foundation) -> Progress {
    let program = project.program();
    let mut out = Progress::default();
    for file in program.files() {
        let Some(data) = program.module(file) else { continue };
        for decl in &data.module.decls {
            let DeclKind::Log(block) = &decl.kind else { continue };
            let mut ev = Evaluator::new(program);
            let Some(mut frame) = Frame::new(program, file) else { continue };
            if property(&mut ev, &mut frame, block, "of_foundation").is_none_or(|v| !is(&v, f)) {
                continue;
            }
            out.log = Some(decl.name.name);
            for item in &block.items {
                if let Item::Statement(statement) = item
                    && let StatementKind::Entry { block, .. } = &statement.kind
                {
                    entry(&mut ev, &mut frame, block, &mut out);
                }
            }
        }
    }
    out
}

fn is(value: &Value, f: &Foundation) -> bool {
    matches!(value, Value::Element(wythe_eval::Element::Foundation(other)) if other.origin == f.origin)
}

fn entry<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: &Block, out: &mut Progress) {
    let mut phases = Vec::new();
    if let Some(Value::List(items)) = property(ev, frame, block, "done") {
        phases.extend(items.iter().filter_map(phase_of));
        out.done.extend(phases.iter().copied());
    }
    phases.extend(property(ev, frame, block, "visit").as_ref().and_then(phase_of));
    let passed = property(ev, frame, block, "hold").is_some_and(|v| member(ev, &v) == Some("passed"));
    if passed {
        out.passed.extend(phases);
    }
}

fn phase_of(value: &Value) -> Option<Symbol> {
    match value {
        Value::Phase(phase) => phase.name,
        _ => None,
    }
}

fn member(ev: &Evaluator<'_>, value: &Value) -> Option<&'static str> {
    let Value::Member(def, at) = value else { return None };
    let DefId { file, index } = *def;
    match ev.program.checked(file)?.signatures.get(index as usize)? {
        wythe_sema::Signature::Enum { members, .. } => members.get(*at as usize).map(|m| m.as_str()),
        _ => None,
    }
}

fn property<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: &Block, name: &str) -> Option<Value> {
    block.items.iter().find_map(|item| match item {
        Item::Property { name: n, value } if n.name.as_str() == name => Some(ev.eval(frame, *value)),
        _ => None,
    })
}
