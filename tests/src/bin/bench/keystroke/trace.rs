//! Traces of edits: a name misspelt by one key and put right by another, wherever the name stands in a file.

use std::io;
use std::time::Duration;

use serde_json::{Value, json};

use super::client::Client;

/// A language, as far as a trace needs to know it.
pub(super) struct Tongue {
    /// The name of the language in the protocol.
    pub(super) name: &'static str,
    /// The code of the finding on a name that is not known.
    pub(super) unknown: &'static [&'static str],
}

/// A place where a name ends that must be known.
#[derive(Clone, Copy)]
pub(super) struct Place {
    line: u32,
    start: u32,
    end: u32,
}

impl Place {
    /// The line, and the column after the word.
    pub(super) const fn after(self) -> (u32, u32) {
        (self.line, self.end)
    }
}

/// Where a word stands on the lines that satisfy: its first on each line.
pub(super) fn places(text: &str, word: &str, line_satisfies: impl Fn(&str) -> bool) -> Vec<Place> {
    let lines = text.lines().enumerate().filter(|(_, line)| line_satisfies(line));
    let place = |(number, line): (usize, &str)| {
        let start = line.find(word)? as u32;
        Some(Place { line: number as u32, start, end: start + word.len() as u32 })
    };
    lines.filter_map(place).collect()
}

/// The times of a trace, and how the texts went on.
pub(super) struct Trace<'t> {
    pub(super) url: &'t str,
    pub(super) tongue: &'t Tongue,
    pub(super) version: i32,
}

impl Trace<'_> {
    /// Misspells the names at places, in turn, and puts each right again, `edits` edits in all. The clock of an edit
    /// stops when the findings for it have come and say what they must: the name is not known, or no longer unknown.
    pub(super) fn keystrokes(
        &mut self,
        client: &mut Client,
        places: &[Place],
        edits: usize,
    ) -> io::Result<Vec<Duration>> {
        let mut times = Vec::with_capacity(edits);
        for place in places.iter().cycle().take(edits / 2) {
            times.push(self.misspell(client, *place, self.url)?);
            times.push(self.put_right(client, *place, self.url)?);
        }
        Ok(times)
    }

    /// Types a letter at the end of a name; the time until `seen_in` is told that the name is not known.
    pub(super) fn misspell(&mut self, client: &mut Client, place: Place, seen_in: &str) -> io::Result<Duration> {
        self.version += 1;
        let unknown = self.tongue.unknown;
        let begun = client.change(self.url, self.version, place.line, (place.end, place.end), "q")?;
        let same_file = seen_in == self.url;
        let told = |d: &Value| {
            let right = !same_file
                || (d["range"]["start"]["line"] == place.line && d["range"]["start"]["character"] == place.start);
            right && d["code"].as_str().is_some_and(|code| unknown.contains(&code))
        };
        let came = client.findings(seen_in, |all| all.iter().any(told))?;
        Ok(came - begun)
    }

    /// Takes the letter out; the time until `seen_in` is told that the name is known again.
    pub(super) fn put_right(&mut self, client: &mut Client, place: Place, seen_in: &str) -> io::Result<Duration> {
        self.version += 1;
        let unknown = self.tongue.unknown;
        let begun = client.change(self.url, self.version, place.line, (place.end, place.end + 1), "")?;
        let told = |d: &Value| d["code"].as_str().is_some_and(|code| unknown.contains(&code));
        let came = client.findings(seen_in, |all| !all.iter().any(told))?;
        Ok(came - begun)
    }

    /// Asks at places in turn, each time after a key, so that no answer is at hand. The key types and takes out a
    /// blank at the end of the line before.
    pub(super) fn questions(
        &mut self,
        client: &mut Client,
        method: &str,
        places: &[Place],
        count: usize,
        satisfies: impl Fn(&Value) -> bool,
    ) -> io::Result<Vec<Duration>> {
        let mut times = Vec::with_capacity(count);
        for (number, place) in places.iter().cycle().take(count).enumerate() {
            self.version += 1;
            let (stretch, text) = if number % 2 == 0 { ((0, 0), " ") } else { ((0, 1), "") };
            let begun = client.change(self.url, self.version, 1, stretch, text)?;
            let params = json!({
                "textDocument": { "uri": self.url },
                "position": { "line": place.line, "character": place.end - 1 },
            });
            let (came, answer) = client.request(method, &params)?;
            if !satisfies(&answer) {
                return Err(io::Error::other(format!("{method} answers {answer}")));
            }
            times.push(came - begun);
        }
        Ok(times)
    }
}

/// Prints how times are distributed.
pub(super) fn print(what: &str, times: &mut [Duration], target: &str) {
    times.sort();
    let at = |share: f64| {
        let place = ((times.len() as f64 * share).ceil() as usize).clamp(1, times.len().max(1)) - 1;
        times.get(place).map_or(0.0, |time| time.as_secs_f64() * 1000.0)
    };
    println!(
        "{what:>44}: p50 {:>8.3}  p95 {:>8.3}  p99 {:>8.3}  max {:>8.3} ms of {}{}",
        at(0.5),
        at(0.95),
        at(0.99),
        at(1.0),
        times.len(),
        if target.is_empty() { String::new() } else { format!("   (aim: {target})") },
    );
}
