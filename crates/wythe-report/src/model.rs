//! A report as plain blocks, in the order they are read: what a page is written or typeset from.

use serde::Serialize;

/// A report on one foundation.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// The name of the foundation.
    pub house: String,
    /// What holds of the whole: site, zone, units, day.
    pub facts: Vec<Fact>,
    /// What it is made with.
    pub made_by: String,
    /// Its sections.
    pub sections: Vec<Section>,
}

/// A figure or fact with its name.
#[derive(Clone, Debug, PartialEq, Eq, Default, Serialize)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// What it comes to.
    pub value: String,
    /// What to know with it; may be empty.
    pub note: String,
}

impl Fact {
    /// A fact with nothing to add.
    pub fn new(name: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { name: name.into(), value: value.into(), note: String::new() }
    }

    /// The same with something to know.
    #[must_use]
    pub fn note(self, note: impl Into<String>) -> Fact {
        Fact { note: note.into(), ..self }
    }
}

/// A section.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Section {
    /// Names it in links.
    pub id: &'static str,
    /// Its heading.
    pub title: &'static str,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

impl Section {
    /// A section with nothing in it.
    pub fn new(id: &'static str, title: &'static str) -> Section {
        Section { id, title, blocks: Vec::new() }
    }

    /// Adds a paragraph.
    pub fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Text { text: text.into() });
    }

    /// Adds a table, unless it has no rows.
    pub fn grid(&mut self, grid: Grid) {
        if !grid.rows.is_empty() {
            self.blocks.push(Block::Grid { grid });
        }
    }
}

/// A block of a section.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Block {
    /// A paragraph.
    Text {
        /// What it says.
        text: String,
    },
    /// A paragraph nobody may miss.
    Caution {
        /// What it says.
        text: String,
    },
    /// A list.
    List {
        /// Its items.
        items: Vec<String>,
    },
    /// Key figures, side by side.
    Facts {
        /// The figures.
        facts: Vec<Fact>,
    },
    /// A table.
    Grid {
        /// The table.
        grid: Grid,
    },
    /// A drawing.
    Sheet {
        /// The drawing.
        sheet: Sheet,
    },
    /// Plots, two in a row where there is room.
    Plots {
        /// The plots.
        plots: Vec<Plot>,
    },
    /// Findings.
    Found {
        /// The findings.
        found: Vec<Found>,
    },
    /// What is to be seen and signed.
    Checks {
        /// What is to be seen.
        checks: Vec<Check>,
    },
}

/// A table whose units stand in its heads.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Grid {
    /// Its title.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each as long as the columns.
    pub rows: Vec<Vec<String>>,
}

/// A column.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Its head, with the unit of its figures.
    pub head: String,
    /// Whether its fields stand at the right.
    pub right: bool,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheet {
    /// What stands under it; empty where its own title says all.
    pub caption: String,
    /// As SVG, as wide and high as on paper, with its own title and description.
    pub svg: String,
}

/// A plot.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Plot {
    /// What it shows.
    pub title: String,
    /// What is to be seen, for those who cannot see it.
    pub description: String,
    /// As SVG.
    pub svg: String,
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Found {
    /// `error`, `warning` or `information`.
    pub severity: &'static str,
    /// Its code or rule.
    pub name: String,
    /// What is wrong.
    pub title: String,
    /// File and line.
    pub place: String,
    /// Where that can be read, if anywhere.
    pub link: Option<String>,
    /// Why, on site, mend, source: each with its heading.
    pub prose: Vec<(&'static str, String)>,
    /// A drawing in plain characters.
    pub sketch: Option<String>,
    /// Why it is waived, if it is.
    pub waived: Option<Grounds>,
}

/// Why a finding is waived.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Grounds {
    /// Why.
    pub because: String,
    /// Who granted it.
    pub who: String,
    /// The last day it holds; empty for no end.
    pub until: String,
}

/// Something to be seen before work goes on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Check {
    /// The phase, in words.
    pub phase: String,
    /// The day, where there is a schedule.
    pub day: String,
    /// Whether work stops until it has been seen.
    pub hold: bool,
    /// What is to be seen.
    pub what: String,
}
