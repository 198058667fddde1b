//! Where a value comes from: the expressions, library lines and figures it was worked out of.

use std::sync::Arc;

use wythe_model::geometry::Basis;
use wythe_model::quantity::wall_bands;
use wythe_model::{Foundation, Product};
use wythe_sema::{Literal, Res};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{BinaryOp, DeclKind, ExprId, ExprKind};
use wythe_units::{DisplayOptions, Quantity};

use crate::{Element, Evaluator, Frame, Value, show};

/// How many steps down a derivation goes.
const DEEPEST: u32 = 8;

/// A value with what it was worked out of.
#[derive(Clone, Debug, PartialEq)]
pub struct Derivation {
    /// The expression, or what a figure is.
    pub text: String,
    /// Its value.
    pub value: String,
    /// Where it stands.
    pub place: Option<Span>,
    /// Where a figure comes from: a source, a default, a rule of measuring.
    pub note: Option<String>,
    /// What it was worked out of.
    pub parts: Vec<Derivation>,
}

impl<'p> Evaluator<'p> {
    /// Works out an expression and tells what its value comes from.
    pub fn why(&mut self, frame: &mut Frame<'p>, id: ExprId, options: &DisplayOptions) -> Derivation {
        self.derive(frame, id, options, 0)
    }

    fn derive(&mut self, frame: &mut Frame<'p>, id: ExprId, options: &DisplayOptions, depth: u32) -> Derivation {
        let module = frame.module;
        let expr = &module[id];
        let value = self.eval(frame, id);
        let mut out = Derivation {
            text: expr.span.text(frame.text).split_whitespace().collect::<Vec<_>>().join(" "),
            value: show(&value, self.program, options),
            place: Some(expr.span),
            note: None,
            parts: Vec::new(),
        };
        if depth >= DEEPEST {
            return out;
        }
        match &expr.kind {
            ExprKind::Name(_) => out.parts.extend(self.definition(frame, id, options, depth)),
            ExprKind::Negate(inner) | ExprKind::Not(inner) | ExprKind::Shown { value: inner, .. } => {
                return Derivation { parts: vec![self.derive(frame, *inner, options, depth + 1)], ..out };
            }
            ExprKind::Tuple(parts) if parts.len() == 1 => return self.derive(frame, parts[0], options, depth),
            ExprKind::Binary { op, left, right, .. } => {
                // Of `a ?? b` only the side that counts is told.
                let sides = match op {
                    BinaryOp::Default if self.eval(frame, *left) == Value::None => vec![*right],
                    BinaryOp::Default => vec![*left],
                    _ => vec![*left, *right],
                };
                out.parts.extend(self.told(frame, &sides, options, depth));
            }
            ExprKind::If { condition, then, otherwise } => {
                let taken = if self.eval(frame, *condition) == Value::Bool(true) { *then } else { *otherwise };
                out.parts.extend(self.told(frame, &[*condition, taken], options, depth));
            }
            ExprKind::Field { of, name } => {
                let whole = self.eval(frame, *of);
                self.tell_field(&mut out, &whole, name.name.as_str(), options);
                if !matches!(module[*of].kind, ExprKind::Name(_)) {
                    out.parts.extend(self.told(frame, &[*of], options, depth));
                }
            }
            ExprKind::Call { callee, args } => {
                let subject = match (frame.checked.res(id), &module[*callee].kind) {
                    (Res::Method(_), ExprKind::Field { of, .. }) => Some(self.eval(frame, *of)),
                    _ => args.first().map(|a| self.eval(frame, a.value)),
                };
                let name = match &module[*callee].kind {
                    ExprKind::Field { name, .. } => name.name,
                    ExprKind::Name(name) => *name,
                    _ => return out,
                };
                if let Some(Value::Element(Element::Wall(f, wall))) = &subject
                    && matches!(name.as_str(), "resistance" | "transmittance" | "insulation")
                {
                    out.parts.extend(self.layers_of(f, *wall, options));
                    return out;
                }
                let values: Vec<_> = args.iter().map(|a| a.value).collect();
                out.parts.extend(self.told(frame, &values, options, depth));
            }
            ExprKind::Comprehension { list, .. } => out.parts.extend(self.told(frame, &[*list], options, depth)),
            ExprKind::List(items) => out.parts.extend(self.told(frame, items, options, depth)),
            _ => {}
        }
        out
    }

    /// Parts, those left out that are figures and say all there is to say.
    fn told(&mut self, frame: &mut Frame<'p>, ids: &[ExprId], options: &DisplayOptions, depth: u32) -> Vec<Derivation> {
        let mut out = Vec::new();
        for id in ids {
            let plain = matches!(frame.checked.literals.get(id), Some(Literal::Quantity(..) | Literal::Temperature(_)));
            if !plain {
                out.push(self.derive(frame, *id, options, depth + 1));
            }
        }
        out
    }

    /// What a name stands for.
    fn definition(
        &mut self,
        frame: &mut Frame<'p>,
        id: ExprId,
        options: &DisplayOptions,
        depth: u32,
    ) -> Option<Derivation> {
        let Res::Def(def) = frame.checked.res(id) else { return None };
        let program = self.program;
        let decl = program.decl(def)?;
        match &decl.kind {
            DeclKind::Let(binding) => {
                let mut inner = Frame::new(program, def.file)?;
                Some(self.derive(&mut inner, binding.value, options, depth + 1))
            }
            DeclKind::Product { .. } => {
                let Value::Product(product) = self.value(def) else { return None };
                Some(of_product(&product))
            }
            _ => None,
        }
    }

    fn tell_field(&mut self, out: &mut Derivation, whole: &Value, name: &str, options: &DisplayOptions) {
        match whole {
            Value::Product(product) => out.parts.push(of_product(product)),
            Value::Element(Element::Foundation(f)) => {
                out.note = Some(match name {
                    "perimeter" | "floor_area" => {
                        format!("measured on the {} of the masonry, as drawn", f.measured.word())
                    }
                    "inside_area" => "inside the masonry, piers not deducted".into(),
                    _ => return,
                });
                if name == "perimeter" {
                    for wall in &f.walls {
                        out.parts.push(Derivation {
                            text: wall.name.to_string(),
                            value: Quantity::try_from(wall.length)
                                .map_or_else(|_| "?".into(), |q| wythe_units::format_quantity(q, options)),
                            place: Some(wall.length_origin),
                            note: None,
                            parts: Vec::new(),
                        });
                    }
                }
            }
            Value::Element(Element::Wall(..)) => {
                out.note = match name {
                    "area" => Some("length times footing to top, stretch by stretch; openings not deducted".into()),
                    "net_area" => Some("length times footing to top, stretch by stretch; openings deducted".into()),
                    "height" => Some("from footing to top, where it is highest".into()),
                    "bare_band" => Some("from the top of the masonry down to the highest insulation".into()),
                    _ => None,
                };
            }
            _ => {}
        }
    }

    /// The layers of a wall, band by band, with the source of each figure.
    fn layers_of(&mut self, f: &Arc<Foundation>, wall: usize, options: &DisplayOptions) -> Vec<Derivation> {
        let number = |q: Option<Quantity>| q.map_or_else(|| "?".into(), |q| wythe_units::format_quantity(q, options));
        let assembly = f.walls.get(wall).and_then(|w| f.assemblies.get(w.assembly?.0 as usize));
        // A layer goes by its own name, the structure by its product's.
        let products: Vec<(Symbol, &Arc<Product>)> = assembly
            .map(|a| {
                let works = a.faces.iter().flat_map(|face| &face.works).filter(|w| w.act.places());
                let placed = works.filter_map(|w| Some((w.layer, w.product.as_ref()?)));
                a.structure.iter().map(|p| (p.name, p)).chain(placed).collect()
            })
            .unwrap_or_default();
        wall_bands(f, wall, Basis::Design)
            .iter()
            .map(|band| Derivation {
                text: format!(
                    "{} band, {} high",
                    match (band.bare, band.above_grade) {
                        (true, true) => "bare, above grade",
                        (true, false) => "bare, below grade",
                        (false, true) => "insulated, above grade",
                        (false, false) => "insulated, below grade",
                    },
                    number(Quantity::try_from(band.height()).ok())
                ),
                value: number(Quantity::try_from(band.r_total).ok()),
                place: f.walls.get(wall).map(|w| w.origin),
                note: Some("layers in series, without films".into()),
                parts: band
                    .layers
                    .iter()
                    .map(|(name, r)| {
                        let product = products.iter().find(|(layer, _)| layer == name).map(|(_, product)| product);
                        Derivation {
                            text: name.to_string(),
                            value: number(Quantity::try_from(*r).ok()),
                            place: product.map(|p| p.origin),
                            note: product.and_then(|p| p.source.as_ref()).map(|s| s.to_string()),
                            parts: Vec::new(),
                        }
                    })
                    .collect(),
            })
            .collect()
    }
}

fn of_product(product: &Product) -> Derivation {
    Derivation {
        text: product.name.to_string(),
        value: product.class.name().into(),
        place: Some(product.origin),
        note: product.source.as_ref().map(|s| s.to_string()),
        parts: Vec::new(),
    }
}
