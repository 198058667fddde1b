//! Measures and places as fields.

use uom::si::area::square_meter;
use uom::si::f64::{Area, HeatTransfer, Length, Ratio, Time, Volume};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::time::hour;
use uom::si::volume::{cubic_meter, cubic_yard};
use wythe_bill::cost::Money;
use wythe_model::ThermalResistance;
use wythe_model::quantity::{How, Measure};
use wythe_source::{LineTable, Span};
use wythe_units::{DisplayOptions, Quantity, UnitSystem, format_quantity};

use super::Cell;
use crate::Files;

/// Shows measures in the units of a repository, and places by file and line.
pub struct Shower<'a> {
    /// How quantities are shown.
    pub display: &'a DisplayOptions,
    /// The names and texts of the files.
    pub files: &'a dyn Files,
}

impl Shower<'_> {
    /// A measure.
    pub fn measure(&self, measure: Measure) -> Cell {
        match measure {
            Measure::Area(a) => self.area(a),
            Measure::Length(l) => self.length(l),
            Measure::Volume(v) => self.volume(v),
            Measure::Count(n) => Cell::Count(n),
        }
    }

    /// A length.
    pub fn length(&self, length: Length) -> Cell {
        self.cell(Quantity::try_from(length).ok(), length.get::<meter>(), "m")
    }

    /// An area.
    pub fn area(&self, area: Area) -> Cell {
        self.cell(Quantity::try_from(area).ok(), area.get::<square_meter>(), "m2")
    }

    /// A volume; stone is counted by the yard where units are those of the United States.
    pub fn volume(&self, volume: Volume) -> Cell {
        let si = volume.get::<cubic_meter>();
        if self.display.system == UnitSystem::Us {
            return Cell::Quantity { shown: format!("{:.2} yd3", volume.get::<cubic_yard>()), si, unit: "m3" };
        }
        self.cell(Quantity::try_from(volume).ok(), si, "m3")
    }

    /// A transmittance.
    pub fn transmittance(&self, u: HeatTransfer) -> Cell {
        self.cell(Quantity::try_from(u).ok(), u.value, "W/(m2 K)")
    }

    /// A resistance.
    pub fn resistance(&self, r: ThermalResistance) -> Cell {
        self.cell(Quantity::try_from(r).ok(), r.value, "m2 K/W")
    }

    /// Hours.
    pub fn hours(&self, time: Time) -> Cell {
        let hours = time.get::<hour>();
        Cell::Quantity { shown: format!("{hours:.1} h"), si: hours * 3600.0, unit: "s" }
    }

    /// A share in percent.
    pub fn share(&self, share: Ratio) -> Cell {
        let value = share.get::<ratio>();
        Cell::Quantity { shown: format!("{:.1} %", value * 100.0), si: value, unit: "1" }
    }

    /// Money.
    pub fn money(&self, money: Money) -> Cell {
        Cell::Money { amount: format!("{:.2}", money.amount), currency: money.currency.to_string() }
    }

    /// The arithmetic behind a figure.
    pub fn how(&self, how: &How) -> Cell {
        Cell::text(how.words(|m| self.measure(m).shown()))
    }

    /// A place: file and line.
    pub fn place(&self, span: Span) -> String {
        let text = self.files.text(span.file);
        let line = LineTable::new(text).line_of(span.start) + 1;
        format!("{}:{line}", self.files.name(span.file))
    }

    fn cell(&self, quantity: Option<Quantity>, si: f64, unit: &'static str) -> Cell {
        match quantity {
            Some(q) => Cell::Quantity { shown: format_quantity(q, self.display), si, unit },
            None => Cell::Empty,
        }
    }
}
