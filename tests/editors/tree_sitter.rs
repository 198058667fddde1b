//! The tree-sitter grammar against the compiler's own parser, over every example: the same declarations, items of
//! blocks, layers and expressions at the same places.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use ::tree_sitter::{Node, Parser, Query};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{Block, DeclKind, ExprKind, Item, Module, StatementKind};
use wythe_syntax::keywords::Keyword;

use crate::client::root;

/// A thing of a tree: what it is and where it stands.
type Thing = (&'static str, u32, u32);

fn parser() -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_wythe::LANGUAGE.into()).unwrap();
    parser
}

fn sources(folder: &Path, out: &mut Vec<(String, String)>) {
    let mut entries: Vec<_> = fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|e| e == "wythe") {
            out.push((path.display().to_string(), fs::read_to_string(&path).unwrap_or_default()));
        }
    }
}

/// The texts both parsers must read alike: every source in the tree that the compiler reads without a fault of syntax.
fn corpus() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for folder in ["examples", "crates/wythe-project/codes", "crates/wythe-syntax/tests", "tests/hand"] {
        let folder = root().join(folder);
        if folder.is_dir() {
            sources(&folder, &mut all);
        }
    }
    all.retain(|(_, text)| !text.is_empty() && wythe_syntax::parse(FileId(0), text).findings.is_empty());
    all
}

/// What the compiler's tree holds.
fn of_compiler(module: &Module) -> BTreeSet<Thing> {
    let mut out = BTreeSet::new();
    let mut add = |what, span: Span| {
        out.insert((what, span.start, span.end));
    };
    for used in &module.uses {
        add("use", used.span);
    }
    for decl in &module.decls {
        if !matches!(decl.kind, DeclKind::Test { .. } | DeclKind::Waiver { .. } | DeclKind::Amend { .. }) {
            add("name", decl.name.span);
        }
        if let DeclKind::Buildup { params, .. } = &decl.kind {
            params.iter().for_each(|p| add("parameter", p.name.span));
        }
        if let DeclKind::Fn(f) = &decl.kind {
            f.params.iter().for_each(|p| add("parameter", p.name.span));
        }
        if let Some(block) = decl.kind.block() {
            items(block, &mut add);
        }
    }
    for expr in &module.exprs {
        let what = match expr.kind {
            ExprKind::Number { .. } => "number",
            ExprKind::Length => "length",
            ExprKind::RValue => "thermal",
            ExprKind::Date => "date",
            ExprKind::Lumber => "lumber",
            ExprKind::Binary { .. } => "binary",
            ExprKind::Call { .. } => "call",
            ExprKind::Field { .. } => "member",
            ExprKind::If { .. } => "if",
            ExprKind::List(_) | ExprKind::Comprehension { .. } => "list",
            ExprKind::Shown { .. } => "shown",
            ExprKind::Text(_) => "text",
            _ => continue,
        };
        add(what, expr.span);
    }
    out
}

fn items(block: &Block, add: &mut impl FnMut(&'static str, Span)) {
    for item in &block.items {
        match item {
            Item::Property { name, .. } => add("property", name.span),
            Item::Section { name, block } => {
                add("section", name.span);
                items(block, add);
            }
            Item::Statement(statement) => match &statement.kind {
                StatementKind::Layer(layer) => {
                    add("layer", layer.object.span);
                    layer
                        .clauses
                        .iter()
                        .for_each(|c| add("clause", Span::new(c.span.file, c.span.start, c.span.start)));
                }
                StatementKind::During { phase, block } => {
                    add("during", phase.span);
                    items(block, add);
                }
                StatementKind::Wall { name, block, .. } => {
                    add("part", name.span);
                    block.iter().for_each(|b| items(b, add));
                }
                StatementKind::Opening { name, block, .. }
                | StatementKind::Piers { name, block }
                | StatementKind::Pier { name, block, .. }
                | StatementKind::Pad { name, block, .. } => {
                    add("part", name.span);
                    items(block, add);
                }
                StatementKind::Beam { name, block, .. } => {
                    add("part", name.span);
                    block.iter().for_each(|b| items(b, add));
                }
                StatementKind::Step { block, .. } | StatementKind::Entry { block, .. } => items(block, add),
                _ => {}
            },
        }
    }
}

/// What the tree of the grammar holds.
fn of_grammar(node: Node<'_>, out: &mut BTreeSet<Thing>) {
    let (start, end) = (node.start_byte() as u32, node.end_byte() as u32);
    let name = |field: &str| node.child_by_field_name(field).map(|n| (n.start_byte() as u32, n.end_byte() as u32));
    let mut named = |what, field: &str| {
        if let Some((start, end)) = name(field) {
            out.insert((what, start, end));
        }
    };
    match node.kind() {
        kind if kind.ends_with("_declaration") => named("name", "name"),
        "parameter" => named("parameter", "name"),
        "property" => named("property", "name"),
        "section" => named("section", "name"),
        "layer" => named("layer", "object"),
        "during" => named("during", "phase"),
        "wall" | "opening" | "piers" | "pier" | "pad" | "beam" if node.is_named() => named("part", "name"),
        "as_clause" | "extent" | "place" | "with_clause" | "measure_clause" => {
            out.insert(("clause", start, start));
        }
        "use" if node.is_named() => {
            out.insert(("use", start, end));
        }
        "if" if node.is_named() => {
            out.insert(("if", start, end));
        }
        "number" => drop(out.insert(("number", start, end))),
        "length" => drop(out.insert(("length", start, end))),
        "thermal" => drop(out.insert(("thermal", start, end))),
        "date" if node.parent().is_none_or(|p| p.kind() != "entry") => drop(out.insert(("date", start, end))),
        "lumber" => drop(out.insert(("lumber", start, end))),
        "binary" => drop(out.insert(("binary", start, end))),
        "call" => drop(out.insert(("call", start, end))),
        "member" => drop(out.insert(("member", start, end))),
        "list" => drop(out.insert(("list", start, end))),
        "shown" => drop(out.insert(("shown", start, end))),
        "text" if node.parent().is_none_or(|p| p.kind() != "use") => drop(out.insert(("text", start, end))),
        _ => {}
    }
    let mut walk = node.walk();
    for child in node.children(&mut walk) {
        of_grammar(child, out);
    }
}

fn faults(node: Node<'_>, out: &mut Vec<String>) {
    if node.is_error() || node.is_missing() {
        out.push(node.to_string().chars().take(120).collect::<String>() + &format!(" at {}", node.start_position()));
    }
    let mut walk = node.walk();
    for child in node.children(&mut walk) {
        faults(child, out);
    }
}

#[test]
fn the_grammar_reads_what_the_compiler_reads() {
    let corpus = corpus();
    assert!(corpus.len() > 60, "{} texts", corpus.len());
    let mut parser = parser();
    let mut things = 0;
    for (name, text) in &corpus {
        let tree = parser.parse(text, None).unwrap();
        let mut wrong = Vec::new();
        faults(tree.root_node(), &mut wrong);
        assert!(wrong.is_empty(), "{name}: {wrong:#?}");
        let compiled = of_compiler(&wythe_syntax::parse(FileId(0), text).module);
        // An entry's day is an expression to the compiler and a word of the line to the grammar.
        let compiled: BTreeSet<Thing> = compiled.into_iter().filter(|(what, ..)| *what != "date").collect();
        let mut grammar = BTreeSet::new();
        of_grammar(tree.root_node(), &mut grammar);
        grammar.retain(|(what, ..)| *what != "date");
        let shown = |set: &BTreeSet<Thing>, other: &BTreeSet<Thing>| -> Vec<String> {
            let only = set.difference(other).take(8);
            only.map(|(what, s, e)| format!("{what} `{}` at {s}", &text[*s as usize..*e as usize])).collect()
        };
        assert!(
            compiled == grammar,
            "{name}\nonly the compiler: {:#?}\nonly the grammar: {:#?}",
            shown(&compiled, &grammar),
            shown(&grammar, &compiled)
        );
        things += compiled.len();
    }
    assert!(things > 2_000, "{things} things compared");
}

#[test]
fn queries_fit_the_grammar_and_words_are_those_of_the_table() {
    let language = tree_sitter_wythe::LANGUAGE.into();
    for query in [
        tree_sitter_wythe::HIGHLIGHTS,
        tree_sitter_wythe::FOLDS,
        tree_sitter_wythe::INDENTS,
        tree_sitter_wythe::TEXT_OBJECTS,
    ] {
        Query::new(&language, query).unwrap();
    }
    let grammar = fs::read_to_string(root().join("editors/tree-sitter-wythe/grammar.js")).unwrap();
    let scanner = fs::read_to_string(root().join("editors/tree-sitter-wythe/src/scanner.c")).unwrap();
    for keyword in Keyword::ALL {
        let word = format!("\"{}\"", keyword.text());
        assert!(grammar.contains(&word), "the grammar has no {word}");
        assert_eq!(scanner.contains(&word), keyword.continues(), "{word} in the scanner");
    }
}

/// The parser behind editors must take any text.
#[test]
fn broken_texts_are_read_to_their_end() {
    let mut parser = parser();
    for (_, text) in corpus().iter().take(20) {
        for cut in (0..text.len()).step_by(97).filter(|c| text.is_char_boundary(*c)) {
            let tree = parser.parse(&text[..cut], None).unwrap();
            assert_eq!(tree.root_node().end_byte().max(cut), cut);
        }
    }
}
