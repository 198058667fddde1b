//! Activities and what they wait for.

/// A wait for another activity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct After {
    /// Id of the activity that must be finished, its inspection passed.
    pub id: String,
    /// Days to cure or dry, nights and weekends included.
    pub cure_days: u32,
    /// Further working days to wait.
    pub working_days: u32,
}

impl After {
    /// With no wait.
    pub fn done(id: &str) -> Self {
        Self { id: id.to_owned(), cure_days: 0, working_days: 0 }
    }
}

/// An inspection that must pass before what follows may cover the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hold {
    /// What is to be seen.
    pub what: String,
    /// Working days after the work is done on which it takes place; one is the next.
    pub days: u32,
}

/// A piece of the job that runs without a break in the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Activity {
    /// Its key.
    pub id: String,
    /// For people.
    pub name: String,
    /// The phase it belongs to.
    pub phase: String,
    /// Working days; nought for a mere date.
    pub days: u32,
    /// Who; two activities of one crew do not overlap.
    pub crew: Option<String>,
    /// Stops in bad weather.
    pub open_to_weather: bool,
    /// What must be done first.
    pub after: Vec<After>,
    /// Inspection at its end.
    pub hold: Option<Hold>,
    /// What must be on site while it goes on.
    pub needs: Vec<String>,
}
