//! What an editor offers to do at a place: the fixes of findings, imports, all safe fixes at once, `use` lines in order.

use wythe_findings::{Edit, Finding, Fix, Safety, codes};
use wythe_project::Project;
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{DeclKind, Import, UseTarget};

use crate::complete::import_edit;
use crate::{mends, scope};

/// What an action is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum ActionKind {
    /// It mends a finding.
    QuickFix,
    /// It makes every safe fix of the file.
    FixAll,
    /// It puts the `use` lines in order.
    OrganizeUses,
    /// It changes the text without a finding.
    Refactor,
}

/// An offer.
#[derive(Clone, PartialEq, Debug)]
pub struct Action {
    /// As the list shows it.
    pub title: String,
    /// What it is for.
    pub kind: ActionKind,
    /// The edits; they may lie in several files.
    pub edits: Vec<Edit>,
    /// The finding it mends.
    pub mends: Option<Finding>,
    /// Whether it is the one most likely meant.
    pub preferred: bool,
}

/// The offers for a range of a file.
pub fn actions(project: &Project, range: Span) -> Vec<Action> {
    let mut out = Vec::new();
    let touches = |span: Span| span.start <= range.end && range.start <= span.end;
    for finding in project.findings_in(range.file) {
        if !touches(finding.primary.span)
            && !finding.related.iter().any(|r| r.span.file == range.file && touches(r.span))
        {
            continue;
        }
        let imports = imports(project, &finding);
        let several = finding.fixes.len() + imports.len() > 1;
        for (title, edits) in imports {
            out.push(quick(&finding, title, edits, !several));
        }
        for fix in &finding.fixes {
            if let Some(edits) = resolved(project, fix) {
                out.push(quick(&finding, fix.title.clone(), edits, !several || fix.safety == Safety::Safe));
            }
        }
        for (title, edits) in mends::offers(project, &finding) {
            out.push(quick(&finding, title, edits, false));
        }
    }
    out.extend(publish(project, range));
    out.extend(fix_all(project, range.file));
    out.extend(organize(project, range.file));
    out
}

fn quick(finding: &Finding, title: String, edits: Vec<Edit>, preferred: bool) -> Action {
    Action { title, kind: ActionKind::QuickFix, edits, mends: Some(finding.clone()), preferred }
}

/// The edits of a fix, its moves read from the texts.
pub fn resolved(project: &Project, fix: &Fix) -> Option<Vec<Edit>> {
    fix.resolve(|file| Some(project.text(file)))
}

/// Imports that would make a name known.
fn imports(project: &Project, finding: &Finding) -> Vec<(String, Vec<Edit>)> {
    if finding.name.as_str() != codes::UNKNOWN_NAME.name() {
        return Vec::new();
    }
    let place = finding.primary.span;
    let name = Symbol::new(place.text(project.text(place.file)));
    let lent = scope::lendable(project, place.file).into_iter().filter(|(n, _)| *n == name);
    lent.filter_map(|(name, def)| {
        let edit = import_edit(project, place.file, def)?;
        Some((format!("use `{name}` from {}", project.name(def.file)), vec![edit]))
    })
    .collect()
}

/// Makes a declaration known to other files.
fn publish(project: &Project, range: Span) -> Option<Action> {
    let (_, decl) = scope::around(project.program(), range.file, range.start)?;
    let can = !matches!(
        decl.kind,
        DeclKind::Test { .. } | DeclKind::Waiver { .. } | DeclKind::Amend { .. } | DeclKind::Log(_)
    );
    if decl.public || !can || !decl.name.span.touches(range.start) {
        return None;
    }
    let at = Span::new(range.file, decl.span.start, decl.span.start);
    Some(Action {
        title: format!("let other files use `{}`", decl.name.name),
        kind: ActionKind::Refactor,
        edits: vec![Edit { span: at, text: "pub ".into() }],
        mends: None,
        preferred: false,
    })
}

/// Every safe fix of a file that does not get in the way of another.
pub fn fix_all(project: &Project, file: FileId) -> Option<Action> {
    let mut edits: Vec<Edit> = Vec::new();
    let mut count = 0;
    for finding in project.findings_in(file) {
        let Some(fix) = finding.fixes.iter().find(|f| f.safety == Safety::Safe) else { continue };
        let Some(more) = resolved(project, fix) else { continue };
        let clash = more.iter().any(|m| {
            m.span.file != file || edits.iter().any(|e| e.span.start <= m.span.end && m.span.start <= e.span.end)
        });
        if !clash {
            edits.extend(more);
            count += 1;
        }
    }
    (count > 0).then(|| Action {
        title: if count == 1 {
            "make the 1 safe fix of this file".into()
        } else {
            format!("make the {count} safe fixes of this file")
        },
        kind: ActionKind::FixAll,
        edits,
        mends: None,
        preferred: false,
    })
}

/// The `use` lines in order of path, the names in each in order, those not needed left out.
pub fn organize(project: &Project, file: FileId) -> Option<Action> {
    let program = project.program();
    let data = program.module(file)?;
    let uses = &data.module.uses;
    let (first, last) = (uses.first()?, uses.last()?);
    let block = first.span.to(last.span);
    let written = block.text(&data.text);
    // A remark among the lines would lose its place.
    if written.contains("//") {
        return None;
    }
    let mut lines: Vec<(u8, String)> = Vec::new();
    for (used, target) in uses.iter().zip(&data.uses) {
        let line = match &used.target {
            UseTarget::Code(name) => (1, format!("use code {}", name.name)),
            UseTarget::File { path, imports, .. } if imports.is_empty() => (0, format!("use \"{path}\"")),
            UseTarget::File { path, imports, .. } => {
                let mut names: Vec<Import> =
                    imports.iter().filter(|i| target.is_none() || needed(project, file, i)).copied().collect();
                names.sort_by_key(|i| i.name.name.as_str());
                let names: Vec<_> = names
                    .iter()
                    .map(|i| {
                        i.alias.map_or_else(|| i.name.name.to_string(), |a| format!("{} as {}", i.name.name, a.name))
                    })
                    .collect();
                if names.is_empty() {
                    continue;
                }
                (0, format!("use \"{path}\": {}", names.join(", ")))
            }
        };
        lines.push(line);
    }
    lines.sort();
    let text = lines.into_iter().map(|(_, l)| l).collect::<Vec<_>>().join("\n");
    (text != written).then(|| Action {
        title: "put the `use` lines in order".into(),
        kind: ActionKind::OrganizeUses,
        edits: vec![Edit { span: block, text }],
        mends: None,
        preferred: false,
    })
}

/// Whether an imported name is named anywhere past the `use` lines. Names that cannot be traced, such as units,
/// count as needed where their word occurs at all.
fn needed(project: &Project, file: FileId, import: &Import) -> bool {
    let text = project.text(file);
    let local = import.local();
    let word = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let rest = text.get(local.span.end as usize..).unwrap_or("");
    rest.match_indices(local.name.as_str()).any(|(at, name)| {
        let before = rest[..at].chars().next_back().is_some_and(word);
        let after = rest[at + name.len()..].chars().next().is_some_and(word);
        !before && !after
    })
}
