//! What has been worked out for a space is kept, so that a check after an edit elsewhere repeats no year of hours.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use wythe_physics::PhysicsError;
use wythe_physics::zone::scenario::Scenario;
use wythe_physics::zone::simulate::simulate;
use wythe_physics::zone::space::CrawlSpace;

use super::ServiceFigures;
use crate::weather::SiteWeather;

/// Figures by the space, the way it is kept and the weather: by what goes into the physics and not by where it is
/// written, so that moving a declaration costs nothing. Bounded; of the spaces kept, the one not asked for the longest
/// gives way.
#[derive(Debug, Default)]
pub struct ServiceMemo {
    known: Mutex<VecDeque<Arc<Known>>>,
    runs: std::sync::atomic::AtomicUsize,
}

#[derive(Debug)]
struct Known {
    space: CrawlSpace,
    scenario: Scenario,
    weather: Arc<SiteWeather>,
    figures: ServiceFigures,
}

impl Known {
    fn is(&self, space: &CrawlSpace, scenario: &Scenario, weather: &Arc<SiteWeather>) -> bool {
        self.space == *space
            && self.scenario == *scenario
            && (Arc::ptr_eq(&self.weather, weather) || self.weather.year == weather.year)
    }
}

impl ServiceMemo {
    /// The most spaces kept: those of a few rows of houses.
    pub const KEPT: usize = 256;

    /// How many years have been worked out so far.
    pub fn runs(&self) -> usize {
        self.runs.load(std::sync::atomic::Ordering::Relaxed)
    }

    pub(super) fn figures(
        &self,
        space: CrawlSpace,
        scenario: Scenario,
        weather: &Arc<SiteWeather>,
    ) -> Result<ServiceFigures, PhysicsError> {
        if let Some(known) = self.recall(&space, &scenario, weather) {
            return Ok(known);
        }
        // Not under the lock: other houses go on beside this one.
        self.runs.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        let figures = ServiceFigures::of(&simulate(&space, &scenario, &weather.year)?);
        let mut all = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        all.push_front(Arc::new(Known { space, scenario, weather: weather.clone(), figures }));
        all.truncate(Self::KEPT);
        Ok(figures)
    }

    fn recall(&self, space: &CrawlSpace, scenario: &Scenario, weather: &Arc<SiteWeather>) -> Option<ServiceFigures> {
        let mut all = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let at = all.iter().position(|known| known.is(space, scenario, weather))?;
        let known = all.remove(at)?;
        let figures = known.figures;
        all.push_front(known);
        Some(figures)
    }
}
