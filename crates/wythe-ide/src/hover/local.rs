//! What is declared inside a declaration: walls, openings, piers, parameters, values on the way.

use wythe_model::Foundation;
use wythe_project::Project;
use wythe_sema::{DefId, Signature};
use wythe_source::Span;
use wythe_syntax::ast::{DeclKind, ExprId, Param};

use super::{code, value, wall};
use crate::figures::figure;
use crate::{buildings, scope};

/// What is told of something by the place of its name.
pub(super) fn told(project: &Project, origin: Span) -> Option<String> {
    if let Some(f) = buildings::around(project, origin)
        && let Some(told) = part(project, f, origin)
    {
        return Some(told);
    }
    let (def, decl) = scope::around(project.program(), origin.file, origin.start)?;
    match &decl.kind {
        DeclKind::Buildup { params, .. } => param(project, def, params, origin),
        DeclKind::Fn(f) => param(project, def, &f.params, origin).or_else(|| {
            let binding = f.lets.iter().find(|l| l.name.span == origin)?;
            typed(project, origin, binding.value)
        }),
        _ => named_value(project, origin),
    }
}

fn part(project: &Project, f: &Foundation, origin: Span) -> Option<String> {
    let options = &project.manifest().display;
    if let Some(number) = f.walls.iter().position(|w| w.origin == origin) {
        return Some(wall::told(project, f, number));
    }
    if let Some(o) = f.openings.iter().find(|o| o.origin == origin) {
        let wall = o.wall.and_then(|w| f.walls.get(w)).map_or("?", |w| w.name.as_str());
        let mut lines = vec![
            format!("**{}** {}: {} x {}", o.name, o.kind.name(), figure(o.width, options), figure(o.height, options)),
            format!("in {wall}, {} from its start to {}", figure(o.at, options), figure(o.at + o.width, options)),
        ];
        lines.extend(o.free_area.map(|a| format!("net free area {}", figure(a, options))));
        return Some(lines.join("\n\n"));
    }
    let piers: Vec<_> = f.piers.iter().filter(|p| p.origin == origin).collect();
    if let Some(first) = piers.first() {
        let names: Vec<_> = piers.iter().map(|p| p.name.as_str()).collect();
        let mut lines = vec![format!(
            "**{}**: {} of {} x {}, {} high from ground to top",
            names.join(", "),
            if piers.len() == 1 { "one pier".into() } else { format!("{} piers", piers.len()) },
            figure(first.width, options),
            figure(first.depth, options),
            figure(first.top - first.ground, options),
        )];
        lines.extend(first.beam.map(|b| format!("carries {b}, which is recorded and not sized")));
        return Some(lines.join("\n\n"));
    }
    let beam = f.beams.iter().find(|b| b.origin == origin)?;
    Some(format!(
        "**{}**: {} long, its underside {} below the sill; recorded, never sized",
        beam.name,
        figure(beam.line().length(), options),
        figure(beam.drop, options),
    ))
}

fn param(project: &Project, def: DefId, params: &[Param], origin: Span) -> Option<String> {
    let program = project.program();
    let number = params.iter().position(|p| p.name.span == origin)?;
    let param = &params[number];
    let types = match scope::signature(program, def)? {
        Signature::Function { params, .. } | Signature::Buildup { params, .. } => params,
        _ => return None,
    };
    let ty = &types.get(number)?.ty;
    let module = &program.module(def.file)?.module;
    let mut head = format!("{}: {}", param.name.name, program.text(param.ty.span));
    if let Some(default) = param.default {
        head.push_str(&format!(" = {}", program.text(module[default].span)));
    }
    if let Some(contract) = param.contract {
        head.push_str(&format!(" where {}", program.text(module[contract].span)));
    }
    Some(format!("{}\n\nparameter of `{}`: {}", code(&head), program.name_of(def), ty.describe(program)))
}

/// A value named on the way, or the name bound by `for each`: found by the expressions that mention it.
fn named_value(project: &Project, origin: Span) -> Option<String> {
    let program = project.program();
    let data = program.module(origin.file)?;
    let name = origin.text(&data.text);
    let checked = data.checked.as_ref()?;
    let mention = checked.mentions.iter().find(|(_, t)| *t == wythe_sema::Target::Local(origin));
    let at = mention.map(|(span, _)| *span)?;
    let index = data.module.exprs.iter().position(|e| e.span == at)?;
    let ty = checked.types.get(index)?;
    Some(format!("{}\n\n{}", code(name), ty.describe(program)))
}

fn typed(project: &Project, origin: Span, value: ExprId) -> Option<String> {
    let program = project.program();
    let data = program.module(origin.file)?;
    let ty = data.checked.as_ref()?.ty(value);
    let derived = value::derived(program, origin.file, origin.start, value, &project.manifest().display);
    let shown = derived.map(|d| format!(" = **{}**", d.value)).unwrap_or_default();
    Some(format!("{}\n\n{}{shown}", code(origin.text(&data.text)), ty.describe(program)))
}
