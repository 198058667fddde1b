//! The properties of a block, worked out, with defaults filled in from the record that describes the block.

use uom::si::f64::{Length, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::kelvin;
use wythe_findings::codes;
use wythe_model::{Elevation, Interval};
use wythe_sema::{DefId, Signature};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, ExprId, Item};
use wythe_units::{Quantity, QuantityError};

use crate::{Evaluator, Frame, Value};

/// The properties of a block.
pub(crate) struct Fields {
    values: Vec<(Symbol, Value, Option<Span>)>,
}

/// Works out the properties of a block described by a record of the prelude.
pub(crate) fn read<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: Option<&Block>, record: &str) -> Fields {
    let program = ev.program;
    let def = program.prelude.record(record);
    let mut values = Vec::new();
    for item in block.map_or(&[][..], |b| &b.items) {
        if let Item::Property { name, value } = item {
            let worked_out = ev.eval(frame, *value);
            values.push((name.name, worked_out, Some(frame.module[*value].span)));
        }
    }
    defaults(ev, def, &mut values);
    Fields { values }
}

fn defaults(ev: &mut Evaluator<'_>, def: DefId, values: &mut Vec<(Symbol, Value, Option<Span>)>) {
    let program = ev.program;
    let Some(Signature::Record(fields)) = program.checked(def.file).and_then(|c| c.signatures.get(def.index as usize))
    else {
        return;
    };
    let Some(mut frame) = Frame::new(program, def.file) else { return };
    for field in fields.iter() {
        if values.iter().any(|(n, ..)| *n == field.name) {
            continue;
        }
        let default: Option<ExprId> = field.default;
        let value = default.map_or(Value::None, |d| ev.eval(&mut frame, d));
        values.push((field.name, value, None));
    }
}

impl Fields {
    /// A property; `none` where it is not said and has no default.
    pub fn get(&self, name: &str) -> &Value {
        self.find(name).map_or(&Value::None, |(_, v, _)| v)
    }

    /// Where a property's value stands, if it is said.
    pub fn span(&self, name: &str) -> Option<Span> {
        self.find(name)?.2
    }

    fn find(&self, name: &str) -> Option<&(Symbol, Value, Option<Span>)> {
        self.values.iter().find(|(n, ..)| n.as_str() == name)
    }

    /// A truth; false where it is not said.
    pub fn truth(&self, name: &str) -> bool {
        *self.get(name) == Value::Bool(true)
    }

    /// A quantity typed by `uom`.
    pub fn typed<T: TryFrom<Quantity, Error = QuantityError>>(&self, name: &str) -> Option<T> {
        typed(self.get(name))
    }

    /// A quantity within bounds, typed by `uom`.
    pub fn interval<T: TryFrom<Quantity, Error = QuantityError>>(&self, name: &str) -> Option<Interval<T>> {
        let [low, mid, high] = self.get(name).bounds()?;
        Some(Interval { low: T::try_from(low).ok()?, mid: T::try_from(mid).ok()?, high: T::try_from(high).ok()? })
    }

    /// A length that must be more than nothing.
    pub fn positive_length(&self, ev: &mut Evaluator<'_>, name: &str) -> Option<Length> {
        let length: Length = self.typed(name)?;
        positive(ev, length, name, self.span(name))
    }

    /// Two lengths.
    pub fn size(&self, name: &str) -> Option<(Length, Length)> {
        let Value::Size(pair) = self.get(name) else { return None };
        Some((typed(&pair[0])?, typed(&pair[1])?))
    }

    /// Two lengths that must be more than nothing.
    pub fn positive_size(&self, ev: &mut Evaluator<'_>, name: &str) -> Option<(Length, Length)> {
        let (a, b) = self.size(name)?;
        let span = self.span(name);
        Some((positive(ev, a, name, span)?, positive(ev, b, name, span)?))
    }

    /// An elevation.
    pub fn elevation(&self, name: &str) -> Option<Elevation> {
        elevation(self.get(name))
    }

    /// The name of a member of an enumeration.
    pub fn member(&self, ev: &Evaluator<'_>, name: &str) -> Option<Symbol> {
        member(ev, self.get(name))
    }

    /// The names of the members in a list.
    pub fn members(&self, ev: &Evaluator<'_>, name: &str) -> Vec<Symbol> {
        match self.get(name) {
            Value::List(items) => items.iter().filter_map(|v| member(ev, v)).collect(),
            _ => Vec::new(),
        }
    }

    /// A temperature.
    pub fn temperature(&self, name: &str) -> Option<ThermodynamicTemperature> {
        let Value::Temperature(reading) = self.get(name) else { return None };
        Some(ThermodynamicTemperature::new::<kelvin>(reading.to_f64()))
    }

    /// A text.
    pub fn text(&self, name: &str) -> Option<std::sync::Arc<str>> {
        match self.get(name) {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        }
    }
}

/// A quantity typed by `uom`.
pub(crate) fn typed<T: TryFrom<Quantity, Error = QuantityError>>(value: &Value) -> Option<T> {
    T::try_from(value.quantity()?).ok()
}

/// An elevation of the model.
pub(crate) fn elevation(value: &Value) -> Option<Elevation> {
    let Value::Elevation(level, offset) = value else { return None };
    Some(Elevation { from: *level, offset: Length::new::<meter>(offset.to_f64()) })
}

/// The name of a member.
pub(crate) fn member(ev: &Evaluator<'_>, value: &Value) -> Option<Symbol> {
    let Value::Member(def, at) = value else { return None };
    let checked = ev.program.checked(def.file)?;
    match checked.signatures.get(def.index as usize)? {
        Signature::Enum { members, .. } => members.get(*at as usize).copied(),
        _ => None,
    }
}

/// The most a length may be, in meters: a mile. Nothing built on a site is that long; a figure beyond it is a slip of
/// the unit.
const MILE: f64 = 1609.344;

/// The length of a wall, which may be nothing or less until the walk is looked at; beyond a mile it is told and cut.
pub(crate) fn run_of_wall(ev: &mut Evaluator<'_>, length: Length, span: Span) -> Length {
    if length.get::<meter>() <= MILE {
        return length;
    }
    ev.report(codes::IMPOSSIBLE_VALUE, span, "a wall must be less than a mile long");
    Length::new::<meter>(MILE)
}

fn positive(ev: &mut Evaluator<'_>, length: Length, name: &str, span: Option<Span>) -> Option<Length> {
    let meters = length.get::<meter>();
    if meters > 0.0 && meters <= MILE {
        return Some(length);
    }
    if let Some(span) = span {
        ev.report(codes::IMPOSSIBLE_VALUE, span, format!("`{name}` must be more than nothing and less than a mile"));
    }
    None
}
