//! A drawing as SVG 1.1: well-formed, self-contained, with a title and a description for those who cannot see it.
//!
//! One user unit is one millimeter on paper and the file says its own width and height, so that it prints, and is
//! imported, true to its scale. Every style is an attribute of its own: no style sheet, script or outside file.

use std::collections::BTreeMap;
use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};

use super::scene::{Anchor, Drawing, Form, Group, Ink, Item, Pen, Shape, Spot, Text};
use super::text::{FAMILY, clean};
use super::theme::{Theme, dashes};

/// The drawing as an SVG file.
pub fn to_svg(drawing: &Drawing, theme: Theme) -> String {
    let mut out = Out { writer: Writer::new(Vec::with_capacity(64 * 1024)), theme, ids: BTreeMap::new() };
    out.drawing(drawing).expect("writing to memory does not fail");
    String::from_utf8(out.writer.into_inner()).expect("only text was written")
}

struct Out {
    writer: Writer<Vec<u8>>,
    theme: Theme,
    ids: BTreeMap<String, u32>,
}

impl Out {
    fn drawing(&mut self, drawing: &Drawing) -> io::Result<()> {
        let id = self.id(&drawing.id);
        let (title, description) = (self.id(&format!("{id}-title")), self.id(&format!("{id}-description")));
        let mut svg = BytesStart::new("svg");
        svg.push_attribute(("xmlns", "http://www.w3.org/2000/svg"));
        svg.push_attribute(("id", id.as_str()));
        svg.push_attribute(("width", format!("{}mm", number(drawing.width)).as_str()));
        svg.push_attribute(("height", format!("{}mm", number(drawing.height)).as_str()));
        let view = format!("0 0 {} {}", number(drawing.width), number(drawing.height));
        svg.push_attribute(("viewBox", view.as_str()));
        svg.push_attribute(("role", "img"));
        svg.push_attribute(("aria-labelledby", title.as_str()));
        svg.push_attribute(("aria-describedby", description.as_str()));
        svg.push_attribute(("font-family", FAMILY));
        svg.push_attribute(("stroke-linecap", "round"));
        svg.push_attribute(("stroke-linejoin", "round"));
        svg.push_attribute(("fill", "none"));
        if let Some(scale) = drawing.scale {
            svg.push_attribute(("data-scale", scale.to_string().as_str()));
        }
        self.open(svg)?;
        self.words("title", Some(&title), &drawing.title)?;
        self.words("desc", Some(&description), &drawing.description)?;
        let mut sheet = BytesStart::new("rect");
        sheet.push_attribute(("width", number(drawing.width).as_str()));
        sheet.push_attribute(("height", number(drawing.height).as_str()));
        sheet.push_attribute(("fill", self.theme.color(Ink::Paper)));
        self.empty(sheet)?;
        for group in &drawing.groups {
            self.group(&id, group)?;
        }
        self.close("svg")
    }

    fn group(&mut self, prefix: &str, group: &Group) -> io::Result<()> {
        if group.items.is_empty() {
            return Ok(());
        }
        let id = self.id(&format!("{prefix}-{}", group.id));
        let mut g = BytesStart::new("g");
        g.push_attribute(("id", id.as_str()));
        g.push_attribute(("data-role", group.role.word()));
        if let Some(origin) = group.origin {
            let place = format!("{}:{}-{}", origin.file.0, origin.start, origin.end);
            g.push_attribute(("data-origin", place.as_str()));
        }
        self.open(g)?;
        if let Some(title) = &group.title {
            self.words("title", None, title)?;
        }
        for item in &group.items {
            match item {
                Item::Group(inner) => self.group(prefix, inner)?,
                Item::Shape(shape) => self.shape(shape)?,
                Item::Text(text) => self.text(text)?,
            }
        }
        self.close("g")
    }

    fn shape(&mut self, shape: &Shape) -> io::Result<()> {
        let mut element = match &shape.form {
            Form::Line(spots) => path(polyline(spots, false)),
            Form::Area(spots) => path(polyline(spots, true)),
            Form::Strokes(strokes) => path(strokes_path(strokes)),
            Form::Circle(center, radius) => {
                let mut circle = BytesStart::new("circle");
                circle.push_attribute(("cx", number(center.x).as_str()));
                circle.push_attribute(("cy", number(center.y).as_str()));
                circle.push_attribute(("r", number(*radius).as_str()));
                circle
            }
        };
        if let Some((color, opacity)) = self.theme.fill(shape.fill) {
            element.push_attribute(("fill", color));
            if opacity < 1.0 {
                element.push_attribute(("fill-opacity", number(opacity).as_str()));
            }
        }
        if let Some(Pen { ink, weight, dash }) = shape.pen {
            element.push_attribute(("stroke", self.theme.color(ink)));
            element.push_attribute(("stroke-width", number(weight.millimeters()).as_str()));
            let dashes: Vec<String> = dashes(dash).iter().map(|d| number(*d)).collect();
            if !dashes.is_empty() {
                element.push_attribute(("stroke-dasharray", dashes.join(" ").as_str()));
                element.push_attribute(("stroke-linecap", "butt"));
            }
        }
        self.empty(element)
    }

    fn text(&mut self, text: &Text) -> io::Result<()> {
        if text.shown.trim().is_empty() {
            return Ok(());
        }
        if text.cleared {
            let frame = text.frame();
            let mut rect = BytesStart::new("rect");
            rect.push_attribute(("x", number(frame.left).as_str()));
            rect.push_attribute(("y", number(frame.top).as_str()));
            rect.push_attribute(("width", number(frame.right - frame.left).as_str()));
            rect.push_attribute(("height", number(frame.bottom - frame.top).as_str()));
            rect.push_attribute(("fill", self.theme.color(Ink::Paper)));
            self.empty(rect)?;
        }
        let mut element = BytesStart::new("text");
        element.push_attribute(("x", number(text.at.x).as_str()));
        element.push_attribute(("y", number(text.at.y).as_str()));
        element.push_attribute(("font-size", number(text.size).as_str()));
        element.push_attribute(("fill", self.theme.color(text.ink)));
        if text.bold {
            element.push_attribute(("font-weight", "bold"));
        }
        match text.anchor {
            Anchor::Start => {}
            Anchor::Middle => element.push_attribute(("text-anchor", "middle")),
            Anchor::End => element.push_attribute(("text-anchor", "end")),
        }
        if text.turned {
            let turn = format!("rotate(-90 {} {})", number(text.at.x), number(text.at.y));
            element.push_attribute(("transform", turn.as_str()));
        }
        self.open(element)?;
        if let Some(whole) = &text.whole {
            self.words("title", None, whole)?;
        }
        self.writer.write_event(Event::Text(BytesText::new(&legal(&text.shown))))?;
        self.close("text")
    }

    fn words(&mut self, element: &str, id: Option<&str>, text: &str) -> io::Result<()> {
        let mut start = BytesStart::new(element);
        if let Some(id) = id {
            start.push_attribute(("id", id));
        }
        self.open(start)?;
        self.writer.write_event(Event::Text(BytesText::new(&clean(text))))?;
        self.close(element)
    }

    /// An id no other part of the file has, of letters, digits and hyphens.
    fn id(&mut self, wanted: &str) -> String {
        let mut id: String =
            wanted.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect();
        if !id.starts_with(|c: char| c.is_ascii_alphabetic()) {
            id.insert(0, 'd');
        }
        let seen = self.ids.entry(id.clone()).or_insert(0);
        *seen += 1;
        if *seen == 1 {
            return id;
        }
        // Three hyphens are in no id that is asked for, unless a name is made for mischief; then count on.
        let numbered = format!("{id}---{seen}");
        if self.ids.contains_key(&numbered) {
            self.id(&numbered)
        } else {
            self.ids.insert(numbered.clone(), 1);
            numbered
        }
    }

    fn open(&mut self, start: BytesStart) -> io::Result<()> {
        self.writer.write_event(Event::Start(start))
    }

    fn empty(&mut self, start: BytesStart) -> io::Result<()> {
        self.writer.write_event(Event::Empty(start))?;
        self.writer.write_event(Event::Text(BytesText::from_escaped("\n")))
    }

    fn close(&mut self, name: &str) -> io::Result<()> {
        self.writer.write_event(Event::End(BytesEnd::new(name)))?;
        self.writer.write_event(Event::Text(BytesText::from_escaped("\n")))
    }
}

/// Without the signs XML 1.0 has no way to write (section 2.2, production Char).
fn legal(text: &str) -> String {
    text.chars().filter(|c| !(c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}'))).collect()
}

fn path(d: String) -> BytesStart<'static> {
    let mut path = BytesStart::new("path");
    path.push_attribute(("d", d.as_str()));
    path
}

fn polyline(spots: &[Spot], closed: bool) -> String {
    let mut d = String::with_capacity(spots.len() * 12);
    for (i, s) in spots.iter().enumerate() {
        push_spot(&mut d, if i == 0 { 'M' } else { 'L' }, *s);
    }
    if closed && !d.is_empty() {
        d.push('Z');
    }
    d
}

/// To a hundredth of a millimeter, without trailing noughts; what is no number is nought.
fn number(value: f64) -> String {
    let mut out = String::new();
    push_number(&mut out, value);
    out
}

/// The same, written at the end of a text: a drawing holds some ten thousand numbers.
fn push_number(out: &mut String, value: f64) {
    let value = if value.is_finite() { value.clamp(-1.0e9, 1.0e9) } else { 0.0 };
    let hundredths = (value * 100.0).round() as i64;
    if hundredths < 0 {
        out.push('-');
    }
    let (mut whole, part) = (hundredths.unsigned_abs() / 100, (hundredths.unsigned_abs() % 100) as u8);
    let mut digits = [0_u8; 20];
    let mut at = digits.len();
    loop {
        at -= 1;
        digits[at] = (whole % 10) as u8;
        whole /= 10;
        if whole == 0 {
            break;
        }
    }
    out.extend(digits[at..].iter().map(|d| char::from(b'0' + d)));
    if part > 0 {
        out.push('.');
        out.push(char::from(b'0' + part / 10));
        if part % 10 > 0 {
            out.push(char::from(b'0' + part % 10));
        }
    }
}

/// A command of a path with its spot.
fn push_spot(out: &mut String, command: char, at: Spot) {
    out.push(command);
    push_number(out, at.x);
    out.push(' ');
    push_number(out, at.y);
}

/// Strokes as one path; a stroke that goes on where the last one ended needs no new start.
fn strokes_path(strokes: &[(Spot, Spot)]) -> String {
    let mut d = String::with_capacity(strokes.len() * 20);
    let mut last = None;
    for (a, b) in strokes {
        if last != Some(*a) {
            push_spot(&mut d, 'M', *a);
        }
        push_spot(&mut d, 'L', *b);
        last = Some(*b);
    }
    d
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn numbers_are_short_and_never_nonsense() {
        let all: Vec<String> = [0.0, -0.001, 1.0, 2.5, -0.05, 10.126, f64::NAN, f64::INFINITY].map(number).to_vec();
        assert_eq!(all, ["0", "0", "1", "2.5", "-0.05", "10.13", "0", "0"]);
    }
}
