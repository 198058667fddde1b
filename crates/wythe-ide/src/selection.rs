//! Growing selections: from the word to the expression, the line, the block, the declaration, the file.

use wythe_project::Project;
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{Block, Item};
use wythe_syntax::tokens;

/// The spans around an offset, smallest first.
pub fn selection(project: &Project, file: FileId, offset: u32) -> Vec<Span> {
    let text = project.text(file);
    let mut out = vec![Span::new(file, 0, text.len() as u32)];
    let around = |span: Span| span.touches(offset);
    if let Some(parsed) = project.parsed(file) {
        out.extend(parsed.module.uses.iter().map(|u| u.span).filter(|s| around(*s)));
        out.extend(parsed.module.exprs.iter().map(|e| e.span).filter(|s| around(*s)));
        for decl in &parsed.module.decls {
            if around(decl.span) {
                out.push(decl.span);
                if let Some(block) = decl.kind.block() {
                    blocks(block, offset, &mut out);
                }
            }
        }
    }
    let word = tokens(file, text).tokens.iter().map(|t| t.span(file)).find(|s| around(*s));
    out.extend(word);
    out.sort_by_key(|s| (s.end - s.start, s.start));
    out.dedup();
    // Each must lie in the next; what does not is passed over.
    let mut nested: Vec<Span> = Vec::new();
    for span in out {
        if nested.last().is_none_or(|inner| span.holds(*inner)) {
            nested.push(span);
        }
    }
    nested
}

fn blocks(block: &Block, offset: u32, out: &mut Vec<Span>) {
    if !block.span.touches(offset) {
        return;
    }
    out.push(block.span);
    for item in &block.items {
        match item {
            Item::Section { name, block } => {
                if name.span.to(block.span).touches(offset) {
                    out.push(name.span.to(block.span));
                }
                blocks(block, offset, out);
            }
            Item::Statement(statement) if statement.span.touches(offset) => {
                out.push(statement.span);
                if let Some(block) = statement.kind.block() {
                    blocks(block, offset, out);
                }
            }
            Item::Property { .. } | Item::Statement(_) => {}
        }
    }
}
