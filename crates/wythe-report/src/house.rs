//! What has been worked out of one house, as a report takes it.

use jiff::civil::Date;
use wythe_assess::heat::HeatReport;
use wythe_assess::moisture::MoistureReport;
use wythe_bill::Job;
use wythe_bill::cost::PriceBook;
use wythe_bill::labor::HouseLabor;
use wythe_bill::timeline::{Schedule, WorkCalendar};
use wythe_check::lines::{Status, Trace};
use wythe_findings::Finding;
use wythe_model::quantity::Films;
use wythe_model::{Control, Foundation};
use wythe_render::drawing::{BreakAt, BreakSide, ControlLine, LineBreak, LineStep};
use wythe_render::tables::{Shower, Standing};
use wythe_source::Span;
use wythe_takeoff::price::PricedBill;

/// A finding that is waived, and why.
#[derive(Clone, Copy, Debug)]
pub struct Waived<'a> {
    /// The finding.
    pub finding: &'a Finding,
    /// Why.
    pub because: &'a str,
    /// Who granted it.
    pub who: &'a str,
    /// The last day it holds.
    pub until: Option<Date>,
}

/// A house with everything that was worked out; what could not be is not there.
pub struct House<'a> {
    /// The building.
    pub foundation: &'a Foundation,
    /// What is wrong with it.
    pub findings: &'a [Finding],
    /// What is wrong and waived.
    pub waived: Vec<Waived<'a>>,
    /// Why something is not there: weather that cannot be read, work that cannot be measured, a price that is missing.
    pub lacking: &'a [Finding],
    /// How it stands with its lines and rules.
    pub standing: Standing,
    /// The proofs of its control lines.
    pub traces: &'a [Trace],
    /// The films U-values are told with.
    pub films: Films,
    /// Its heat.
    pub heat: Option<&'a HeatReport>,
    /// Its moisture.
    pub moisture: Option<&'a MoistureReport>,
    /// Its takeoff; the house is the only one of the job.
    pub job: &'a Job,
    /// Its prices.
    pub bill: Option<(&'a PriceBook, &'a PricedBill)>,
    /// Its labor.
    pub labor: &'a [HouseLabor],
    /// Its schedule, and the calendar it is made on.
    pub schedule: Option<(&'a Schedule, &'a WorkCalendar)>,
    /// The day waivers and prices are judged on.
    pub today: Option<Date>,
    /// Shows measures and places.
    pub show: Shower<'a>,
    /// Where a place of the sources can be read, if anywhere.
    pub link: &'a (dyn Fn(Span) -> Option<String> + Sync),
    /// The version of the command.
    pub version: &'a str,
}

/// A proof as it is drawn, with a break at each place to mend.
pub fn control_line(trace: &Trace) -> ControlLine {
    let steps = trace.steps.iter().map(|step| LineStep {
        element: step.element,
        face: step.face,
        layer: step.layer,
        from: step.from,
        to: step.to,
    });
    let side = if trace.control == Control::BulkWater { BreakSide::Outside } else { BreakSide::Inside };
    let broken = trace.mends.iter().filter(|_| trace.status == Status::Broken);
    let breaks = broken.map(|mend| LineBreak {
        at: BreakAt::Elevation(mend.elevation, side),
        text: mend.text.clone(),
        origin: Some(mend.origin),
    });
    ControlLine { control: trace.control, steps: steps.collect(), breaks: breaks.collect() }
}
