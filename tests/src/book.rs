//! The book: the chapters of `spec/` and a page for each code, as HTML that needs no server and no network.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::{fs, io};

use pulldown_cmark::{CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html};

/// The look of every page: one column, readable on a phone and on paper.
const STYLE: &str = "body{max-width:46rem;margin:2rem auto;padding:0 1rem;font:16px/1.5 sans-serif;color:#222;background:#fff}\
pre{overflow-x:auto;background:#f4f4f1;padding:.7rem}code{font-size:.92em}table{border-collapse:collapse}\
td,th{border:1px solid #ccc;padding:.2rem .5rem;text-align:left;vertical-align:top}nav{margin-bottom:1.5rem}\
a{color:#0b5394}@media(prefers-color-scheme:dark){body{color:#ddd;background:#181818}pre{background:#242424}\
a{color:#8ab4f8}td,th{border-color:#555}}";

/// The pages of the book by file name, each a whole HTML document.
///
/// # Errors
/// Where a chapter cannot be read.
pub fn pages(root: &Path) -> io::Result<BTreeMap<String, String>> {
    let mut pages = BTreeMap::new();
    for entry in fs::read_dir(root.join("spec"))? {
        let path = entry?.path();
        let Some(name) = path.file_name().and_then(|name| name.to_str()) else { continue };
        if let Some(stem) = name.strip_suffix(".md") {
            let name = if stem == "README" { "index" } else { stem };
            pages.insert(format!("{name}.html"), page(&fs::read_to_string(&path)?));
        } else if name.ends_with(".ebnf") {
            let text = format!("# {name}\n\n```text\n{}\n```\n", fs::read_to_string(&path)?);
            pages.insert(format!("{name}.html"), page(&text));
        }
    }
    let mut codes = "# Every finding of the compiler\n\n| code | name | |\n|---|---|---|\n".to_owned();
    for code in wythe_findings::all_pages() {
        let _ = writeln!(codes, "| [{0}]({0}.html) | `{1}` | {2} |", code.number, code.name, code.title);
        let text = format!(
            "# {} `{}`\n\n{}, since {}: {}\n\n{}\n",
            code.number,
            code.name,
            code.severity.word(),
            code.since,
            code.title,
            code.body
        );
        pages.insert(format!("{}.html", code.number), page(&text));
    }
    pages.insert("codes.html".into(), page(&codes));
    Ok(pages)
}

/// The name by which a heading is linked to.
pub fn anchor(heading: &str) -> String {
    let kept = heading.trim().to_lowercase();
    kept.chars()
        .filter_map(|c| if c == ' ' { Some('-') } else { (c.is_alphanumeric() || c == '-').then_some(c) })
        .collect()
}

/// Where a link of a chapter leads in the book. A chapter becomes its page; elsewhere in the tree there is no page.
fn target(link: &str) -> String {
    let (file, part) = link.split_once('#').map_or((link, ""), |(file, part)| (file, part));
    let file = match file {
        "" => String::new(),
        "README.md" => "index.html".into(),
        file if file.ends_with(".ebnf") => format!("{file}.html"),
        file => file.strip_suffix(".md").map_or_else(|| file.to_owned(), |stem| format!("{stem}.html")),
    };
    if part.is_empty() { file } else { format!("{file}#{part}") }
}

/// One page of Markdown.
fn page(text: &str) -> String {
    let events: Vec<Event<'_>> = Parser::new_ext(text, Options::ENABLE_TABLES).collect();
    let mut title = String::new();
    let mut out = Vec::with_capacity(events.len());
    let mut heading = None;
    for event in events {
        match event {
            Event::Start(Tag::Heading { level, .. }) => heading = Some((level, Vec::new())),
            Event::End(TagEnd::Heading(_)) => {
                let Some((level, inner)) = heading.take() else { continue };
                let said = plain(&inner);
                if level == HeadingLevel::H1 && title.is_empty() {
                    title.clone_from(&said);
                }
                out.push(Event::Html(format!("<{level} id=\"{}\">", anchor(&said)).into()));
                out.extend(inner);
                out.push(Event::Html(format!("</{level}>\n").into()));
            }
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                let dest_url = CowStr::from(target(&dest_url));
                put(Event::Start(Tag::Link { link_type, dest_url, title, id }), &mut heading, &mut out);
            }
            // What a chapter says is shown, and never obeyed.
            Event::Html(text) | Event::InlineHtml(text) => put(Event::Text(text), &mut heading, &mut out),
            other => put(other, &mut heading, &mut out),
        }
    }
    let mut body = String::new();
    html::push_html(&mut body, out.into_iter());
    let title = title.replace('&', "&amp;").replace('<', "&lt;");
    format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>{title}</title>\
         <style>{STYLE}</style></head><body>\n\
         <nav><a href=\"index.html\">contents</a> · <a href=\"codes.html\">findings</a></nav>\n{body}</body></html>\n"
    )
}

fn put<'a>(event: Event<'a>, heading: &mut Option<(HeadingLevel, Vec<Event<'a>>)>, out: &mut Vec<Event<'a>>) {
    match heading {
        Some((_, inner)) => inner.push(event),
        None => out.push(event),
    }
}

/// The words of some events.
fn plain(events: &[Event<'_>]) -> String {
    let words = events.iter().map(|event| match event {
        Event::Text(text) | Event::Code(text) => text.as_ref(),
        _ => "",
    });
    words.collect()
}

#[cfg(test)]
mod tests {
    use super::{anchor, page, target};

    #[test]
    fn links_and_anchors_lead_into_the_book() {
        assert_eq!(target("09-rules.md#93-waivers"), "09-rules.html#93-waivers");
        assert_eq!(target("README.md"), "index.html");
        assert_eq!(anchor("9.3 Waivers, and `allow`"), "93-waivers-and-allow");
        let shown = page("# A <b>\n\nsee [b](c.md)\n");
        assert!(shown.contains("<a href=\"c.html\">b</a>") && shown.contains("id=\"a-b\""), "{shown}");
        assert!(!shown.contains("<b>"), "{shown}");
    }
}
