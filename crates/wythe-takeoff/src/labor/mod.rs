//! Labor: production rates, visits with set-up and tear-down, travel, headroom, drying after rain and
//! a minimum charge; crew-days by phase and what they cost.

mod rate;
mod visit;

pub use rate::{LaborError, Rate, WorkQuantity};
pub use visit::{CrewRules, HeadroomFactor, LaborFinding, Task, VisitLabor, WorkVisit, labor_cost, visits};
