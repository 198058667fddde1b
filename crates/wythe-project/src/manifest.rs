//! The manifest of a plans repository, `wythe.toml`: what it may say, and what is wrong with what it says.

use std::collections::BTreeMap;
use std::ops::Range;

use jiff::civil::Date;
use serde::Deserialize;
use toml::Spanned;
use wythe_check::{Ask, Need, VAPOR_LIMIT};
use wythe_findings::{Code, Finding, Severity, codes, find_page};
use wythe_model::{Length, Permeance};
use wythe_source::{FileId, Span, Symbol};
use wythe_units::{DisplayOptions, Quantity, Scalar, UnitSystem, parse_length_marks, unit_named};

use crate::SourcePath;
use crate::library::{Library, WrittenLibrary, declare};

/// The language edition this compiler reads.
pub(crate) const EDITION: i64 = 2026;

/// The version of the language this compiler reads, within the edition: later ones add, and take nothing away.
const LANGUAGE: (u32, u32) = (0, 1);

/// What the manifest makes of a finding.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SeverityChoice {
    /// It is this grave.
    Is(Severity),
    /// It is not shown.
    Off,
}

/// A name the manifest gives to a finding, with its place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Override {
    pub choice: SeverityChoice,
    pub place: Span,
}

/// What a repository says of itself. Without a manifest, the defaults.
#[derive(Clone, Debug)]
pub struct Manifest {
    /// The edition of the language the sources are written in.
    pub edition: i64,
    /// The folders that hold sources.
    pub sources: Vec<SourcePath>,
    /// The folders a `use` path is looked for in, in order, where the file's own folder does not have it.
    pub libraries: Vec<SourcePath>,
    /// The library packages, by name.
    pub packages: Vec<Library>,
    /// The code packs every foundation is held to, beside those its file uses.
    pub codes: Vec<Symbol>,
    /// The currency totals are shown in.
    pub currency: Symbol,
    /// How quantities are shown.
    pub display: DisplayOptions,
    /// The day waivers and prices are judged on. `None`: none is judged to have run out.
    pub today: Option<Date>,
    /// What the compiler's own checks ask for here, over what the packs say, and where that stands.
    pub asks: Vec<(Ask, Span)>,
    pub(crate) code_places: Vec<Span>,
    pub(crate) severities: BTreeMap<String, Override>,
}

impl Default for Manifest {
    fn default() -> Self {
        Manifest {
            edition: EDITION,
            sources: vec![SourcePath::root()],
            libraries: Vec::new(),
            packages: Vec::new(),
            codes: Vec::new(),
            currency: Symbol::new("USD"),
            display: DisplayOptions::new(UnitSystem::Us),
            today: None,
            asks: Vec::new(),
            code_places: Vec::new(),
            severities: BTreeMap::new(),
        }
    }
}

/// The manifest as it stands in the file.
#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Written {
    edition: Option<Spanned<i64>>,
    language: Option<Spanned<String>>,
    sources: Option<Vec<Spanned<String>>>,
    libraries: Option<Vec<Spanned<String>>>,
    codes: Option<Vec<Spanned<String>>>,
    currency: Option<Spanned<String>>,
    units: Option<Spanned<String>>,
    today: Option<Spanned<toml::value::Datetime>>,
    library: BTreeMap<Spanned<String>, WrittenLibrary>,
    severity: BTreeMap<Spanned<String>, Spanned<String>>,
    asks: BTreeMap<Spanned<String>, Spanned<String>>,
}

impl Manifest {
    /// What it makes of findings, by their names.
    pub fn severities(&self) -> impl Iterator<Item = (&str, SeverityChoice)> {
        self.severities.iter().map(|(name, written)| (name.as_str(), written.choice))
    }

    /// Reads a manifest. What cannot be understood is in the findings, and its default stands.
    pub(crate) fn read(file: FileId, text: &str) -> (Manifest, Vec<Finding>) {
        let written = match toml::from_str::<Written>(text) {
            Ok(written) => written,
            Err(error) => {
                let message = error.message().trim().to_owned();
                let place = error.span().unwrap_or(0..0);
                let mut reader = Reader { file, findings: Vec::new() };
                reader.fault(codes::MANIFEST_UNREADABLE, place, "the manifest cannot be read", message);
                return (Manifest::default(), reader.findings);
            }
        };
        let mut reader = Reader { file, findings: Vec::new() };
        (reader.manifest(written), reader.findings)
    }
}

/// Turns what is written into what is meant.
struct Reader {
    file: FileId,
    findings: Vec<Finding>,
}

impl Reader {
    fn span(&self, place: Range<usize>) -> Span {
        Span::new(self.file, place.start as u32, place.end as u32)
    }

    fn fault(&mut self, code: Code, place: Range<usize>, title: &str, label: impl Into<String>) {
        self.findings.push(Finding::new(code, self.span(place), title).label(label));
    }

    fn value(&mut self, place: Range<usize>, title: &str, label: impl Into<String>) {
        self.fault(codes::MANIFEST_VALUE, place, title, label);
    }

    fn manifest(&mut self, written: Written) -> Manifest {
        let mut manifest = Manifest::default();
        if let Some(edition) = written.edition {
            if *edition.get_ref() == EDITION {
                manifest.edition = EDITION;
            } else {
                let label = format!("this compiler reads edition {EDITION}");
                self.value(edition.span(), "no such edition of the language", label);
            }
        }
        if let Some(language) = written.language {
            self.language(&language);
        }
        if let Some(folders) = written.sources {
            manifest.sources = self.folders(folders);
        }
        if let Some(folders) = written.libraries {
            manifest.libraries = self.folders(folders);
        }
        for (name, library) in written.library {
            let place = self.span(name.span());
            match declare(name.get_ref(), &library, place) {
                Ok(library) => manifest.packages.push(library),
                Err(due) => self.value(name.span(), "a library that cannot be had", due),
            }
        }
        for code in written.codes.unwrap_or_default() {
            manifest.code_places.push(self.span(code.span()));
            manifest.codes.push(Symbol::new(code.get_ref()));
        }
        if let Some(currency) = written.currency {
            let name = Symbol::new(currency.get_ref());
            let known = unit_named(name).and_then(|unit| unit.nominal()).is_some_and(|n| n.is_currency());
            if known {
                manifest.currency = name;
            } else {
                self.value(
                    currency.span(),
                    "no such currency",
                    "a currency is named by its three letters, such as USD",
                );
            }
        }
        if let Some(units) = written.units {
            match units.get_ref().as_str() {
                "us" => manifest.display = DisplayOptions::new(UnitSystem::Us),
                "si" => manifest.display = DisplayOptions::new(UnitSystem::Si),
                _ => self.value(units.span(), "no such system of units", "it is `us` or `si`"),
            }
        }
        if let Some(today) = written.today {
            manifest.today = self.day(&today);
        }
        for (name, severity) in written.severity {
            self.severity(&mut manifest, name, &severity);
        }
        for (name, figure) in written.asks {
            manifest.asks.extend(self.ask(&name, &figure));
        }
        manifest
    }

    /// Holds the compiler to the least version of the language that the plans are written in.
    fn language(&mut self, written: &Spanned<String>) {
        let parts = written.get_ref().split_once('.');
        let version = parts.and_then(|(a, b)| Some((a.parse::<u32>().ok()?, b.parse::<u32>().ok()?)));
        let (edition, (major, minor)) = (EDITION, LANGUAGE);
        match version {
            None => self.value(written.span(), "a version of the language is due", "written as \"0.1\""),
            Some(version) if version > LANGUAGE => {
                let label = format!("this compiler reads {major}.{minor} of edition {edition}; take a later one");
                self.value(written.span(), "the plans are written in a later version of the language", label);
            }
            Some(_) => {}
        }
    }

    fn folders(&mut self, written: Vec<Spanned<String>>) -> Vec<SourcePath> {
        let mut folders = Vec::new();
        for folder in written {
            match SourcePath::resolve(&SourcePath::root(), folder.get_ref()) {
                Some(path) => folders.push(path),
                None => self.value(folder.span(), "a folder outside the repository", "nothing outside is ever read"),
            }
        }
        folders
    }

    fn day(&mut self, written: &Spanned<toml::value::Datetime>) -> Option<Date> {
        let value = written.get_ref();
        let day = match (value.date, value.time, value.offset) {
            (Some(d), None, None) => Date::new(d.year as i16, d.month as i8, d.day as i8).ok(),
            _ => None,
        };
        if day.is_none() {
            self.value(written.span(), "a day is due", "written as 2026-03-14, without a time");
        }
        day
    }

    fn ask(&mut self, name: &Spanned<String>, figure: &Spanned<String>) -> Option<(Ask, Span)> {
        let need = Need::of_name(name.get_ref());
        if need.is_none() && name.get_ref() != VAPOR_LIMIT {
            let known = Need::ALL.into_iter().filter(|n| Need::of_name(n.name()).is_some()).map(Need::name);
            let label = match wythe_sema::closest(name.get_ref(), known.chain([VAPOR_LIMIT])) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "the lengths that may be asked for are listed in chapter 7 of the reference".to_owned(),
            };
            self.value(name.span(), "nothing of this name is asked for", label);
            return None;
        }
        let quantity = quantity(figure.get_ref());
        let ask = match need {
            Some(need) => quantity.and_then(|q| Length::try_from(q).ok()).map(|length| Ask::Length(need, length)),
            None => quantity.and_then(|q| Permeance::try_from(q).ok()).map(Ask::VaporLimit),
        };
        let Some(ask) = ask.filter(Ask::is_possible) else {
            let due = if need.is_some() { "a length, such as \"6 in\" or \"150 mm\"" } else { "such as \"0.1 perm\"" };
            self.value(figure.span(), "no such figure can be asked for", due);
            return None;
        };
        Some((ask, self.span(figure.span())))
    }

    fn severity(&mut self, manifest: &mut Manifest, name: Spanned<String>, written: &Spanned<String>) {
        let choice = match written.get_ref().as_str() {
            "error" => SeverityChoice::Is(Severity::Error),
            "warning" => SeverityChoice::Is(Severity::Warning),
            "information" => SeverityChoice::Is(Severity::Information),
            "off" => SeverityChoice::Off,
            _ => {
                let due = "it is `error`, `warning`, `information` or `off`";
                return self.value(written.span(), "no such severity", due);
            }
        };
        let place = name.span();
        let (key, fixed) = match find_page(name.get_ref()) {
            Some(page) => (page.name.to_owned(), is_fixed(page.area) && page.severity == Severity::Error),
            None => (name.into_inner(), false),
        };
        if fixed && choice != SeverityChoice::Is(Severity::Error) {
            let label = "the file means nothing certain while it stands";
            return self.fault(codes::SEVERITY_FIXED, place, &format!("`{key}` is always an error"), label);
        }
        let place = self.span(place);
        manifest.severities.insert(key, Override { choice, place });
    }
}

/// A figure with its unit, as the language writes them: `3' 4-1/2"`, `6 in`, `150 mm`, `0.1 perm`.
fn quantity(text: &str) -> Option<Quantity> {
    let text = text.trim();
    if text.contains(['\'', '"']) {
        return parse_length_marks(text).ok();
    }
    let (figure, unit) = text.rsplit_once(' ')?;
    let unit = unit_named(Symbol::new(unit.trim()))?;
    let figure = Quantity::number(Scalar::parse(figure.trim()).ok()?);
    figure.checked_mul(Quantity::new(unit.factor_scalar(), unit.dim)).ok()
}

/// Whether faults of an area leave the meaning of a file in doubt, so that they cannot be made lighter.
pub(crate) fn is_fixed(area: &str) -> bool {
    matches!(area, "syntax" | "names" | "types" | "project")
}

#[cfg(test)]
mod tests {
    use wythe_findings::Severity;
    use wythe_source::FileId;

    use super::{Ask, Manifest, SeverityChoice};

    fn read(text: &str) -> (Manifest, Vec<String>) {
        let (manifest, findings) = Manifest::read(FileId(0), text);
        let shown = findings.iter().map(|f| format!("{}: {}: {}", f.name, f.primary.span.text(text), f.title));
        (manifest, shown.collect())
    }

    #[test]
    fn all_that_may_be_said_is_understood() {
        let (manifest, findings) = read(
            "edition = 2026\nlanguage = \"0.1\"\nsources = [\"houses\", \"./library\"]\nlibraries = [\"library\"]\n\
             codes = [\"good_practice\"]\ncurrency = \"EUR\"\nunits = \"si\"\ntoday = 2026-03-14\n\
             [severity]\nliner_lap = \"warning\"\nuncapped_edge = \"off\"\n\
             [asks]\nvapor_lap = \"12 in\"\nbare_band = '4-1/2\"'\nheat_depth = \"600 mm\"\nvapor_limit = \"0.05 perm\"\n\
             [library.stock]\npath = \"../stock\"\n[library.rules]\ngit = \"https://a.example/r\"\nrevision = \"v1\"\n",
        );
        let names: Vec<&str> = manifest.packages.iter().map(|library| library.name.as_str()).collect();
        assert_eq!(names, ["rules", "stock"]);
        assert_eq!(findings, [""; 0]);
        assert_eq!(format!("{:?}", manifest.sources), r#"["houses", "library"]"#);
        assert_eq!(manifest.currency.as_str(), "EUR");
        assert_eq!(manifest.today.map(|d| d.to_string()).as_deref(), Some("2026-03-14"));
        assert_eq!(manifest.severities["liner_lap"].choice, SeverityChoice::Is(Severity::Warning));
        assert_eq!(manifest.severities["uncapped_edge"].choice, SeverityChoice::Off);
        let meters = manifest.asks.iter().map(|(ask, _)| match ask {
            Ask::Length(need, length) => (need.name(), format!("{:.5}", length.value)),
            Ask::VaporLimit(limit) => ("vapor_limit", format!("{:.3e}", limit.value)),
        });
        let due = [
            ("bare_band", "0.11430"),
            ("heat_depth", "0.60000"),
            ("vapor_lap", "0.30480"),
            ("vapor_limit", "2.861e-12"),
        ];
        assert_eq!(meters.collect::<Vec<_>>(), due.map(|(name, figure)| (name, figure.to_owned())));
    }

    #[test]
    fn each_fault_is_found_at_its_place() {
        let (_, findings) = read(
            "edition = 1999\nsources = [\"../far\"]\ncurrency = \"shells\"\nunits = \"cubits\"\n\
             today = 2026-03-14T08:00:00\nlanguage = \"9.0\"\n[library.Big]\npath = \"x\"\n[library.two]\npath = \"x\"\ngit = \"y\"\n\
             [library.sly]\ngit = \"ext::sh\"\nrevision = \"v1\"\n[severity]\na = \"grave\"\nunknown_name = \"off\"\n\
             [asks]\nvapor_lapp = \"6 in\"\nwater_lap = \"2 perm\"\nheat_joint = \"-1 in\"\n",
        );
        let mut expected = vec![
            "W0281: 1999: no such edition of the language",
            "W0281: \"9.0\": the plans are written in a later version of the language",
            "W0281: Big: a library that cannot be had",
            "W0281: two: a library that cannot be had",
            "W0281: sly: a library that cannot be had",
            "W0281: \"../far\": a folder outside the repository",
            "W0281: \"shells\": no such currency",
            "W0281: \"cubits\": no such system of units",
            "W0281: 2026-03-14T08:00:00: a day is due",
            "W0281: \"grave\": no such severity",
            "W0281: vapor_lapp: nothing of this name is asked for",
            "W0281: \"2 perm\": no such figure can be asked for",
            "W0281: \"-1 in\": no such figure can be asked for",
            "W0282: unknown_name: `unknown_name` is always an error",
        ];
        expected.sort_unstable();
        let mut findings = findings;
        findings.sort_unstable();
        assert_eq!(findings, expected);
    }

    #[test]
    fn an_unknown_key_and_broken_toml_are_placed() {
        assert_eq!(read("source = []\n").1, ["W0280: source: the manifest cannot be read"]);
        assert_eq!(read("units = \n").1.len(), 1);
    }
}
