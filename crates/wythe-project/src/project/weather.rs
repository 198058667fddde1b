//! The weather files that sites name, read from inside the repository and kept until they change.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use wythe_assess::moisture::ServiceMemo;
use wythe_assess::weather::{self, WeatherResult};
use wythe_model::{ClimateFile, ClimateReading, WeatherColumns};

use super::Project;
use crate::overlay::Overlay;
use crate::{FileEntry, SourcePath, Sources as _};

/// A file and all that its reading depends on beside its bytes: the mapping of its columns, and the altitude in bits.
type Volume = (SourcePath, Reading, Option<u64>);

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Reading {
    Monthly,
    Hourly,
    Mapped(Arc<WeatherColumns>),
}

/// Weather that has been read. A finding in it stands at the place that named the file first.
///
/// Clones share what they read, until a file changes: what is read for a judgement begun before stays with it.
#[derive(Clone, Debug, Default)]
pub(super) struct WeatherShelf(Arc<Mutex<BTreeMap<Volume, WeatherResult>>>);

impl WeatherShelf {
    /// Forgets a file; whether it was known.
    pub(super) fn forget(&mut self, path: &SourcePath) -> bool {
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let before = known.len();
        known.retain(|(file, ..), _| file != path);
        let forgot = known.len() < before;
        if forgot {
            self.0 = Arc::new(Mutex::new(known));
        }
        forgot
    }

    /// The weather a site names, its path taken from the folder of the file that names it.
    pub(super) fn read(&self, file: &ClimateFile, by: Option<&FileEntry>, sources: &Overlay) -> WeatherResult {
        let reading = match &file.reading {
            ClimateReading::Monthly => Reading::Monthly,
            ClimateReading::Hourly => Reading::Hourly,
            ClimateReading::Mapped(columns) => Reading::Mapped(columns.clone()),
            ClimateReading::Stated(_) => return weather::read(file, &[]),
        };
        let folder = by.map_or_else(SourcePath::root, |entry| entry.path.folder());
        let Some(path) = SourcePath::resolve(&folder, &file.path) else {
            return Err(Box::new(weather::unreadable(file, "it lies outside the repository; nothing there is read")));
        };
        let key = (path.clone(), reading, file.altitude.map(|a| a.value.to_bits()));
        let known = self.0.lock().unwrap_or_else(PoisonError::into_inner).get(&key).cloned();
        let read = known.unwrap_or_else(|| {
            let read = match sources.read(&path) {
                Ok(bytes) => weather::read(file, &bytes),
                Err(fault) => Err(Box::new(weather::unreadable(file, &fault.to_string()))),
            };
            self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(key, read.clone());
            read
        });
        read.map_err(|mut finding| {
            finding.primary.span = file.origin;
            finding
        })
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
        self.weather.read(file, self.entry(file.origin.file), &self.sources)
    }
}
