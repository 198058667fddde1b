//! Bids: a name given to a `Bid(…)` of the prelude.

use std::sync::Arc;

use uom::si::f64::{Area, Length};
use wythe_model::bid::{BidAllowance, BidNumbers};
use wythe_model::{Foundation, Interval};
use wythe_sema::{DefId, Signature};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{DeclKind, ExprKind};
use wythe_units::{Quantity, QuantityError};

use crate::lower::prices::exact;
use crate::{Element, Evaluator, RecordValue, Value};

/// A bid from its declaration; nothing where the name stands for something else, or the bid could not be worked out,
/// which has been reported.
pub fn bid(ev: &mut Evaluator<'_>, def: DefId) -> Option<BidNumbers> {
    let program = ev.program;
    let decl = program.decl(def)?;
    let DeclKind::Let(binding) = &decl.kind else { return None };
    let module = &program.module(def.file)?.module;
    let ExprKind::Call { args, .. } = &module[binding.value].kind else { return None };
    let origins: Vec<(Symbol, Span)> = args.iter().filter_map(|a| Some((a.name?.name, module[a.value].span))).collect();
    ev.begin();
    let Value::Record(record) = ev.value(def) else { return None };
    if record.def != program.prelude.record("Bid") {
        return None;
    }
    let f = Named::of(ev, &record)?;
    let house = |name: &str| match f.get(name) {
        Value::Element(Element::Foundation(house)) => Some(house.clone()),
        _ => None,
    };
    let like: Arc<Foundation> = house("like")?;
    Some(BidNumbers {
        name: decl.name.name,
        origin: decl.name.span,
        origins,
        perimeter: f.interval::<Length>("perimeter")?,
        floor: f.interval::<Area>("floor"),
        height: f.interval::<Length>("height"),
        piers: f.count("pier_count")?,
        hatches: f.count("hatch_count")?,
        vents: f.count("vent_count")?,
        rains: f.count("rains")?,
        markup: f.get("markup").quantity().and_then(|q| exact(q.value)).unwrap_or_default(),
        allowances: f.list("allowances").iter().filter_map(|v| allowance(ev, v)).collect(),
        excluded: f.texts("excluded"),
        assumed: f.texts("assumed"),
        until: match f.get("until") {
            Value::Date(date) => Some(*date),
            _ => None,
        },
        drawn: house("drawn"),
        like,
    })
}

fn allowance(ev: &Evaluator<'_>, value: &Value) -> Option<BidAllowance> {
    let Value::Record(record) = value else { return None };
    let f = Named::of(ev, record)?;
    let Value::Text(what) = f.get("what") else { return None };
    let amount = f.get("amount").quantity()?;
    Some(BidAllowance { what: what.clone(), amount: exact(amount.value)?, currency: amount.dim.as_money()?.name() })
}

/// The fields of a record by their names.
struct Named<'r> {
    names: Vec<Symbol>,
    record: &'r RecordValue,
}

impl<'r> Named<'r> {
    fn of(ev: &Evaluator<'_>, record: &'r RecordValue) -> Option<Self> {
        let checked = ev.program.checked(record.def.file)?;
        match checked.signatures.get(record.def.index as usize)? {
            Signature::Record(fields) => Some(Named { names: fields.iter().map(|f| f.name).collect(), record }),
            _ => None,
        }
    }

    fn get(&self, name: &str) -> &'r Value {
        let at = self.names.iter().position(|n| n.as_str() == name);
        at.and_then(|at| self.record.fields.get(at)).unwrap_or(&Value::None)
    }

    fn interval<T: TryFrom<Quantity, Error = QuantityError>>(&self, name: &str) -> Option<Interval<T>> {
        let [low, mid, high] = self.get(name).bounds()?;
        Some(Interval { low: T::try_from(low).ok()?, mid: T::try_from(mid).ok()?, high: T::try_from(high).ok()? })
    }

    /// Whole numbers; the middle is rounded. Nothing where one is negative.
    fn count(&self, name: &str) -> Option<Interval<u32>> {
        let [low, mid, high] = self.get(name).bounds()?;
        let whole = |q: Quantity| u32::try_from(q.value.round().as_whole()?).ok();
        Some(Interval { low: whole(low)?, mid: whole(mid)?, high: whole(high)? })
    }

    fn list(&self, name: &str) -> &'r [Value] {
        match self.get(name) {
            Value::List(items) => items,
            _ => &[],
        }
    }

    fn texts(&self, name: &str) -> Vec<Arc<str>> {
        let text = |v: &Value| match v {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        };
        self.list(name).iter().filter_map(text).collect()
    }
}
