//! Types of the language.

use std::sync::Arc;

use wythe_model::{Class, SurfaceKind};
use wythe_source::Symbol;
use wythe_units::{Dim, Kind};

use crate::{DefId, Program};

/// A type.
#[derive(Clone, PartialEq, Eq, Debug, Hash)]
pub enum Type {
    /// Not known after a fault that has been reported; agrees with everything.
    Unknown,
    /// A quantity; a plain number has no dimension.
    Quantity(Dim, Option<Kind>),
    /// A quantity of which only the sort is asked: money in any currency, a price, a count.
    Loose(Loose),
    /// A quantity of the dimension a generic function calls by this name.
    Generic(Symbol),
    /// A temperature, as a point.
    Temperature,
    /// An elevation: a point above or below a level.
    Elevation,
    /// A day.
    Date,
    /// True or false.
    Bool,
    /// Text.
    Text,
    /// The type of `none`.
    Nothing,
    /// A nominal lumber size.
    Lumber,
    /// A currency by name.
    Currency,
    /// A place in plan.
    Place,
    /// A bare name of a part, such as a wall's.
    Name,
    /// A product of a class, or of any.
    Product(Option<Class>),
    /// A class of products, as a value.
    Class,
    /// A build-up with its arguments.
    Buildup(SurfaceKind),
    /// A phase.
    Phase,
    /// A joint.
    Joint,
    /// Weather data.
    Weather,
    /// A table from a file.
    Table,
    /// An enumeration.
    Enum(DefId),
    /// A record, or a part of the building that the prelude describes as one.
    Record(DefId),
    /// A list.
    List(Arc<Type>),
    /// A value or `none`.
    Optional(Arc<Type>),
    /// A range.
    Range(Arc<Type>),
    /// `a x b`
    Size(Arc<Type>),
    /// A function or a build-up that has not been called.
    Callable(DefId),
}

/// A quantity of which only the sort is asked.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Loose {
    /// Money in any currency.
    Money,
    /// Money per something.
    Price,
    /// A number of counting units.
    Count,
    /// An area for each counting unit.
    Coverage,
}

impl Loose {
    /// The name in the language.
    pub const fn name(self) -> &'static str {
        match self {
            Loose::Money => "Money",
            Loose::Price => "Price",
            Loose::Count => "Count",
            Loose::Coverage => "Coverage",
        }
    }

    /// The sort of a name.
    pub fn of_name(name: &str) -> Option<Loose> {
        [Loose::Money, Loose::Price, Loose::Count, Loose::Coverage].into_iter().find(|l| l.name() == name)
    }

    /// Whether a dimension is of the sort.
    pub fn admits(self, dim: Dim) -> bool {
        let nominal = dim.nominal_sixths();
        let single = |power: i8| nominal.len() == 1 && nominal[0].1 == power && !nominal[0].0.is_currency();
        match self {
            Loose::Money => dim.as_money().is_some(),
            Loose::Price => nominal.iter().any(|(unit, power)| unit.is_currency() && *power == 6),
            Loose::Count => dim.physical().is_none() && single(6),
            Loose::Coverage => dim.physical() == Dim::AREA && single(-6),
        }
    }
}

impl Type {
    /// A plain number.
    pub const NUMBER: Type = Type::Quantity(Dim::NONE, None);

    /// A quantity without a kind.
    pub const fn quantity(dim: Dim) -> Type {
        Type::Quantity(dim, None)
    }

    /// A list of a type.
    pub fn list(of: Type) -> Type {
        Type::List(Arc::new(of))
    }

    /// The type with `?` taken off.
    pub fn required(&self) -> &Type {
        match self {
            Type::Optional(inner) => inner,
            other => other,
        }
    }

    /// The type with `?` put on, once.
    pub fn optional(self) -> Type {
        match self {
            Type::Optional(_) | Type::Unknown => self,
            other => Type::Optional(Arc::new(other)),
        }
    }

    /// Whether it is a quantity of any sort.
    pub const fn is_quantity(&self) -> bool {
        matches!(self, Type::Quantity(..) | Type::Loose(_) | Type::Generic(_))
    }

    /// Whether a value of type `given` may stand where `self` is due.
    pub fn accepts(&self, given: &Type) -> bool {
        match (self, given) {
            (Type::Unknown, _) | (_, Type::Unknown) => true,
            (Type::Optional(_), Type::Nothing) => true,
            (Type::Optional(inner), Type::Optional(other)) => inner.accepts(other),
            (Type::Optional(inner), other) => inner.accepts(other),
            (Type::Quantity(d, k), Type::Quantity(e, l)) => d == e && kinds_agree(*k, *l),
            (Type::Loose(sort), Type::Quantity(d, _)) => sort.admits(*d),
            (Type::Product(None), Type::Product(_)) => true,
            (Type::List(a), Type::List(b)) | (Type::Range(a), Type::Range(b)) | (Type::Size(a), Type::Size(b)) => {
                a.accepts(b)
            }
            // A range of quantities is an uncertain quantity where a quantity is due.
            (Type::Quantity(..), Type::Range(inner)) => self.accepts(inner),
            (a, b) => a == b,
        }
    }

    /// The type in words, with its article, as messages say it.
    pub fn describe(&self, program: &Program) -> String {
        match self {
            Type::Unknown => "something unknown".into(),
            Type::Quantity(dim, kind) => dim.describe_kind(*kind),
            Type::Loose(Loose::Money) => "an amount of money".into(),
            Type::Loose(Loose::Price) => "a price".into(),
            Type::Loose(Loose::Count) => "a count of units".into(),
            Type::Loose(Loose::Coverage) => "an area per unit".into(),
            Type::Generic(name) => format!("a quantity of dimension {name}"),
            Type::Temperature => "a temperature".into(),
            Type::Elevation => "an elevation".into(),
            Type::Date => "a date".into(),
            Type::Bool => "true or false".into(),
            Type::Text => "a text".into(),
            Type::Nothing => "none".into(),
            Type::Lumber => "a lumber size".into(),
            Type::Currency => "a currency".into(),
            Type::Place => "a place (x, y)".into(),
            Type::Name => "a name".into(),
            Type::Product(None) => "a product".into(),
            Type::Product(Some(class)) => format!("a product of class {}", class.name()),
            Type::Class => "a class of products".into(),
            Type::Buildup(kind) => format!("a build-up for {}", kind.word()),
            Type::Phase => "a phase".into(),
            Type::Joint => "a joint".into(),
            Type::Weather => "weather data".into(),
            Type::Table => "a table".into(),
            Type::Enum(def) => format!("one of {}", program.name_of(*def)),
            Type::Record(def) => format!("{} {}", article(program.name_of(*def).as_str()), program.name_of(*def)),
            Type::List(inner) => format!("a list of {}", plural(&inner.describe(program))),
            Type::Optional(inner) => format!("{} or none", inner.describe(program)),
            Type::Range(inner) => format!("a range of {}", plural(&inner.describe(program))),
            Type::Size(inner) => format!("a size of two {}", plural(&inner.describe(program))),
            Type::Callable(def) => format!("`{}`, not yet called", program.name_of(*def)),
        }
    }

    /// The type as the language writes it.
    pub fn written(&self, program: &Program) -> String {
        match self {
            Type::Quantity(_, Some(kind)) => kind.type_name().to_owned(),
            Type::Quantity(dim, None) => dim.type_name().map_or_else(|| dim.describe(), str::to_owned),
            Type::Loose(sort) => sort.name().into(),
            Type::Generic(name) => name.to_string(),
            Type::Product(Some(class)) => class.name().into(),
            Type::Buildup(SurfaceKind::Wall) => "WallBuildup".into(),
            Type::Buildup(SurfaceKind::Pier) => "PierBuildup".into(),
            Type::Buildup(SurfaceKind::Opening) => "OpeningBuildup".into(),
            Type::Buildup(SurfaceKind::Ground) => "GroundBuildup".into(),
            Type::Enum(def) | Type::Record(def) => program.name_of(*def).to_string(),
            Type::List(inner) => format!("[{}]", inner.written(program)),
            Type::Optional(inner) => format!("{}?", inner.written(program)),
            Type::Range(inner) => format!("Range[{}]", inner.written(program)),
            Type::Size(inner) => format!("Size[{}]", inner.written(program)),
            Type::Callable(def) => program.name_of(*def).to_string(),
            plain => format!("{plain:?}"),
        }
    }
}

/// A kind agrees with itself and with no kind; a permeability alone agrees with nothing else, because its
/// dimension is that of time.
pub(crate) fn kinds_agree(a: Option<Kind>, b: Option<Kind>) -> bool {
    let strict = |k: Option<Kind>| k == Some(Kind::Permeability);
    a == b || (!strict(a) && !strict(b) && (a.is_none() || b.is_none()))
}

fn article(word: &str) -> &'static str {
    if word.starts_with(['A', 'E', 'I', 'O', 'U', 'a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

fn plural(described: &str) -> String {
    let bare = described.strip_prefix("an ").or_else(|| described.strip_prefix("a ")).unwrap_or(described);
    if bare.contains(' ') || bare.ends_with('s') { bare.to_owned() } else { format!("{bare}s") }
}
