//! Work that is missing, as lines an author would add: a fixing, a tape, a break against rising water, a longer lap. The
//! lines are taken from where the plans do such work already, so that they name products the house is built with.

use wythe_findings::{Edit, Finding, codes};
use wythe_project::{Origin, Project};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::INDENT;
use wythe_syntax::ast::{
    Block, Clause, ClauseKind, Decl, DeclKind, Edge, ExprKind, Ident, Item, Layer, Module, Statement, StatementKind,
    Verb,
};

use crate::complete::import_edit;
use crate::scope;

/// A line to be added: what it is called, and the edits that add it.
pub(crate) type Offer = (String, Vec<Edit>);

/// How many ways to do the same are offered at most.
const MOST: usize = 3;

/// The lines that would mend a finding; the likeliest first.
pub(crate) fn offers(project: &Project, finding: &Finding) -> Vec<Offer> {
    let place = finding.primary.span;
    let Some((_, decl)) = scope::around(project.program(), place.file, place.start) else { return Vec::new() };
    let Some(data) = project.program().module(place.file) else { return Vec::new() };
    let at = At { project, file: place.file, module: &data.module, decl };
    let name = finding.name.as_str();
    if name == codes::MISSING_CAPILLARY_BREAK.name() {
        return at.capillary_break();
    }
    let Some((statement, layer)) = at.layer(place) else { return Vec::new() };
    if name == codes::NEVER_FASTENED.name() {
        at.fixing(statement, layer)
    } else if name == codes::UNSEALED_PIERCING.name() {
        at.tape(statement, layer.clauses.iter().find_map(with), "heads")
    } else if name == codes::MISSING_LAP_TAPE.name() {
        at.tape(statement, Some(called(layer)), "laps")
    } else if name == codes::LAP_SHORT.name() {
        at.longer_lap(finding, layer).into_iter().collect()
    } else {
        Vec::new()
    }
}

/// The declaration a finding stands in.
struct At<'p> {
    project: &'p Project,
    file: FileId,
    module: &'p Module,
    decl: &'p Decl,
}

/// Work found elsewhere in the plans.
struct Known<'p> {
    file: FileId,
    layer: &'p Layer,
    text: &'p str,
    decl: &'p Decl,
}

impl<'p> At<'p> {
    /// The layer a place belongs to.
    fn layer(&self, place: Span) -> Option<(&'p Statement, &'p Layer)> {
        let mut all = Vec::new();
        statements(self.decl.kind.block()?, &mut all);
        all.into_iter().find_map(|statement| match &statement.kind {
            StatementKind::Layer(layer) if statement.span.holds(place) || place.holds(statement.span) => {
                Some((statement, layer))
            }
            _ => None,
        })
    }

    /// `fasten it with …`, as something of its class is fastened elsewhere.
    fn fixing(&self, after: &Statement, layer: &Layer) -> Vec<Offer> {
        let name = called(layer);
        let class = self.class(self.file, self.decl, name.name);
        let known = self.known(|known| {
            let same = known.layer.verb == Verb::Fasten
                && class.is_some()
                && self.class(known.file, known.decl, known.layer.object.name) == class;
            let fastener = known.layer.clauses.iter().find_map(with)?;
            let rest =
                known.text.get(known.layer.object.span.end as usize..known.layer.clauses.last()?.span.end as usize);
            same.then_some((fastener.name, known.file, format!("fasten {}{}", name.name, rest?)))
        });
        self.lines_after(after, known)
    }

    /// `tape … over heads of it`, by the tape that does such work elsewhere, first that which does it on the same.
    fn tape(&self, after: &Statement, of: Option<Ident>, edge: &str) -> Vec<Offer> {
        let Some(of) = of.map(|of| of.name) else { return Vec::new() };
        let taped = |same: bool| {
            self.known(move |known| {
                let over = known.layer.clauses.iter().find_map(over)?;
                let fits = known.layer.verb == Verb::Tape
                    && over.what.iter().any(|word| word.name.as_str() == edge)
                    && (over.of.is_some_and(|other| other.name == of) == same);
                let tape = known.layer.object.name;
                fits.then(|| (tape, known.file, format!("tape {tape} over {edge} of {of}")))
            })
        };
        let mut known = taped(true);
        known.extend(taped(false));
        self.lines_after(after, known)
    }

    /// A coated head, as another build-up for the same kind of thing has it.
    fn capillary_break(&self) -> Vec<Offer> {
        let DeclKind::Buildup { kind, block, .. } = &self.decl.kind else { return Vec::new() };
        let has_head =
            block.items.iter().any(|i| matches!(i, Item::Section { name, .. } if name.name.as_str() == "head"));
        let known = self.known(|known| {
            let DeclKind::Buildup { kind: other, block, .. } = &known.decl.kind else { return None };
            let head = block.items.iter().find_map(|item| match item {
                Item::Section { name, block } if name.name.as_str() == "head" => Some(name.span.to(block.span)),
                _ => None,
            })?;
            let stands_in_it = head.holds(known.layer.verb_span) && known.layer.verb == Verb::Coat;
            let fits = stands_in_it && other.name == kind.name && !has_head;
            fits.then(|| (known.layer.object.name, known.file, head.text(known.text).to_owned()))
        });
        let at = block.items.iter().find_map(|item| match item {
            Item::Property { value, .. } => Some(self.module[*value].span.end),
            _ => None,
        });
        let at = at.unwrap_or(block.span.start + 1);
        let offer = |(product, from, text): (Symbol, FileId, String)| {
            // A remark at the end of the line the head goes after stays there.
            let end = line_end(self.project.text(self.file), at);
            let mut edits =
                vec![Edit { span: Span::new(self.file, end, end), text: format!("\n{}{text}", " ".repeat(INDENT)) }];
            edits.extend(self.import(product, from)?);
            Some((format!("coat the head with `{product}`"), edits))
        };
        known.into_iter().filter_map(offer).take(MOST).collect()
    }

    /// The length of a lap, made what the rules ask for.
    fn longer_lap(&self, finding: &Finding, layer: &Layer) -> Option<Offer> {
        let cause = finding.cause.as_deref()?;
        let (found, rest) = cause.strip_prefix("found ")?.split_once(", required ")?;
        let (required, _) = rest.split_once(" (")?;
        let by = layer.clauses.iter().find_map(|clause| match clause.kind {
            ClauseKind::By(id) => Some(id),
            _ => None,
        })?;
        let written = &self.module[by];
        let marked = |length: &str| length.replace(" in", "\"");
        let text = written.span.text(self.project.text(self.file));
        // A length worked out from others is for its author to change.
        if !matches!(written.kind, ExprKind::Length) || text != marked(found) {
            return None;
        }
        let edit = Edit { span: written.span, text: marked(required) };
        Some((format!("lap by {}", marked(required)), vec![edit]))
    }

    /// Work of the plans that is of use, this file's own first; each text once.
    fn known(&self, of_use: impl Fn(&Known<'p>) -> Option<(Symbol, FileId, String)>) -> Vec<(Symbol, FileId, String)> {
        let program = self.project.program();
        let mut files = program.files();
        files.retain(|file| self.project.entry(*file).is_some_and(|entry| entry.origin == Origin::Repository));
        files.sort_by_key(|file| *file != self.file);
        let mut out: Vec<(Symbol, FileId, String)> = Vec::new();
        for file in files {
            let Some(data) = program.module(file) else { continue };
            for decl in &data.module.decls {
                let mut all = Vec::new();
                decl.kind.block().into_iter().for_each(|block| statements(block, &mut all));
                for statement in all {
                    let StatementKind::Layer(layer) = &statement.kind else { continue };
                    let known = Known { file, layer, text: &data.text, decl };
                    out.extend(of_use(&known).filter(|new| !out.iter().any(|(.., text)| *text == new.2)));
                }
            }
        }
        out
    }

    fn lines_after(&self, statement: &Statement, lines: Vec<(Symbol, FileId, String)>) -> Vec<Offer> {
        let text = self.project.text(self.file);
        let head = text.get(..statement.span.start as usize).unwrap_or("");
        let line = head.get(head.rfind('\n').map_or(0, |at| at + 1)..).unwrap_or("");
        let own_line = line.trim().is_empty();
        let offer = |(product, from, work): (Symbol, FileId, String)| {
            let (at, new) = if own_line {
                (line_end(text, statement.span.end), format!("\n{line}{work}"))
            } else {
                (statement.span.end, format!("; {work}"))
            };
            let mut edits = vec![Edit { span: Span::new(self.file, at, at), text: new }];
            edits.extend(self.import(product, from)?);
            Some((format!("add `{work}`"), edits))
        };
        lines.into_iter().filter_map(offer).take(MOST).collect()
    }

    /// What must be imported for a product that another file names; nothing where it cannot be had here.
    fn import(&self, product: Symbol, from: FileId) -> Option<Option<Edit>> {
        let program = self.project.program();
        if scope::lookup(program, self.file, product).is_some() {
            return Some(None);
        }
        let def = scope::lookup(program, from, product)?;
        program.decl(def).filter(|decl| decl.public)?;
        import_edit(self.project, self.file, def).map(Some)
    }

    /// The class of what a layer of a declaration is made of, by the layer's name.
    fn class(&self, file: FileId, decl: &Decl, name: Symbol) -> Option<Symbol> {
        let mut all = Vec::new();
        decl.kind.block().into_iter().for_each(|block| statements(block, &mut all));
        let object = all.iter().find_map(|statement| match &statement.kind {
            StatementKind::Layer(layer) if called(layer).name == name => Some(layer.object.name),
            _ => None,
        });
        let object = object.unwrap_or(name);
        if let DeclKind::Buildup { params, .. } = &decl.kind
            && let Some(param) = params.iter().find(|p| p.name.name == object)
            && let wythe_syntax::ast::TypeExprKind::Name(class, _) = &param.ty.kind
        {
            return Some(class.name);
        }
        let def = scope::lookup(self.project.program(), file, object)?;
        match &self.project.program().decl(def)?.kind {
            DeclKind::Product { class, .. } => Some(class.name),
            _ => None,
        }
    }
}

/// Every statement of a block, at every depth.
fn statements<'b>(block: &'b Block, out: &mut Vec<&'b Statement>) {
    for item in &block.items {
        match item {
            Item::Property { .. } => {}
            Item::Section { block, .. } => statements(block, out),
            Item::Statement(statement) => {
                out.push(statement);
                statement.kind.block().into_iter().for_each(|block| statements(block, out));
            }
        }
    }
}

/// The name a layer goes by.
fn called(layer: &Layer) -> Ident {
    let alias = layer.clauses.iter().find_map(|clause| match clause.kind {
        ClauseKind::As(name) => Some(name),
        _ => None,
    });
    alias.unwrap_or(layer.object)
}

const fn with(clause: &Clause) -> Option<Ident> {
    match clause.kind {
        ClauseKind::With(name) => Some(name),
        _ => None,
    }
}

const fn over(clause: &Clause) -> Option<&Edge> {
    match &clause.kind {
        ClauseKind::Over(edge) => Some(edge),
        _ => None,
    }
}

/// The end of the line a byte stands on.
fn line_end(text: &str, at: u32) -> u32 {
    let rest = text.get(at as usize..).unwrap_or("");
    at + rest.find('\n').unwrap_or(rest.len()) as u32
}
