//! Settings of the client, under the name `wythe`.

use serde::Deserialize;
use wythe_ide::hints::HintKind;

/// How findings reach the client.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Delivery {
    /// The client asks for them if it can; else they are sent.
    #[default]
    Auto,
    /// They are sent as soon as they are known.
    Push,
    /// The client asks for them.
    Pull,
}

/// Which hints are shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(default)]
pub(crate) struct Hints {
    thermal: bool,
    measure: bool,
    converted: bool,
    value: bool,
}

impl Default for Hints {
    fn default() -> Self {
        Hints { thermal: true, measure: true, converted: true, value: true }
    }
}

impl Hints {
    /// Whether hints of a sort are shown.
    pub(crate) const fn shows(self, kind: HintKind) -> bool {
        match kind {
            HintKind::Thermal => self.thermal,
            HintKind::Measure => self.measure,
            HintKind::Converted => self.converted,
            HintKind::Value => self.value,
        }
    }
}

/// The settings.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// How findings reach the client.
    pub diagnostics: Delivery,
    /// Which hints are shown.
    pub hints: Hints,
}

impl Settings {
    /// Reads settings as a client gives them: bare, or under `wythe`. What cannot be read is told, and the defaults
    /// stand.
    pub(crate) fn read(value: &serde_json::Value) -> Result<Settings, String> {
        let own = value.get("wythe").unwrap_or(value);
        if own.is_null() {
            return Ok(Settings::default());
        }
        serde_json::from_value(own.clone()).map_err(|error| format!("the settings cannot be read: {error}"))
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;
    use wythe_ide::hints::HintKind;

    use super::{Delivery, Settings};

    #[test]
    fn settings_are_read_bare_or_under_their_name() {
        let bare = Settings::read(&json!({ "diagnostics": "push", "hints": { "value": false } })).unwrap();
        assert_eq!(
            bare,
            Settings::read(&json!({ "wythe": { "diagnostics": "push", "hints": { "value": false } } })).unwrap()
        );
        assert_eq!(bare.diagnostics, Delivery::Push);
        assert!(!bare.hints.shows(HintKind::Value) && bare.hints.shows(HintKind::Thermal));
        assert_eq!(Settings::read(&json!(null)), Ok(Settings::default()));
        assert!(Settings::read(&json!({ "diagnostics": 3 })).is_err());
    }
}
