//! What stands in braces: which properties, sections and statements a block takes, and of which type.
//!
//! The properties come from records of the prelude, so that the language describes its own blocks.

mod foundation;
mod rule;

use wythe_findings::{Finding, Fix, codes};
use wythe_model::SurfaceKind;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, Decl, DeclKind, Ident, Item, Statement, StatementKind};

use crate::checked::{Res, Target};
use crate::checker::Checker;
use crate::layers;
use crate::program::DefId;
use crate::signature::Signature;
use crate::suggest::closest;
use crate::types::Type;

/// Where a statement stands, which decides whether it may.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Context {
    /// A block of properties alone.
    Plain,
    /// A face of a build-up, or a joint.
    Face,
    /// Under `during`.
    During,
    /// A foundation.
    Foundation,
    /// The walls of a foundation.
    Walls,
    /// One wall.
    Wall,
    /// A rule or an amendment.
    Rule,
    /// Rates of a crew.
    Rates,
    /// A log.
    Log,
    /// A test.
    Test,
}

impl Context {
    const fn words(self) -> &'static str {
        match self {
            Context::Plain => "this block takes properties only",
            Context::Face => "a face takes layers and `during`",
            Context::During => "`during` takes layers",
            Context::Foundation => "a foundation takes `opening`, `piers`, `pier`, `pad` and `beam`",
            Context::Walls => "the walls take `wall`",
            Context::Wall => "a wall takes `step`",
            Context::Rule => "a rule takes `let`, `for each`, `require` and `otherwise`",
            Context::Rates => "rates take `rate` and `waste`",
            Context::Log => "a log takes `entry`",
            Context::Test => "a test takes `let` and `expect`",
        }
    }

    const fn takes(self, kind: &StatementKind) -> bool {
        use StatementKind as S;
        match self {
            Context::Plain => false,
            Context::Face => matches!(kind, S::Layer(_) | S::During { .. }),
            Context::During => matches!(kind, S::Layer(_)),
            Context::Foundation => {
                matches!(kind, S::Opening { .. } | S::Piers { .. } | S::Pier { .. } | S::Pad { .. } | S::Beam { .. })
            }
            Context::Walls => matches!(kind, S::Wall { .. }),
            Context::Wall => matches!(kind, S::Step { .. }),
            Context::Rule => matches!(kind, S::Let(_) | S::ForEach { .. } | S::Require(_) | S::Otherwise(_)),
            Context::Rates => matches!(kind, S::Rate { .. } | S::Waste { .. }),
            Context::Log => matches!(kind, S::Entry { .. }),
            Context::Test => matches!(kind, S::Let(_) | S::Expect(_)),
        }
    }
}

/// Checks the block of a declaration, the one of this number in its module.
pub(crate) fn check_decl(c: &mut Checker<'_>, decl: &Decl, index: u32) {
    match &decl.kind {
        DeclKind::Product { class, block } => {
            let record = c.program.prelude.record(class.name.as_str());
            if matches!(c.signature_of(record), Signature::Record(_)) {
                c.record_block(block, record, Context::Plain, decl.name.span);
            }
        }
        DeclKind::Buildup { params, block, .. } => {
            if let Signature::Buildup { params: known, kind } = c.signature_of(DefId { file: c.file, index }) {
                c.bind_params(params, &known);
                buildup(c, block, kind.faces());
            }
        }
        DeclKind::Joint { first, second, block } => {
            for face in [first, second] {
                match SurfaceKind::of_word(face.kind.name.as_str()) {
                    None => c.report(
                        Finding::new(
                            codes::UNKNOWN_SURFACE,
                            face.kind.span,
                            format!("nothing is built on `{}`", face.kind.name),
                        )
                        .mend("a joint is between faces of `wall`, `pier`, `opening` or `ground`"),
                    ),
                    Some(kind) if !kind.faces().contains(&face.surface.name.as_str()) => {
                        unknown_face(c, face.surface, kind.faces());
                    }
                    Some(_) => {}
                }
            }
            c.statements_only(block, Context::Face);
        }
        DeclKind::Phase(block) => c.record_block_named(block, "PhaseBlock", Context::Plain, decl.name.span),
        DeclKind::Site(block) => c.record_block_named(block, "Site", Context::Plain, decl.name.span),
        DeclKind::Foundation { site, block } => foundation::check(c, decl, *site, block),
        DeclKind::Rule(block) => rule::check_rule(c, decl, block),
        DeclKind::Amend { rule, block } => rule::check_amendment(c, rule, block),
        DeclKind::Waiver { rule, within, block, .. } => {
            rule::check_waiver(c, rule, *within, block, decl.name.span);
        }
        DeclKind::Prices(block) => c.record_block_named(block, "PricesBlock", Context::Plain, decl.name.span),
        DeclKind::Rates(block) => c.record_block_named(block, "RatesBlock", Context::Rates, decl.name.span),
        DeclKind::Log(block) => c.record_block_named(block, "LogBlock", Context::Log, decl.name.span),
        DeclKind::Test { block, .. } => c.statements_only(block, Context::Test),
        DeclKind::Let(_) | DeclKind::Fn(_) | DeclKind::Unit(_) | DeclKind::Record(_) | DeclKind::Enum { .. } => {}
    }
}

fn buildup(c: &mut Checker<'_>, block: &Block, faces: &'static [&'static str]) {
    let record = c.program.prelude.record("BuildupBlock");
    for item in &block.items {
        match item {
            Item::Section { name, block } if faces.contains(&name.name.as_str()) => {
                c.statements_only(block, Context::Face)
            }
            Item::Section { name, .. } => unknown_face(c, *name, faces),
            Item::Property { name, value } => c.property(*name, *value, record),
            Item::Statement(statement) => {
                misplaced(c, statement, &format!("layers stand in a face: {}", faces.join(", ")));
            }
        }
    }
}

fn unknown_face(c: &mut Checker<'_>, name: Ident, faces: &[&'static str]) {
    let near = closest(name.name.as_str(), faces.iter().copied());
    let mut finding = Finding::new(codes::UNKNOWN_SURFACE, name.span, format!("there is no face `{}` here", name.name));
    finding = match near {
        Some(near) => finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
            format!("write `{near}`"),
            name.span,
            near,
        )),
        None => finding.mend(format!("the faces are {}", faces.join(", "))),
    };
    c.report(finding);
}

fn misplaced(c: &mut Checker<'_>, statement: &Statement, why: &str) {
    c.report(Finding::new(codes::MISPLACED_STATEMENT, statement.span, "this statement does not belong here").mend(why));
}

impl Checker<'_> {
    pub(crate) fn record_block_named(&mut self, block: &Block, record: &str, context: Context, owner: Span) {
        let record = self.program.prelude.record(record);
        self.record_block(block, record, context, owner);
    }

    /// Checks a block whose properties are the fields of a record.
    pub(crate) fn record_block(&mut self, block: &Block, record: DefId, context: Context, owner: Span) {
        let Signature::Record(fields) = self.signature_of(record) else { return };
        let mut given: Vec<(Symbol, Span)> = Vec::new();
        for item in &block.items {
            match item {
                Item::Property { name, value } => {
                    self.once(&mut given, *name);
                    self.property(*name, *value, record);
                }
                Item::Section { name, block } => {
                    self.once(&mut given, *name);
                    self.section(*name, block, record);
                }
                Item::Statement(statement) => self.statement(statement, context),
            }
        }
        let missing: Vec<_> = fields
            .iter()
            .filter(|f| !f.may_be_left_out() && !given.iter().any(|(n, _)| *n == f.name))
            .map(|f| format!("`{}` ({})", f.name, self.describe(&f.ty)))
            .collect();
        if !missing.is_empty() {
            let first = fields.iter().find(|f| !f.may_be_left_out() && !given.iter().any(|(n, _)| *n == f.name));
            let mut finding =
                Finding::new(codes::MISSING_PROPERTY, owner, format!("{} must be said here", missing.join(" and ")))
                    .label("not said in its block");
            if let Some(first) = first {
                let at = Span::new(block.span.file, block.span.start + 1, block.span.start + 1);
                finding = finding.fix(Fix::needs_consent(
                    format!("add `{}`", first.name),
                    at,
                    format!("\n    {}: none // say it here\n", first.name),
                ));
            }
            self.report(finding);
        }
    }

    fn once(&mut self, given: &mut Vec<(Symbol, Span)>, name: Ident) {
        if let Some((_, first)) = given.iter().find(|(n, _)| *n == name.name) {
            self.report(
                Finding::new(codes::SAID_TWICE, name.span, format!("`{}` is said twice", name.name))
                    .label("said again here")
                    .related(*first, "first said here")
                    .mend("keep one of the two"),
            );
        }
        given.push((name.name, name.span));
    }

    /// Checks a property against the field of its name.
    pub(crate) fn property(&mut self, name: Ident, value: wythe_syntax::ast::ExprId, record: DefId) {
        let signature = self.signature_of(record);
        match signature.field(name.name) {
            Some((field, found)) => {
                let ty = found.ty.clone();
                self.note_ident(name, Res::Field(record, field));
                self.mention(name.span, Target::Part(record, field));
                self.expect(value, &ty);
            }
            None => {
                self.infer(value);
                self.unknown_property(name, &signature);
            }
        }
    }

    fn section(&mut self, name: Ident, block: &Block, record: DefId) {
        let signature = self.signature_of(record);
        match signature.field(name.name) {
            Some((field, found)) => {
                let inner = found.ty.required().clone();
                self.note_ident(name, Res::Field(record, field));
                self.mention(name.span, Target::Part(record, field));
                match inner {
                    Type::Record(inner) => {
                        let context = if self.program.name_of(inner).as_str() == "WallsBlock" {
                            Context::Walls
                        } else {
                            Context::Plain
                        };
                        self.record_block(block, inner, context, name.span);
                    }
                    other => self.report(
                        Finding::new(codes::UNKNOWN_PROPERTY, name.span, format!("`{}` is not a section", name.name))
                            .mend(format!("write `{}: …`, {}", name.name, self.describe(&other))),
                    ),
                }
            }
            None => self.unknown_property(name, &signature),
        }
    }

    fn unknown_property(&mut self, name: Ident, signature: &Signature) {
        let Signature::Record(fields) = signature else { return };
        let mut finding =
            Finding::new(codes::UNKNOWN_PROPERTY, name.span, format!("there is no property `{}` here", name.name));
        let all: Vec<_> = fields.iter().map(|f| f.name.as_str()).collect();
        finding = if name.name.as_str().starts_with("heig") && all.contains(&"footing") {
            finding.mend("height is worked out: say `top` and `footing`")
        } else if let Some(near) = closest(name.name.as_str(), all.iter().copied()) {
            finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
                format!("write `{near}`"),
                name.span,
                near,
            ))
        } else {
            finding.mend(format!("it takes {}", all.join(", ")))
        };
        self.report(finding);
    }

    /// Checks a block that takes statements and no properties.
    pub(crate) fn statements_only(&mut self, block: &Block, context: Context) {
        for item in &block.items {
            match item {
                Item::Statement(statement) => self.statement(statement, context),
                Item::Property { name, value } => {
                    self.infer(*value);
                    self.report(
                        Finding::new(
                            codes::UNKNOWN_PROPERTY,
                            name.span,
                            format!("there is no property `{}` here", name.name),
                        )
                        .mend(context.words()),
                    );
                }
                Item::Section { name, .. } => self.report(
                    Finding::new(
                        codes::UNKNOWN_PROPERTY,
                        name.span,
                        format!("there is no section `{}` here", name.name),
                    )
                    .mend(context.words()),
                ),
            }
        }
    }

    pub(crate) fn statement(&mut self, statement: &Statement, context: Context) {
        if !context.takes(&statement.kind) {
            return misplaced(self, statement, context.words());
        }
        match &statement.kind {
            StatementKind::Layer(layer) => layers::check(self, layer, statement.span),
            StatementKind::During { phase, block } => {
                self.phase_name(*phase);
                self.statements_only(block, Context::During);
            }
            StatementKind::Let(binding) => {
                let ty = self.let_type(binding);
                self.bind(binding.name, ty);
            }
            StatementKind::ForEach { .. }
            | StatementKind::Require(_)
            | StatementKind::Otherwise(_)
            | StatementKind::Expect(_) => rule::statement(self, &statement.kind),
            other => foundation::statement(self, other),
        }
    }

    /// A phase, which must be declared.
    pub(crate) fn phase_name(&mut self, ident: Ident) {
        let Some(def) = self.global_ident(ident) else { return };
        if !matches!(self.signature_of(def), Signature::Value(Type::Phase) | Signature::Unknown) {
            self.report(
                Finding::new(codes::TYPE_MISMATCH, ident.span, format!("`{}` is not a phase", ident.name))
                    .related(self.program.span_of(def), "declared here"),
            );
        }
    }
}
