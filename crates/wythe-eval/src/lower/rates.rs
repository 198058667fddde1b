//! What a crew gets done: rates, allowances for waste, and how its time counts.

use uom::si::f64::{Area, Length, Ratio, Time, Volume};
use wythe_model::Class;
use wythe_model::ledger::{CrewRates, ProductionRate, WasteShare};
use wythe_model::quantity::Measure;
use wythe_sema::DefId;
use wythe_syntax::ast::{DeclKind, Item, StatementKind};
use wythe_units::{Dim, Quantity, Scalar};

use crate::lower::{fields, prices};
use crate::{Evaluator, Frame, Value};

/// The rates of a crew from their declaration; nothing where the number of people or the day is not known.
pub fn crew_rates(ev: &mut Evaluator<'_>, def: DefId) -> Option<CrewRates> {
    let program = ev.program;
    let (decl, mut frame) = (program.decl(def)?, Frame::new(program, def.file)?);
    let DeclKind::Rates(block) = &decl.kind else { return None };
    ev.begin();
    let f = fields::read(ev, &mut frame, Some(block), "RatesBlock");
    let time = |name: &str| f.typed::<Time>(name).unwrap_or_default();
    let mut crew = CrewRates {
        name: decl.name.name,
        origin: decl.name.span,
        people: count(f.get("people"))?,
        day: f.typed::<Time>("day")?,
        set_up: time("set_up"),
        tear_down: time("tear_down"),
        travel: time("travel"),
        minimum: time("minimum"),
        drying: time("drying"),
        hourly: f.get("hourly").quantity().and_then(hourly),
        low_headroom: None,
        inspection_days: count(f.get("inspection_days")).unwrap_or(1),
        rates: Vec::new(),
        waste: Vec::new(),
        offcut_least: f.positive_size(ev, "offcut_least"),
    };
    let (below, factor) = (f.positive_length(ev, "headroom_below"), f.typed::<Ratio>("headroom_factor"));
    crew.low_headroom = below.zip(factor);
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        match &statement.kind {
            StatementKind::Rate { verb, value, class } => {
                let per_hour = ev.eval(&mut frame, *value).quantity().and_then(amount_in_an_hour);
                if let Some(per_hour) = per_hour {
                    let class = class.and_then(|c| Class::of_name(c.name.as_str()));
                    crew.rates.push(ProductionRate { verb: verb.name, class, per_hour, origin: statement.span });
                }
            }
            StatementKind::Waste { class, value } => {
                let share = fields::typed::<Ratio>(&ev.eval(&mut frame, *value));
                if let (Some(class), Some(share)) = (Class::of_name(class.name.as_str()), share) {
                    crew.waste.push(WasteShare { class, share, origin: statement.span });
                }
            }
            _ => {}
        }
    }
    Some(crew)
}

/// A whole number.
pub(crate) fn count(value: &Value) -> Option<u32> {
    u32::try_from(value.quantity()?.value.round().as_whole()?).ok()
}

/// `120 ft2 per h`, `110 pc per h`: what is done in one hour.
fn amount_in_an_hour(rate: Quantity) -> Option<Measure> {
    let hour = Quantity::new(Scalar::ratio(3600, 1).ok()?, Dim::TIME);
    let amount = rate.checked_mul(hour).ok()?;
    if amount.dim.is_none() || amount.dim.as_nominal().is_some() {
        let pieces = amount.value.round().as_whole()?;
        return u64::try_from(pieces).ok().map(Measure::Count);
    }
    let area = Area::try_from(amount).map(Measure::Area);
    let length = || Length::try_from(amount).map(Measure::Length);
    let volume = || Volume::try_from(amount).map(Measure::Volume);
    area.or_else(|_| length()).or_else(|_| volume()).ok()
}

/// `34 USD per h`: the amount in an hour and its currency.
fn hourly(rate: Quantity) -> Option<(rust_decimal::Decimal, wythe_source::Symbol)> {
    let hour = Quantity::new(Scalar::ratio(3600, 1).ok()?, Dim::TIME);
    let amount = rate.checked_mul(hour).ok()?;
    Some((prices::exact(amount.value)?, amount.dim.as_money()?.name()))
}
