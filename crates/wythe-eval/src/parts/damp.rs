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
    figures(ev, f).map_or(Value::Broken, |figures| record(ev, &figures))
}

/// The mold index of the foundation's sill plate; broken as above.
pub(super) fn sill_mold(ev: &mut Evaluator<'_>, f: &Arc<Foundation>) -> Value {
    figures(ev, f).map_or(Value::Broken, |figures| number(figures.sill_mold.value()))
}

fn figures(ev: &mut Evaluator<'_>, f: &Arc<Foundation>) -> Option<ServiceFigures> {
    if let Some((_, known)) = ev.damp.iter().find(|(of, _)| Arc::ptr_eq(of, f)) {
        return *known;
    }
    let figures = work_out(ev, f);
    ev.damp.push((f.clone(), figures));
    figures
}

fn work_out(ev: &mut Evaluator<'_>, f: &Foundation) -> Option<ServiceFigures> {
    let source = ev.weather?;
    let site = match f.site.climate.as_ref().map(source.read) {
        Some(Ok(site)) => site,
        Some(Err(finding)) => {
            ev.findings.push(*finding);
            return None;
        }
        None if f.site.climate_unclear => return None,
        None => {
            ev.findings.push(weather::missing(&f.site));
            return None;
        }
    };
    let got = service_figures(f, &site, source.memo);
    ev.findings.extend(got.findings);
    got.report
}

fn number(value: f64) -> Value {
    Scalar::approx(value).map_or(Value::Broken, |scalar| Value::Quantity(Quantity::number(scalar)))
}

fn record(ev: &Evaluator<'_>, figures: &ServiceFigures) -> Value {
    let fields = vec![
        number(figures.mold.value()),
        number(figures.peak_humidity.ratio().value),
        quantity(figures.condensation),
        number(figures.wood_moisture.value),
    ];
    Value::Record(Arc::new(RecordValue { def: ev.program.prelude.record("Moisture"), fields }))
}
