//! The live drawing: `wythe/drawing` asks for the drawing of what stands under the cursor, as an SVG.
//!
//! A group of the SVG bears `data-origin`, the place of the line it comes from; the answer says where each such
//! line stands, so that a click on a layer leads there, and which of them holds the cursor.

use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{Position, Range, TextDocumentIdentifier};
use wythe_ide::subject::{Subject, subject};
use wythe_render::drawing::{self, Group, Item, PierOptions, PlanOptions, SectionOptions, Theme};
use wythe_source::Span;

use crate::queue::Queue;
use crate::state::{Need, State};

/// What is asked.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct DrawingParams {
    /// The document.
    pub text_document: TextDocumentIdentifier,
    /// The cursor.
    pub position: Position,
    /// Where it is to be seen; light if nothing is said.
    #[serde(default)]
    pub theme: Option<ThemeAsked>,
}

/// Where a drawing is to be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum ThemeAsked {
    /// On a light screen.
    Light,
    /// On a dark screen.
    Dark,
    /// On paper.
    Print,
}

/// The drawing.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Drawing {
    /// What is drawn: the name of a build-up or a foundation.
    pub title: String,
    /// The drawing.
    pub svg: String,
    /// The lines its groups come from.
    pub layers: Vec<DrawnLayer>,
    /// The `data-origin` of the layer under the cursor.
    pub marked: Option<String>,
}

/// A layer of a drawing.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct DrawnLayer {
    /// The `data-origin` of its groups.
    pub origin: String,
    /// Its name.
    pub name: String,
    /// The document its line stands in.
    pub uri: String,
    /// Its line.
    pub range: Range,
}

/// How often a drawing is begun anew because something was typed meanwhile.
const TRIES: usize = 3;

/// The drawing of what stands at a place. It is made beside the state, so that nothing typed waits for it, and of
/// foundations judged as the texts stand; where they go on changing, the client is told to ask again.
pub(crate) async fn draw(queue: &Queue, params: DrawingParams) -> Result<Option<Drawing>> {
    for _ in 0..TRIES {
        queue.judged(params.text_document.uri.clone()).await?;
        let Some(work) = work(queue, &params).await? else { return Ok(None) };
        let drawn = queue.aside(work).await?;
        let wanted = params.clone();
        if let Some(drawing) = queue.ask(Need::Nothing, move |state| drawn.place(state, &wanted)).await? {
            return Ok(Some(drawing));
        }
    }
    Err(Error { code: ErrorCode::ContentModified, message: "the plans go on changing".into(), data: None })
}

/// The work of drawing what stands at a place. A build-up is drawn as a house has it, so that the first house to be
/// judged is waited for.
async fn work(queue: &Queue, params: &DrawingParams) -> Result<Option<impl FnOnce() -> Drawn + Send + use<>>> {
    loop {
        let wanted = params.clone();
        let (work, more) = queue.ask(Need::Words, move |state| (asked(state, &wanted), state.is_at_work())).await?;
        if work.is_some() || !more {
            return Ok(work);
        }
        queue.next_judged().await?;
    }
}

/// What is to be drawn, as work that needs nothing of the state.
fn asked(state: &State, params: &DrawingParams) -> Option<impl FnOnce() -> Drawn + Send + use<>> {
    let at = state.at(&params.text_document.uri, params.position)?;
    let subject = subject(at.project(), at.file, at.offset)?;
    let system = at.project().manifest().display.system;
    let theme = match params.theme {
        Some(ThemeAsked::Dark) => Theme::Dark,
        Some(ThemeAsked::Print) => Theme::Print,
        Some(ThemeAsked::Light) | None => Theme::Light,
    };
    let edits = state.edits();
    Some(move || {
        let drawing = match &subject {
            Subject::Section(f, wall, along) => {
                drawing::section(f, *wall, *along, &SectionOptions { system, ..SectionOptions::default() })
            }
            Subject::Pier(f, pier) => drawing::pier_detail(f, *pier, &PierOptions { system }),
            Subject::Plan(f) => drawing::plan(f, &PlanOptions { system, ..PlanOptions::default() }),
        };
        let mut lines: Vec<(Span, String)> = Vec::new();
        drawing.groups.iter().for_each(|group| drawn(group, &mut lines));
        lines.sort();
        lines.dedup_by_key(|(place, _)| *place);
        Drawn { title: subject.title(), svg: drawing::to_svg(&drawing, theme), lines, edits }
    })
}

/// What has been drawn, and the places its groups come from.
struct Drawn {
    title: String,
    svg: String,
    lines: Vec<(Span, String)>,
    edits: u64,
}

impl Drawn {
    /// The answer, with places as the client counts them; nothing where they are those of texts that are no more.
    fn place(self, state: &State, params: &DrawingParams) -> Option<Drawing> {
        if self.edits != state.edits() {
            return None;
        }
        let at = state.at(&params.text_document.uri, params.position)?;
        let origin = |span: Span| format!("{}:{}-{}", span.file.0, span.start, span.end);
        let cursor = Span::new(at.file, at.offset, at.offset);
        let holding = self.lines.iter().filter(|(place, _)| place.holds(cursor));
        let marked = holding.min_by_key(|(place, _)| place.end - place.start).map(|(place, _)| origin(*place));
        let layers = self.lines.iter().filter_map(|(place, name)| {
            let location = at.places.location(*place)?;
            let uri = location.uri.to_string();
            Some(DrawnLayer { origin: origin(*place), name: name.clone(), uri, range: location.range })
        });
        let layers = layers.collect();
        Some(Drawing { title: self.title, svg: self.svg, layers, marked })
    }
}

/// The places the groups of a drawing come from, each with what the drawing calls it.
fn drawn(group: &Group, out: &mut Vec<(Span, String)>) {
    if let Some(place) = group.origin {
        out.push((place, group.title.clone().unwrap_or_default()));
    }
    for item in &group.items {
        if let Item::Group(inner) = item {
            drawn(inner, out);
        }
    }
}
