//! A baseline as its file: sorted, one table an entry, so that two branches seldom touch the same lines.

use std::fmt::Write as _;

use super::Baseline;

const HEAD: &str = "\
# Findings this repository has agreed to live with for now. `wythe baseline --write` makes this file anew and keeps
# `because`, `who` and `until` of what it held before; `wythe baseline --prune` takes out what no longer stands.
";

impl Baseline {
    /// The version of the form. It changes when a key is taken away or changes its meaning.
    pub const FORM: u32 = 1;

    /// The text of the file.
    pub fn text(&self) -> String {
        let mut out = format!("{HEAD}form = {}\n", Baseline::FORM);
        let quoted = |text: &str| toml::Value::from(text).to_string();
        for (key, entry) in &self.entries {
            let mut line = |key: &str, value: &str| {
                // Writing to a text cannot fail.
                let _ = writeln!(out, "{key}{value}");
            };
            line("\n[[finding]]", "");
            line("file = ", &quoted(&key.file));
            line("name = ", &quoted(&key.name));
            if !key.item.is_empty() {
                line("item = ", &quoted(&key.item));
            }
            line("title = ", &quoted(&key.title));
            if entry.count != 1 {
                line("count = ", &entry.count.to_string());
            }
            if !entry.because.is_empty() {
                line("because = ", &quoted(&entry.because));
            }
            if !entry.who.is_empty() {
                line("who = ", &quoted(&entry.who));
            }
            if let Some(day) = entry.until {
                line("until = ", &day.to_string());
            }
        }
        out
    }
}
