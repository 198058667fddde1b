//! Values.

use std::sync::Arc;

use jiff::civil::Date;
use wythe_model::{Assembly, Class, ClimateFile, Foundation, Joint, Level, Phase, Product, Site};
use wythe_sema::DefId;
use wythe_source::Symbol;
use wythe_units::{LumberSize, Quantity, Scalar};

/// A value.
#[derive(Clone, Debug)]
pub enum Value {
    /// Not known after a fault that has been reported; everything made of it is broken too.
    Broken,
    /// `none`
    None,
    /// True or false.
    Bool(bool),
    /// A comparison of figures known within bounds that holds at one end and not at the other.
    Unsure,
    /// Text.
    Text(Arc<str>),
    /// A day.
    Date(Date),
    /// A quantity.
    Quantity(Quantity),
    /// A quantity known within bounds: least, middle, most.
    Interval(Arc<[Quantity; 3]>),
    /// A temperature, in kelvin.
    Temperature(Scalar),
    /// An elevation, told from a level; the offset in meters.
    Elevation(Level, Scalar),
    /// A nominal lumber size.
    Lumber(LumberSize),
    /// A currency.
    Currency(Symbol),
    /// A place in plan.
    Place(Arc<[Quantity; 2]>),
    /// `a x b`
    Size(Arc<[Value; 2]>),
    /// `a .. b`
    Range(Arc<[Value; 2]>),
    /// A member of an enumeration.
    Member(DefId, u32),
    /// A class of products.
    Class(Class),
    /// The bare name of a part.
    Name(Symbol),
    /// A list.
    List(Arc<[Value]>),
    /// A record.
    Record(Arc<RecordValue>),
    /// A product.
    Product(Arc<Product>),
    /// A build-up with its arguments.
    Assembly(Arc<Assembly>),
    /// A phase.
    Phase(Arc<Phase>),
    /// A joint.
    Joint(Arc<Joint>),
    /// A site.
    Site(Arc<Site>),
    /// A weather file.
    Weather(Arc<ClimateFile>),
    /// A table's path.
    Table(Arc<str>),
    /// A part of a building.
    Element(Element),
}

/// A record with the values of its fields, in order.
#[derive(Debug, PartialEq)]
pub struct RecordValue {
    /// Its declaration.
    pub def: DefId,
    /// The values of its fields.
    pub fields: Vec<Value>,
}

/// A part of a building, as rules and tests see it. Numbers count within the foundation.
#[derive(Clone, Debug)]
pub enum Element {
    /// A foundation.
    Foundation(Arc<Foundation>),
    /// A wall.
    Wall(Arc<Foundation>, usize),
    /// An opening.
    Opening(Arc<Foundation>, usize),
    /// A pier.
    Pier(Arc<Foundation>, usize),
    /// An added footing.
    Pad(Arc<Foundation>, usize),
    /// A beam.
    Beam(Arc<Foundation>, usize),
    /// A corner: the number of the wall that begins there.
    Corner(Arc<Foundation>, usize),
    /// The crawl floor.
    Ground(Arc<Foundation>),
    /// What lies at the sill.
    Sill(Arc<Foundation>),
    /// How the space is conditioned.
    Conditioning(Arc<Foundation>),
    /// The soil of a site.
    Soil(Arc<Site>),
    /// A face of a part: the part and the face's name.
    Surface(Box<Element>, Symbol),
    /// A layer: the part, the face's name and the number of the work.
    Layer(Box<Element>, Symbol, usize),
    /// A lap: the part, the face's name (or the joint's) and the number of the work.
    Lap(Box<Element>, Symbol, usize),
    /// A tail: the part, the face's name and the number of the work.
    Tail(Box<Element>, Symbol, usize),
    /// A joint, by number.
    Joint(Arc<Foundation>, usize),
}

impl Element {
    /// The foundation it is part of.
    pub fn foundation(&self) -> Option<&Arc<Foundation>> {
        match self {
            Element::Foundation(f)
            | Element::Wall(f, _)
            | Element::Opening(f, _)
            | Element::Pier(f, _)
            | Element::Pad(f, _)
            | Element::Beam(f, _)
            | Element::Corner(f, _)
            | Element::Ground(f)
            | Element::Sill(f)
            | Element::Conditioning(f)
            | Element::Joint(f, _) => Some(f),
            Element::Surface(e, _) | Element::Layer(e, ..) | Element::Lap(e, ..) | Element::Tail(e, ..) => {
                e.foundation()
            }
            Element::Soil(_) => None,
        }
    }
}

impl PartialEq for Element {
    fn eq(&self, other: &Self) -> bool {
        use Element as E;
        let same = |a: &Arc<Foundation>, b: &Arc<Foundation>| Arc::ptr_eq(a, b);
        match (self, other) {
            (E::Foundation(a), E::Foundation(b))
            | (E::Ground(a), E::Ground(b))
            | (E::Sill(a), E::Sill(b))
            | (E::Conditioning(a), E::Conditioning(b)) => same(a, b),
            (E::Wall(a, i), E::Wall(b, j))
            | (E::Opening(a, i), E::Opening(b, j))
            | (E::Pier(a, i), E::Pier(b, j))
            | (E::Pad(a, i), E::Pad(b, j))
            | (E::Beam(a, i), E::Beam(b, j))
            | (E::Corner(a, i), E::Corner(b, j))
            | (E::Joint(a, i), E::Joint(b, j)) => same(a, b) && i == j,
            (E::Soil(a), E::Soil(b)) => Arc::ptr_eq(a, b),
            (E::Surface(a, i), E::Surface(b, j)) => a == b && i == j,
            (E::Layer(a, f, i), E::Layer(b, g, j))
            | (E::Lap(a, f, i), E::Lap(b, g, j))
            | (E::Tail(a, f, i), E::Tail(b, g, j)) => a == b && f == g && i == j,
            _ => false,
        }
    }
}

/// Equality of the language, except that it never compares figures within bounds by their middle alone.
impl PartialEq for Value {
    fn eq(&self, other: &Self) -> bool {
        use Value as V;
        match (self, other) {
            (V::Broken, V::Broken) | (V::None, V::None) | (V::Unsure, V::Unsure) => true,
            (V::Bool(a), V::Bool(b)) => a == b,
            (V::Text(a), V::Text(b)) | (V::Table(a), V::Table(b)) => a == b,
            (V::Date(a), V::Date(b)) => a == b,
            (V::Quantity(a), V::Quantity(b)) => a.compare(*b).is_ok_and(std::cmp::Ordering::is_eq),
            (V::Interval(a), V::Interval(b)) => {
                a.iter().zip(b.iter()).all(|(x, y)| x.compare(*y).is_ok_and(std::cmp::Ordering::is_eq))
            }
            (V::Temperature(a), V::Temperature(b)) => a.compare(*b).is_eq(),
            (V::Elevation(a, x), V::Elevation(b, y)) => a == b && x.compare(*y).is_eq(),
            (V::Lumber(a), V::Lumber(b)) => a == b,
            (V::Currency(a), V::Currency(b)) | (V::Name(a), V::Name(b)) => a == b,
            (V::Place(a), V::Place(b)) => {
                a.iter().zip(b.iter()).all(|(x, y)| x.compare(*y).is_ok_and(std::cmp::Ordering::is_eq))
            }
            (V::Size(a), V::Size(b)) | (V::Range(a), V::Range(b)) => a == b,
            (V::Member(a, i), V::Member(b, j)) => a == b && i == j,
            (V::Class(a), V::Class(b)) => a == b,
            (V::List(a), V::List(b)) => a == b,
            (V::Record(a), V::Record(b)) => a == b,
            (V::Product(a), V::Product(b)) => a.name == b.name && a.origin == b.origin,
            (V::Assembly(a), V::Assembly(b)) => Arc::ptr_eq(a, b),
            (V::Phase(a), V::Phase(b)) => a.name == b.name,
            (V::Phase(a), V::Name(b)) | (V::Name(b), V::Phase(a)) => a.name == Some(*b),
            (V::Joint(a), V::Joint(b)) => a.origin == b.origin,
            (V::Site(a), V::Site(b)) => a.origin == b.origin,
            (V::Weather(a), V::Weather(b)) => a == b,
            (V::Element(a), V::Element(b)) => a == b,
            _ => false,
        }
    }
}

impl Value {
    /// A list.
    pub fn list(items: impl IntoIterator<Item = Value>) -> Value {
        Value::List(items.into_iter().collect())
    }

    /// A text.
    pub fn text(text: impl Into<Arc<str>>) -> Value {
        Value::Text(text.into())
    }

    /// The quantity to work with: of one within bounds, the middle.
    pub fn quantity(&self) -> Option<Quantity> {
        match self {
            Value::Quantity(q) => Some(*q),
            Value::Interval(bounds) => Some(bounds[1]),
            Value::Range(ends) => {
                let (low, high) = (ends[0].quantity()?, ends[1].quantity()?);
                let middle = low.checked_add(high).ok()?.scaled(Scalar::ratio(1, 2).ok()?).ok()?;
                Some(middle)
            }
            _ => None,
        }
    }

    /// Least, middle and most of a quantity.
    pub fn bounds(&self) -> Option<[Quantity; 3]> {
        match self {
            Value::Quantity(q) => Some([*q; 3]),
            Value::Interval(bounds) => Some(**bounds),
            Value::Range(ends) => {
                let (a, b) = (ends[0].quantity()?, ends[1].quantity()?);
                let (low, high) = if a.compare(b).is_ok_and(std::cmp::Ordering::is_gt) { (b, a) } else { (a, b) };
                Some([low, self.quantity()?, high])
            }
            _ => None,
        }
    }

    /// A quantity within bounds; a plain one if the bounds are one.
    pub fn within([low, mid, high]: [Quantity; 3]) -> Value {
        let same = low.compare(high).is_ok_and(std::cmp::Ordering::is_eq);
        if same { Value::Quantity(mid) } else { Value::Interval(Arc::new([low, mid, high])) }
    }

    /// Whether a fault made it useless.
    pub const fn is_broken(&self) -> bool {
        matches!(self, Value::Broken)
    }
}
