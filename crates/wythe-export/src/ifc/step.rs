//! Lines of a STEP file (ISO 10303-21): references, figures and text as they are written there.

use std::fmt::Write as _;

/// A reference to a line: `#12`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Line(usize);

impl std::fmt::Display for Line {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// The lines of the data section.
#[derive(Debug, Default)]
pub(super) struct Lines {
    text: String,
    count: usize,
}

impl Lines {
    /// Adds a line: an entity and its attributes as they are written.
    pub(super) fn add(&mut self, entity: &str, attributes: &str) -> Line {
        self.count += 1;
        let _ = writeln!(self.text, "#{}={entity}({attributes});", self.count);
        Line(self.count)
    }

    /// The whole file.
    pub(super) fn file(self, name: &str, stamp: &str) -> String {
        format!(
            "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('ViewDefinition [ReferenceView_V1.2]'),'2;1');\n\
             FILE_NAME({},'{stamp}',(''),(''),'Wythe','Wythe','');\nFILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n",
            text(name),
            self.text
        )
    }
}

/// A list of references: `(#1,#2)`.
pub(super) fn list(lines: &[Line]) -> String {
    let all: Vec<String> = lines.iter().map(Line::to_string).collect();
    format!("({})", all.join(","))
}

/// A figure: always with a point; what is no number is nought.
pub(super) fn real(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{value:.9}");
    let text = text.trim_end_matches('0');
    if text == "-0." { "0.".to_owned() } else { text.to_owned() }
}

/// Text: quotes and backslashes doubled, other letters than ASCII by their number (clause 6.4.3).
pub(super) fn text(text: &str) -> String {
    let mut out = String::from("'");
    for letter in text.chars() {
        match letter {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(letter),
            c if c.is_control() => out.push(' '),
            c if u32::from(c) <= 0xffff => {
                let _ = write!(out, "\\X2\\{:04X}\\X0\\", u32::from(c));
            }
            c => {
                let _ = write!(out, "\\X4\\{:08X}\\X0\\", u32::from(c));
            }
        }
    }
    out.push('\'');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_a_point_and_text_keeps_to_ascii() {
        assert_eq!(real(1.0), "1.");
        assert_eq!(real(-0.25), "-0.25");
        assert_eq!(real(f64::NAN), "0.");
        assert_eq!(real(-1e-12), "0.");
        assert_eq!(text("a'b\\"), "'a''b\\\\'");
        assert_eq!(text("é\n😀"), "'\\X2\\00E9\\X0\\ \\X4\\0001F600\\X0\\'");
    }
}
