//! Price lists, and figures turned into exact decimals.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;
use wythe_model::ledger::PriceSheet;
use wythe_sema::DefId;
use wythe_source::Symbol;
use wythe_syntax::ast::DeclKind;
use wythe_units::Scalar;

use crate::lower::fields;
use crate::{Evaluator, Frame, Value};

/// A price list from its declaration; nothing where its file or its currency is not known, which has been reported.
pub fn price_sheet(ev: &mut Evaluator<'_>, def: DefId) -> Option<PriceSheet> {
    let program = ev.program;
    let (decl, mut frame) = (program.decl(def)?, Frame::new(program, def.file)?);
    let DeclKind::Prices(block) = &decl.kind else { return None };
    ev.begin();
    let f = fields::read(ev, &mut frame, Some(block), "PricesBlock");
    let Value::Table(file) = f.get("file").clone() else { return None };
    let currency = currency(f.get("currency"))?;
    let date = |name: &str| match f.get(name) {
        Value::Date(date) => Some(*date),
        _ => None,
    };
    Some(PriceSheet {
        name: decl.name.name,
        origin: decl.name.span,
        file,
        file_origin: f.span("file").unwrap_or(decl.name.span),
        currency,
        dated: date("dated"),
        until: date("until"),
        until_origin: f.span("until"),
        tax: f.get("tax").quantity().and_then(|q| exact(q.value)).unwrap_or_default(),
    })
}

fn currency(value: &Value) -> Option<Symbol> {
    match value {
        Value::Currency(name) => Some(*name),
        _ => None,
    }
}

/// A figure as an exact decimal, as far as decimals are exact.
pub(crate) fn exact(value: Scalar) -> Option<Decimal> {
    match value.as_ratio() {
        Some((over, under)) => Decimal::from(over).checked_div(Decimal::from(under)),
        None => Decimal::from_f64(value.to_f64()),
    }
}
