//! Layers: which verb takes which class of product and which clauses.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::Class;
use wythe_source::Span;
use wythe_syntax::ast::{Clause, ClauseKind, Edge, ExprId, Ident, Layer, Verb};
use wythe_units::Dim;

use crate::checked::{Res, Target};
use crate::checker::Checker;
use crate::signature::Signature;
use crate::suggest::closest;
use crate::types::Type;

/// The classes a verb takes; none where it acts on a layer already there.
pub const fn classes_for(verb: Verb) -> &'static [Class] {
    match verb {
        Verb::Coat => &[Class::Coating],
        Verb::Drain => &[Class::Drain],
        Verb::Fill => &[Class::Aggregate, Class::Concrete],
        Verb::Lay => &[Class::Membrane, Class::Board, Class::Drain],
        Verb::Hang => &[Class::Membrane],
        Verb::Set => &[Class::Board, Class::Equipment, Class::Lumber],
        Verb::Cap => &[Class::Tape, Class::Coating],
        Verb::Tape => &[Class::Tape],
        Verb::Seal => &[Class::Sealant],
        Verb::Fasten | Verb::Lap | Verb::Remove => &[],
    }
}

/// The clauses a verb takes, by the word that opens each.
pub const fn allowed_clauses(verb: Verb) -> &'static [&'static str] {
    match verb {
        Verb::Coat => &["as", "from", "along", "over"],
        Verb::Drain => &["as", "along"],
        Verb::Fill => &["as", "from", "along", "into"],
        Verb::Lay => &["as", "over", "under", "by"],
        Verb::Hang => &["as", "from", "over", "by"],
        Verb::Set => &["as", "from", "along", "into"],
        Verb::Fasten => &["into", "with", "every", "by"],
        Verb::Cap | Verb::Tape => &["along", "over"],
        Verb::Seal => &["along", "over", "into", "bead"],
        Verb::Lap => &["over", "under", "by"],
        Verb::Remove => &[],
    }
}

/// The clauses a verb cannot do without: one word of each group must be there.
const fn due_clauses(verb: Verb) -> &'static [(&'static [&'static str], &'static str)] {
    match verb {
        Verb::Coat => &[(&["from", "along", "over"], "say where: `from top to footing`, or `over head`")],
        Verb::Drain => &[(&["along"], "say where: `along footing`")],
        Verb::Fill => &[(&["from", "along", "into"], "say how far: `from footing to footing + 12\"`")],
        Verb::Hang => &[(&["from", "over"], "say how far: `from top - 4\" to ground`")],
        Verb::Fasten => &[
            (&["with"], "say with what: `with drive_pin`"),
            (&["every", "by"], "say how close: `every 24\"`, or `by 6 per sheet`"),
        ],
        Verb::Cap | Verb::Tape => &[(&["along", "over"], "say where: `over joints of board`")],
        Verb::Seal => &[(&["along", "over", "into"], "say where: `along top edge of board to structure`")],
        Verb::Lap => &[(&["over", "under"], "say which: `over wall_liner`"), (&["by"], "say how far: `by 12\"`")],
        Verb::Set | Verb::Lay | Verb::Remove => &[],
    }
}

/// The names an edge may have.
const EDGES: [&str; 10] =
    ["top edge", "bottom edge", "end edges", "joints", "heads", "laps", "cuts", "perimeter", "head", "footing"];

pub(crate) fn check(c: &mut Checker<'_>, layer: &Layer, span: Span) {
    object(c, layer);
    let allowed = allowed_clauses(layer.verb);
    let mut seen: Vec<(&'static str, Span)> = Vec::new();
    for clause in &layer.clauses {
        let word = clause.kind.word();
        if let Some((_, first)) = seen.iter().find(|(w, _)| *w == word) {
            c.report(
                Finding::new(codes::SAID_TWICE, clause.span, format!("`{word}` is said twice"))
                    .label("said again here")
                    .related(*first, "first said here"),
            );
        }
        seen.push((word, clause.span));
        if !allowed.contains(&word) {
            not_taken(c, layer, clause, allowed);
        }
        self::clause(c, layer.verb, clause);
    }
    for (words, hint) in due_clauses(layer.verb) {
        if !words.iter().any(|w| seen.iter().any(|(s, _)| s == w)) {
            let verb = layer.verb.word();
            c.report(
                Finding::new(codes::MISSING_CLAUSE, span, format!("`{verb}` needs {}", quoted(words)))
                    .label("not said here")
                    .mend(*hint),
            );
        }
    }
}

fn quoted(words: &[&str]) -> String {
    words.iter().map(|w| format!("`{w}`")).collect::<Vec<_>>().join(" or ")
}

fn object(c: &mut Checker<'_>, layer: &Layer) {
    let classes = classes_for(layer.verb);
    if classes.is_empty() {
        c.note_ident(layer.object, Res::Layer(layer.object.name));
        if let Some(def) = c.global(layer.object.name) {
            c.mention(layer.object.span, Target::Def(def));
        }
        return;
    }
    product(c, layer.object, classes, layer.verb.word());
}

/// A name that must be a product of one of some classes.
fn product(c: &mut Checker<'_>, ident: Ident, classes: &[Class], verb: &str) {
    let ty = match c.locals.iter().rev().find(|l| l.name == ident.name).cloned() {
        Some(local) => {
            c.note_ident(ident, local.res);
            c.mention(ident.span, Target::Local(local.span));
            local.ty
        }
        None => {
            let Some(def) = c.global_ident(ident) else { return };
            match c.signature_of(def) {
                Signature::Value(ty) => ty,
                Signature::Unknown => return,
                _ => Type::Nothing,
            }
        }
    };
    let names: Vec<_> = classes.iter().map(|k| k.name()).collect();
    match ty {
        Type::Unknown | Type::Product(None) => {}
        Type::Product(Some(class)) if classes.contains(&class) => {}
        Type::Product(Some(class)) => c.report(
            Finding::new(codes::WRONG_CLASS, ident.span, format!("`{verb}` does not take a {}", class.name()))
                .label(format!("`{}` is a {}", ident.name, class.name()))
                .mend(format!("it takes {}; another verb may be meant: {}", names.join(" or "), verbs_for(class))),
        ),
        other => c.report(
            Finding::new(codes::WRONG_CLASS, ident.span, format!("`{verb}` takes a product"))
                .label(format!("`{}` is {}", ident.name, c.describe(&other)))
                .mend(format!("name a product of class {}", names.join(" or "))),
        ),
    }
}

fn verbs_for(class: Class) -> String {
    let verbs: Vec<_> =
        Verb::ALL.iter().filter(|v| classes_for(**v).contains(&class)).map(|v| format!("`{}`", v.word())).collect();
    if verbs.is_empty() { "`fasten … with`".into() } else { verbs.join(" or ") }
}

fn not_taken(c: &mut Checker<'_>, layer: &Layer, clause: &Clause, allowed: &[&str]) {
    let verb = layer.verb.word();
    let word = clause.kind.word();
    let takes =
        if allowed.is_empty() { "it takes no clause".to_owned() } else { format!("it takes {}", quoted(allowed)) };
    let mend = match (layer.verb, word) {
        (Verb::Hang | Verb::Set, "every" | "with") => {
            format!(
                "spacing and pins belong to the fixing: add a `fasten {} with … every …` line after it; {takes}",
                layer.object.name
            )
        }
        _ => takes,
    };
    c.report(
        Finding::new(codes::CLAUSE_NOT_TAKEN, clause.span, format!("`{verb}` does not take `{word}`"))
            .related(layer.verb_span, format!("`{verb}` stands here"))
            .mend(mend)
            .fix(Fix::needs_consent(format!("take `{word}` out"), clause.span, "")),
    );
}

fn clause(c: &mut Checker<'_>, verb: Verb, clause: &Clause) {
    let length = Type::quantity(Dim::LENGTH);
    match &clause.kind {
        ClauseKind::As(name) => c.note_ident(*name, Res::Layer(name.name)),
        ClauseKind::Extent { from, to } => {
            c.expect(*from, &Type::Elevation);
            c.expect(*to, &Type::Elevation);
        }
        ClauseKind::Along(edge) | ClauseKind::Over(edge) | ClauseKind::Under(edge) | ClauseKind::Into(edge) => {
            self::edge(c, verb, edge);
        }
        ClauseKind::With(name) => product(c, *name, &[Class::Fastener], "with"),
        ClauseKind::Every(value) | ClauseKind::Bead(value) => {
            c.expect(*value, &length);
        }
        ClauseKind::By(value) if verb == Verb::Fasten => per_piece(c, *value),
        ClauseKind::By(value) => {
            c.expect(*value, &length);
        }
    }
}

/// `by 6 per sheet`: a number for each counting unit.
fn per_piece(c: &mut Checker<'_>, value: ExprId) {
    let ty = c.infer(value);
    let fits = match &ty {
        Type::Quantity(dim, _) => dim.recip().is_ok_and(|d| d.as_nominal().is_some()),
        Type::Unknown => true,
        _ => false,
    };
    if !fits {
        c.report(
            Finding::new(codes::UNLIKE_DIMENSIONS, c.module[value].span, "a number for each piece is due here")
                .label(format!("this is {}", c.describe(&ty)))
                .mend("write `by 6 per sheet`"),
        );
    }
}

fn edge(c: &mut Checker<'_>, verb: Verb, edge: &Edge) {
    let words: Vec<_> = edge.what.iter().map(|w| w.name.as_str()).collect();
    let phrase = words.join(" ");
    let known = EDGES.contains(&phrase.as_str());
    let layer = edge.what.len() == 1 && edge.of.is_none();
    let over_a_layer =
        layer && matches!(verb, Verb::Lap | Verb::Hang | Verb::Lay | Verb::Coat | Verb::Tape | Verb::Cap | Verb::Seal);
    if !known && !over_a_layer {
        let mut finding = Finding::new(codes::UNKNOWN_EDGE, edge.span, format!("there is no edge called `{phrase}`"));
        finding = match closest(&phrase, EDGES) {
            Some(near) => {
                let span = edge.what[0].span.to(edge.what[edge.what.len() - 1].span);
                finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
                    format!("write `{near}`"),
                    span,
                    near,
                ))
            }
            None => finding.mend(format!("the edges are {}", EDGES.join(", "))),
        };
        c.report(finding);
    }
    for name in [edge.of, edge.to].into_iter().flatten() {
        c.note_ident(name, Res::Layer(name.name));
        if let Some(local) = c.locals.iter().rev().find(|l| l.name == name.name) {
            let span = local.span;
            c.mention(name.span, Target::Local(span));
        } else if let Some(def) = c.global(name.name) {
            c.mention(name.span, Target::Def(def));
        }
    }
    if layer && !known {
        c.note_ident(edge.what[0], Res::Layer(edge.what[0].name));
    }
}
