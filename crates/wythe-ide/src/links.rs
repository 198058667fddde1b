//! Paths and code packs that lead to files, and weather and price files.

use wythe_project::{Project, SourcePath};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{ExprKind, TextPart, UseTarget};

/// A link: the place, and where it leads.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Link {
    /// The place.
    pub span: Span,
    /// Where it leads.
    pub to: LinkTarget,
}

/// Where a link leads.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LinkTarget {
    /// A file the project has read.
    File(FileId),
    /// A data file of the repository.
    Data(SourcePath),
}

/// The links of a file, by place.
pub fn links(project: &Project, file: FileId) -> Vec<Link> {
    let Some(data) = project.program().module(file) else { return Vec::new() };
    let mut out = Vec::new();
    for (used, target) in data.module.uses.iter().zip(&data.uses) {
        let span = match &used.target {
            UseTarget::Code(name) => name.span,
            UseTarget::File { path_span, .. } => *path_span,
        };
        if let Some(target) = target {
            out.push(Link { span, to: LinkTarget::File(*target) });
        }
    }
    let Some(entry) = project.entry(file) else { return out };
    for expr in &data.module.exprs {
        let ExprKind::Call { callee, args } = &expr.kind else { continue };
        let ExprKind::Name(name) = data.module[*callee].kind else { continue };
        if !matches!(name.as_str(), "monthly" | "hourly" | "table") {
            continue;
        }
        let Some(arg) = args.first() else { continue };
        let argument = &data.module[arg.value];
        if let ExprKind::Text(parts) = &argument.kind
            && let [TextPart::Plain(path)] = &parts[..]
            && let Some(path) = SourcePath::resolve(&entry.path.folder(), path)
        {
            out.push(Link { span: argument.span, to: LinkTarget::Data(path) });
        }
    }
    out.sort_by_key(|l| l.span);
    out
}
