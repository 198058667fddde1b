//! How damp a foundation gets in service, worked out once and only when something asks.

use std::sync::Arc;

use wythe_assess::moisture::{ServiceFigures, service_figures};
use wythe_assess::weather;
use wythe_model::Foundation;
use wythe_units::{Quantity, Scalar};

use super::quantity;
use crate::{Evaluator, RecordValue, Value};

/// The record `Moisture` of a foundation; broken where there is no weather, with the finding that says why.
pub(super) fn in_service(ev: &mut Evaluator<'_>, f: &Arc<Foundation>) -> Value {
    if let Some((_, known)) = ev.damp.iter().find(|(of, _)| Arc::ptr_eq(of, f)) {
        return known.clone();
    }
    let value = work_out(ev, f);
    ev.damp.push((f.clone(), value.clone()));
    value
}

fn work_out(ev: &mut Evaluator<'_>, f: &Foundation) -> Value {
    let Some(source) = ev.weather else { return Value::Broken };
    let site = match f.site.climate.as_ref().map(source) {
        Some(Ok(site)) => site,
        Some(Err(finding)) => {
            ev.findings.push(*finding);
            return Value::Broken;
        }
        None => {
            ev.findings.push(weather::missing(&f.site));
            return Value::Broken;
        }
    };
    let got = service_figures(f, &site);
    ev.findings.extend(got.findings);
    got.report.map_or(Value::Broken, |figures| record(ev, &figures))
}

fn record(ev: &Evaluator<'_>, figures: &ServiceFigures) -> Value {
    let number = |value: f64| match Scalar::approx(value) {
        Ok(scalar) => Value::Quantity(Quantity::number(scalar)),
        Err(_) => Value::Broken,
    };
    let fields = vec![
        number(figures.mold.value()),
        number(figures.peak_humidity.ratio().value),
        quantity(figures.condensation),
        number(figures.wood_moisture.value),
    ];
    Value::Record(Arc::new(RecordValue { def: ev.program.prelude.record("Moisture"), fields }))
}
