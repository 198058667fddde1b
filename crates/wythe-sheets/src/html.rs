//! A page as one HTML file: no script, nothing from outside, for Letter and A4 paper, in black on white.

use std::fmt::Write as _;

use wythe_render::drawing::{Theme, to_svg};

use crate::page::{Block, Page, Size};

/// Text as it stands in HTML.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in clean(text).chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c => out.push(c),
        }
    }
    out
}

/// Without control signs and without marks that turn the direction of what stands round them.
pub(crate) fn clean(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}');
    text.chars().filter(|c| !turns(*c)).map(|c| if c.is_control() { ' ' } else { c }).collect()
}

const STYLE: &str = "\
@page{margin:12mm}
*{box-sizing:border-box}
body{font-family:Arial,Helvetica,'Liberation Sans','DejaVu Sans',sans-serif;color:#000;background:#fff;line-height:1.22;margin:0 auto;max-width:186mm;overflow-wrap:break-word}\n.long{overflow-wrap:anywhere}\n.short{white-space:nowrap}
h1{font-size:1.6em;margin:0 0 .1em}
h2{font-size:1.15em;margin:.55em 0 .2em;border-bottom:.5mm solid #000;break-after:avoid}
p{margin:.25em 0}
.house{font-size:1.05em;margin:0 0 .5em}
.warning{border:.8mm solid #000;padding:.35em .6em;margin:.5em 0;break-inside:avoid}
.warning p{font-weight:bold;margin:.1em 0}
.care{border:.8mm solid #000;padding:.3em .6em;margin:.4em 0;break-inside:avoid;font-size:.85em}
.care p:first-child{font-weight:bold}
.care p{margin:.1em 0}
ol,ul{margin:.25em 0;padding-left:1.8em}
li{margin:.1em 0;break-inside:avoid}
ul.checks{list-style:none;padding-left:0}
ul.checks li{padding-left:1.7em;position:relative}
ul.checks li::before{content:'';position:absolute;left:.15em;top:.15em;width:.95em;height:.95em;border:.4mm solid #000}
table{border-collapse:collapse;width:100%;margin:.35em 0}
thead{display:table-header-group}
tr{break-inside:avoid}
th,td{border:.25mm solid #000;padding:.2em .4em;text-align:left;vertical-align:top}
th{border-bottom-width:.6mm}
dl{display:grid;grid-template-columns:minmax(30%,max-content) 1fr;gap:.1em 1em;margin:.35em 0}
dt{font-weight:bold}dd{margin:0}
figure{margin:.5em 0;break-inside:avoid;text-align:center}
figure svg{max-width:100%;width:auto;height:auto;max-height:52mm}
.at{display:grid;grid-template-columns:32mm 1fr;gap:0 2mm}
.at>strong{padding:.1em 0}
.at ol,.at ul{margin:0}
.sign{display:flex;flex-wrap:wrap;gap:1em 2em;margin:1.6em 0 .4em;break-inside:avoid}
.sign div{flex:1 1 55mm;border-top:.3mm solid #000;padding-top:.15em;font-size:.85em;margin-top:1.2em}
.break{break-after:page}
footer{border-top:.3mm solid #000;margin-top:1em;padding-top:.3em;font-size:.75em}
.label{border:1mm solid #000;padding:5mm;max-width:186mm;max-height:125mm}
@media screen{body{padding:8mm;max-width:210mm}}";

/// The page as a file.
pub fn html(page: &Page) -> String {
    let mut out = String::with_capacity(16 * 1024);
    let points = points(page);
    let (title, house) = (escape(&page.title), escape(&page.house));
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>{title}: {house}</title>\n<style>\n{STYLE}\n\
         body{{font-size:{points}pt}}\n</style>\n</head>\n<body>\n",
        page.language.tag(),
    );
    let class = if page.size == Size::Label { " class=\"label\"" } else { "" };
    let _ = write!(out, "<main{class}>\n<h1>{title}</h1>\n<p class=\"house\">{house}</p>\n");
    for block in &page.blocks {
        write_block(&mut out, block);
    }
    if !page.foot.is_empty() {
        let _ = writeln!(out, "</main>\n<footer>{}</footer>", escape(&page.foot));
    } else {
        out.push_str("</main>\n");
    }
    out.push_str("</body>\n</html>\n");
    out
}

/// The mark of a cell that stays on one line, or with a word that no column is wide enough for: it may be broken
/// anywhere.
fn long(cell: &str) -> &'static str {
    if cell.split(' ').any(|word| word.chars().count() > 24) {
        " class=\"long\""
    } else if cell.chars().count() <= 14 {
        " class=\"short\""
    } else {
        ""
    }
}

fn write_block(out: &mut String, block: &Block) {
    let items = |out: &mut String, all: &[String]| {
        for item in all {
            let _ = writeln!(out, "<li>{}</li>", escape(item));
        }
    };
    match block {
        Block::Heading(text) => {
            let _ = writeln!(out, "<h2>{}</h2>", escape(text));
        }
        Block::Text(text) => {
            let _ = writeln!(out, "<p>{}</p>", escape(text));
        }
        Block::Warning(lines) => {
            out.push_str("<div class=\"warning\" role=\"note\">\n");
            for line in lines {
                let _ = writeln!(out, "<p>{}</p>", escape(line));
            }
            out.push_str("</div>\n");
        }
        Block::Care(lines) => {
            out.push_str("<div class=\"care\" role=\"note\">\n");
            for line in lines {
                let _ = writeln!(out, "<p>{}</p>", escape(line));
            }
            out.push_str("</div>\n");
        }
        Block::Steps(at, first, all) => {
            let _ = writeln!(out, "<div class=\"at\"><strong>{}</strong>\n<ol start=\"{first}\">", escape(at));
            items(out, all);
            out.push_str("</ol></div>\n");
        }
        Block::ChecksAt(at, all) => {
            let _ = writeln!(out, "<div class=\"at\"><strong>{}</strong>\n<ul class=\"checks\">", escape(at));
            items(out, all);
            out.push_str("</ul></div>\n");
        }
        Block::Checks(all) => {
            out.push_str("<ul class=\"checks\">\n");
            items(out, all);
            out.push_str("</ul>\n");
        }
        Block::Table(heads, rows) => {
            out.push_str("<table>\n<thead><tr>");
            for head in heads {
                let _ = write!(out, "<th scope=\"col\">{}</th>", escape(head));
            }
            out.push_str("</tr></thead>\n<tbody>\n");
            for row in rows {
                out.push_str("<tr>");
                for cell in row {
                    let _ = write!(out, "<td{}>{}</td>", long(cell), escape(cell));
                }
                out.push_str("</tr>\n");
            }
            out.push_str("</tbody>\n</table>\n");
        }
        Block::Facts(all) => {
            out.push_str("<dl>\n");
            for (name, value) in all {
                let _ = writeln!(out, "<dt{}>{}</dt><dd>{}</dd>", long(name), escape(name), escape(value));
            }
            out.push_str("</dl>\n");
        }
        Block::Drawing(drawing) => {
            let _ = writeln!(out, "<figure>\n{}\n</figure>", to_svg(drawing, Theme::Print));
        }
        Block::SignOff(all) => {
            out.push_str("<div class=\"sign\">\n");
            for what in all {
                let _ = writeln!(out, "<div>{}</div>", escape(what));
            }
            out.push_str("</div>\n");
        }
        Block::NewPage => out.push_str("<div class=\"break\"></div>\n"),
    }
}

/// Points of the type: the largest at which the page should fit its pages, by counting lines. Letter paper is the
/// shorter of the two, A4 the narrower: the smaller room of both is counted with.
fn points(page: &Page) -> f64 {
    let steps: &[f64] = match page.size {
        Size::Large => &[16.0, 15.0, 14.0, 13.0, 12.0, 11.5, 11.0, 10.5, 10.0],
        Size::Normal => &[11.0, 10.5, 10.0, 9.5, 9.0],
        Size::Label => &[20.0, 18.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0, 10.0, 9.0, 8.0],
    };
    let least = steps.last().copied().unwrap_or(10.0);
    steps.iter().copied().find(|points| fits(page, *points)).unwrap_or(least)
}

/// Whether a page fits its pages at a size of type.
fn fits(page: &Page, points: f64) -> bool {
    // Millimeters: 279.4 less margins on Letter, 210 less margins on A4; some is kept back for what cannot be split.
    let (tall, wide) = if page.size == Size::Label { (116.0, 174.0) } else { (246.0, 186.0) };
    let line = points * 0.3528 * 1.22;
    // Letters on a line, at half the size each on average.
    let letters = wide / (points * 0.3528 * 0.52);
    let lines = |text: &str, share: f64| {
        (unicode_width::UnicodeWidthStr::width(text) as f64 / (letters * share)).ceil().max(1.0)
    };
    let mut pages: Vec<f64> = vec![line * 3.4];
    for block in &page.blocks {
        let height = match block {
            Block::NewPage => {
                pages.push(0.0);
                continue;
            }
            Block::Heading(text) => line * (lines(text, 0.85) * 1.15 + 1.0),
            Block::Text(text) => line * (lines(text, 1.0) + 0.4),
            Block::Warning(all) => line * (all.iter().map(|t| lines(t, 0.88) + 0.12).sum::<f64>() + 1.1),
            Block::Care(all) => line * 0.85 * (all.iter().map(|t| lines(t, 1.12) + 0.2).sum::<f64>() + 1.2),
            Block::Checks(all) => line * (all.iter().map(|t| lines(t, 0.93) + 0.2).sum::<f64>() + 0.4),
            Block::Steps(at, _, all) | Block::ChecksAt(at, all) => {
                let place = lines(at, 0.15) + 0.2;
                line * all.iter().map(|t| lines(t, 0.75) + 0.2).sum::<f64>().max(place)
            }
            Block::Table(heads, rows) => {
                let count = heads.len().max(1);
                // Columns share the width by their longest words and texts, as a browser does it.
                let longest: Vec<f64> = (0..count)
                    .map(|c| {
                        rows.iter()
                            .chain([heads])
                            .filter_map(|r| r.get(c))
                            .map(|t| t.chars().count())
                            .max()
                            .unwrap_or(1) as f64
                            + 2.0
                    })
                    .collect();
                let all: f64 = longest.iter().sum();
                let of_row = |row: &Vec<String>| {
                    let most =
                        row.iter().zip(&longest).map(|(t, l)| lines(t, (l / all).max(0.06) * 0.9)).fold(1.0, f64::max);
                    line * (most + 0.45)
                };
                of_row(heads) + rows.iter().map(of_row).sum::<f64>() + line * 0.7
            }
            Block::Facts(all) => {
                line * all.iter().map(|(n, v)| lines(n, 0.32).max(lines(v, 0.6)) + 0.1).sum::<f64>() + line * 0.7
            }
            Block::Drawing(d) => d.height.min(52.0).min(d.height * wide / d.width.max(1.0)) + line,
            Block::SignOff(all) => line * 2.8 * (all.len() as f64 / 3.0).ceil(),
        };
        if let Some(last) = pages.last_mut() {
            *last += height;
        }
    }
    if let (Some(last), false) = (pages.last_mut(), page.foot.is_empty()) {
        *last += line * 2.0;
    }
    pages.iter().map(|h| (h / tall).ceil()).sum::<f64>() <= page.pages as f64
}
