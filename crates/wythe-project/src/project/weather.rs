//! The weather files that sites name, read from inside the repository and kept until they change.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use wythe_assess::moisture::ServiceMemo;
use wythe_assess::weather::{self, WeatherResult};
use wythe_model::{ClimateFile, ClimateReading, WeatherColumns};

use super::Project;
use crate::{SourcePath, Sources as _};

/// A file and all that its reading depends on beside its bytes: the mapping of its columns, and the altitude in bits.
type Volume = (SourcePath, Reading, Option<u64>);

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Reading {
    Monthly,
    Hourly,
    Mapped(Arc<WeatherColumns>),
}

/// Weather that has been read. A finding in it stands at the place that named the file first.
#[derive(Debug, Default)]
pub(super) struct WeatherShelf(Mutex<BTreeMap<Volume, WeatherResult>>);

impl WeatherShelf {
    /// Forgets a file; whether it was known.
    pub(super) fn forget(&self, path: &SourcePath) -> bool {
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let before = known.len();
        known.retain(|(file, ..), _| file != path);
        known.len() < before
    }
}

impl Project {
    /// Spaces whose year of hours has been worked out, for what asks for more of them.
    pub fn moisture_memo(&self) -> &ServiceMemo {
        &self.moisture
    }

    /// How many years of hours rules and tests have had worked out so far.
    pub fn moisture_runs(&self) -> usize {
        self.moisture.runs()
    }

    /// The weather a site names, its path taken from the folder of the file that names it.
    ///
    /// # Errors
    /// A finding at that place where the file lies outside the repository, cannot be read, or has faults.
    pub fn weather(&self, file: &ClimateFile) -> WeatherResult {
        let reading = match &file.reading {
            ClimateReading::Monthly => Reading::Monthly,
            ClimateReading::Hourly => Reading::Hourly,
            ClimateReading::Mapped(columns) => Reading::Mapped(columns.clone()),
            ClimateReading::Stated(_) => return weather::read(file, &[]),
        };
        let folder = self.entry(file.origin.file).map_or_else(SourcePath::root, |entry| entry.path.folder());
        let Some(path) = SourcePath::resolve(&folder, &file.path) else {
            return Err(Box::new(weather::unreadable(file, "it lies outside the repository; nothing there is read")));
        };
        let key = (path.clone(), reading, file.altitude.map(|a| a.value.to_bits()));
        let known = self.weather.0.lock().unwrap_or_else(PoisonError::into_inner).get(&key).cloned();
        let read = known.unwrap_or_else(|| {
            let read = match self.sources.read(&path) {
                Ok(bytes) => weather::read(file, &bytes),
                Err(fault) => Err(Box::new(weather::unreadable(file, &fault.to_string()))),
            };
            self.weather.0.lock().unwrap_or_else(PoisonError::into_inner).insert(key, read.clone());
            read
        });
        read.map_err(|mut finding| {
            finding.primary.span = file.origin;
            finding
        })
    }
}
