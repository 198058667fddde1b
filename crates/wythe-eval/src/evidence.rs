//! Evidence: what a rule was decided by, part by part, whether it holds or not.

use std::sync::Arc;

use wythe_model::Class;
use wythe_sema::{Builtin, Res};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{BinaryOp, ExprId, ExprKind};
use wythe_units::DisplayOptions;

use crate::parts::{face_of, staying};
use crate::{Element, Evaluator, Frame, Value, lower, show};

/// How far names that stand for values are followed.
const DEEPEST: u32 = 6;
/// How many layers and parts one piece of evidence names.
const MOST_SEEN: usize = 24;

/// One thing a rule was decided by.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// As the rule says it: `clear_above(w.inside, Board) >= 3 in`.
    pub asked: String,
    /// The same with the values in it: `4" >= 3"`; `yes` or `no` where it is a plain question.
    pub found: String,
    /// Whether it holds; nothing for a value that is neither true nor false.
    pub holds: Option<bool>,
    /// The layers and parts that were looked at for it.
    pub seen: Vec<Seen>,
}

/// A layer or part that was looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    /// What it is: `wall_liner`, `vent v1`.
    pub what: String,
    /// Where it is written.
    pub place: Span,
    /// Where the figures of its product come from.
    pub source: Option<Arc<str>>,
}

/// A name a rule gives to a value on its way.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Named {
    pub name: Symbol,
    pub file: FileId,
    pub value: ExprId,
}

/// What is known while evidence is gathered.
pub(crate) struct Gathering<'a> {
    /// The names the rule gives on its way.
    pub named: &'a [Named],
    /// How values are shown.
    pub display: &'a DisplayOptions,
}

impl<'p> Evaluator<'p> {
    /// Everything a condition is decided by, in the order it is written; of sides of which one is enough, those that hold.
    pub(crate) fn evidence(&mut self, frame: &mut Frame<'p>, id: ExprId, known: &Gathering<'_>) -> Vec<Evidence> {
        let mut out = Vec::new();
        self.weigh(frame, id, known, 0, &mut out);
        out
    }

    fn weigh(&mut self, frame: &mut Frame<'p>, id: ExprId, known: &Gathering<'_>, depth: u32, out: &mut Vec<Evidence>) {
        let module = frame.module;
        if depth > DEEPEST {
            return self.state(frame, id, known, out);
        }
        match &module[id].kind {
            ExprKind::Binary { op: BinaryOp::And, left, right, .. } => {
                self.weigh(frame, *left, known, depth, out);
                self.weigh(frame, *right, known, depth, out);
            }
            ExprKind::Binary { op: BinaryOp::Or, left, right, .. } => {
                let holds = [*left, *right].map(|side| self.eval(frame, side) == Value::Bool(true));
                for (side, holds_here) in [*left, *right].into_iter().zip(holds) {
                    if holds_here || !(holds[0] || holds[1]) {
                        self.weigh(frame, side, known, depth, out);
                    }
                }
            }
            ExprKind::Tuple(parts) if parts.len() == 1 => self.weigh(frame, parts[0], known, depth, out),
            ExprKind::If { condition, then, otherwise } => {
                let taken = if self.eval(frame, *condition) == Value::Bool(true) { *then } else { *otherwise };
                self.weigh(frame, *condition, known, depth + 1, out);
                self.weigh(frame, taken, known, depth + 1, out);
            }
            ExprKind::Name(name) => match (self.eval(frame, id), definition(known, *name)) {
                (Value::Bool(_) | Value::Unsure, Some(named)) => {
                    let Some(mut inner) = self.beside(frame, named.file) else { return };
                    self.weigh(&mut inner, named.value, known, depth + 1, out);
                }
                _ => self.state(frame, id, known, out),
            },
            ExprKind::Call { args, .. } => {
                let any = match frame.checked.res(id) {
                    Res::Builtin(Builtin::Any) => true,
                    Res::Builtin(Builtin::All) => false,
                    _ => return self.state(frame, id, known, out),
                };
                let Some(ExprKind::Comprehension { value, name, list, condition }) =
                    args.first().map(|arg| &module[arg.value].kind)
                else {
                    return self.state(frame, id, known, out);
                };
                let holds = self.eval(frame, id) == Value::Bool(true);
                let before = out.len();
                self.each(frame, name.name, *list, *condition, |ev, frame| {
                    // Of several of which one is enough, those that are not enough do not matter.
                    if !(any && holds) || ev.eval(frame, *value) == Value::Bool(true) {
                        ev.weigh(frame, *value, known, depth + 1, out);
                    }
                });
                if out.len() == before {
                    self.state(frame, id, known, out);
                }
            }
            _ => self.state(frame, id, known, out),
        }
    }

    /// A single comparison, or a plain question.
    fn state(&mut self, frame: &mut Frame<'p>, id: ExprId, known: &Gathering<'_>, out: &mut Vec<Evidence>) {
        let module = frame.module;
        let text = |frame: &Frame<'p>, id: ExprId| {
            module[id].span.text(frame.text).split_whitespace().collect::<Vec<_>>().join(" ")
        };
        let value = self.eval(frame, id);
        let holds = match value {
            Value::Bool(b) => Some(b),
            _ => None,
        };
        let mut names = Vec::new();
        let found = match &module[id].kind {
            ExprKind::Binary { op, left, right, .. } if compares(*op) => {
                let sides = [*left, *right].map(|side| {
                    names_in(frame, side, known, &mut names);
                    let side = self.eval(frame, side);
                    show(&side, self.program, known.display)
                });
                format!("{} {} {}", sides[0], op.text(), sides[1])
            }
            _ => match value {
                Value::Bool(true) => "yes".into(),
                Value::Bool(false) => "no".into(),
                other => show(&other, self.program, known.display),
            },
        };
        let mut seen = Vec::new();
        self.look(frame, id, known, 0, &mut seen);
        push(out, Evidence { asked: text(frame, id), found, holds, seen });
        // What the names in it stand for, said once.
        for named in names {
            let Some(mut inner) = self.beside(frame, named.file) else { continue };
            let value = self.eval(&mut inner, named.value);
            if matches!(value, Value::List(_) | Value::Element(_)) {
                continue;
            }
            let asked = format!("{} = {}", named.name, {
                let span = inner.module[named.value].span;
                span.text(inner.text).split_whitespace().collect::<Vec<_>>().join(" ")
            });
            let found = show(&value, self.program, known.display);
            push(out, Evidence { asked, found, holds: None, seen: Vec::new() });
        }
    }

    /// The layers and parts an expression looks at.
    fn look(&mut self, frame: &mut Frame<'p>, id: ExprId, known: &Gathering<'_>, depth: u32, seen: &mut Vec<Seen>) {
        let module = frame.module;
        if depth > 4 * DEEPEST || seen.len() >= MOST_SEEN {
            return;
        }
        match &module[id].kind {
            ExprKind::Name(name) => {
                if matches!(frame.checked.res(id), Res::Member(..) | Res::Class(_) | Res::Level(_) | Res::Name(_)) {
                    return;
                }
                match self.eval(frame, id) {
                    Value::Element(element) => see(seen, &element),
                    Value::Product(product) => add(
                        seen,
                        Seen { what: product.name.to_string(), place: product.origin, source: product.source.clone() },
                    ),
                    _ => {
                        if let Some(named) = definition(known, *name)
                            && let Some(mut inner) = self.beside(frame, named.file)
                        {
                            self.look(&mut inner, named.value, known, depth + 4, seen);
                        }
                    }
                }
            }
            ExprKind::Site => {
                if let Some(whole) = &frame.whole {
                    let what = format!("site {}", whole.site.name);
                    add(seen, Seen { what, place: whole.site.origin, source: None });
                }
            }
            ExprKind::Comprehension { value, name, list, condition } => {
                let before = seen.len();
                let mut items = Vec::new();
                self.each(frame, name.name, *list, *condition, |_, frame| {
                    items.extend(frame.locals.last().map(|(_, value)| value.clone()));
                });
                for item in items {
                    match item {
                        Value::Element(element) => see_any(seen, &element),
                        other => {
                            frame.locals.push((name.name, other));
                            self.look(frame, *value, known, depth + 1, seen);
                            frame.locals.pop();
                        }
                    }
                }
                if seen.len() == before {
                    self.look(frame, *list, known, depth + 1, seen);
                }
            }
            ExprKind::Call { callee, args } => {
                let mut values = Vec::new();
                if let (Res::Method(_), ExprKind::Field { of, .. }) = (frame.checked.res(id), &module[*callee].kind) {
                    values.push(*of);
                }
                values.extend(args.iter().map(|arg| arg.value));
                let given: Vec<Value> = values.iter().map(|value| self.eval(frame, *value)).collect();
                match given.first() {
                    Some(Value::Element(Element::Surface(of, face))) => {
                        let class = given.iter().find_map(|v| if let Value::Class(c) = v { Some(*c) } else { None });
                        see_layers(seen, of, *face, class);
                    }
                    Some(Value::Element(wall @ Element::Wall(..))) => {
                        for face in ["outside", "inside"] {
                            see_layers(seen, wall, Symbol::new(face), Some(Class::Board));
                        }
                    }
                    _ => values.into_iter().for_each(|value| self.look(frame, value, known, depth + 1, seen)),
                }
            }
            kind => {
                let mut children = Vec::new();
                kind.each_child(|child| children.push(child));
                children.into_iter().for_each(|child| self.look(frame, child, known, depth + 1, seen));
            }
        }
    }

    /// Does something for each taken item of a list, its name bound.
    fn each(
        &mut self,
        frame: &mut Frame<'p>,
        name: Symbol,
        list: ExprId,
        condition: Option<ExprId>,
        mut what: impl FnMut(&mut Self, &mut Frame<'p>),
    ) {
        let Value::List(items) = self.eval(frame, list) else { return };
        for item in items.iter() {
            frame.locals.push((name, item.clone()));
            if condition.is_none_or(|c| self.eval(frame, c) == Value::Bool(true)) {
                what(self, frame);
            }
            frame.locals.pop();
        }
    }

    /// The same values bound, in another file.
    fn beside(&self, frame: &Frame<'p>, file: FileId) -> Option<Frame<'p>> {
        let mut inner = Frame::new(self.program, file)?;
        inner.locals.clone_from(&frame.locals);
        inner.whole.clone_from(&frame.whole);
        Some(inner)
    }
}

fn compares(op: BinaryOp) -> bool {
    use BinaryOp as Op;
    matches!(op, Op::Equal | Op::NotEqual | Op::Less | Op::LessEqual | Op::Greater | Op::GreaterEqual)
}

fn definition(known: &Gathering<'_>, name: Symbol) -> Option<Named> {
    known.named.iter().rev().find(|n| n.name == name).copied()
}

/// The names of the rule's own values in an expression.
fn names_in(frame: &Frame<'_>, id: ExprId, known: &Gathering<'_>, out: &mut Vec<Named>) {
    let kind = &frame.module[id].kind;
    if let ExprKind::Name(name) = kind
        && let Some(named) = definition(known, *name)
        && !out.iter().any(|n| n.name == named.name)
    {
        out.push(named);
    }
    kind.each_child(|child| names_in(frame, child, known, out));
}

/// Adds evidence; what has been said already is not said again, but what is seen for it is.
fn push(out: &mut Vec<Evidence>, new: Evidence) {
    match out.iter_mut().find(|e| e.asked == new.asked && e.found == new.found) {
        Some(same) => new.seen.into_iter().for_each(|one| add(&mut same.seen, one)),
        None => out.push(new),
    }
}

fn add(seen: &mut Vec<Seen>, new: Seen) {
    if seen.len() < MOST_SEEN && !seen.contains(&new) {
        seen.push(new);
    }
}

/// Adds a part that says something of its own: a layer, a lap, a tail, a joint, the sill. The wall, pier or opening a
/// rule asks about is the place of the case, and not told again.
fn see(seen: &mut Vec<Seen>, element: &Element) {
    match element {
        Element::Layer(..)
        | Element::Lap(..)
        | Element::Tail(..)
        | Element::Joint(..)
        | Element::Ground(_)
        | Element::Sill(_)
        | Element::Conditioning(_)
        | Element::Soil(_) => see_any(seen, element),
        _ => {}
    }
}

fn see_any(seen: &mut Vec<Seen>, element: &Element) {
    let Some(place) = lower::origin(element) else { return };
    let work = |of: &Element, face: &Symbol, at: &usize| face_of(of, *face).and_then(|f| f.works.get(*at)).cloned();
    let (what, source) = match element {
        Element::Layer(of, face, at) => {
            let Some(work) = work(of, face, at) else { return };
            let product = work.product.as_deref();
            let what = match product {
                Some(p) if p.name != work.layer => format!("{} ({})", work.layer, p.name),
                _ => work.layer.to_string(),
            };
            (what, product.and_then(|p| p.source.clone()))
        }
        Element::Lap(of, face, at) => {
            let Some(work) = work(of, face, at) else { return };
            (format!("lap of {}", work.layer), None)
        }
        Element::Tail(of, face, at) => {
            let Some(work) = work(of, face, at) else { return };
            (format!("tail of {}", work.layer), None)
        }
        Element::Joint(..) => (format!("joint {}", crate::show::element_name(element)), None),
        Element::Opening(f, at) => {
            let kind = f.openings.get(*at).map_or("opening", |o| o.kind.name());
            (format!("{} {}", kind.replace('_', " "), crate::show::element_name(element)), None)
        }
        other => (crate::show::element_name(other), None),
    };
    add(seen, Seen { what, place, source });
}

/// Adds the layers that stay on a face, of one class if one is meant.
fn see_layers(seen: &mut Vec<Seen>, of: &Element, face: Symbol, class: Option<Class>) {
    for at in staying(of, face, class) {
        see_any(seen, &Element::Layer(Box::new(of.clone()), face, at));
    }
}
