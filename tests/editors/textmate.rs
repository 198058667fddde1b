//! The TextMate grammar, made from the table of words. `WYTHE_UPDATE=1` writes it anew.

use std::fs;

use serde_json::{Value, json};
use wythe_syntax::ast::Verb;
use wythe_syntax::keywords::{WORDS, WordClass, words_of};

use crate::client::root;

/// A pattern that fits any of some words.
fn any<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    format!("\\b(?:{})\\b", words.into_iter().collect::<Vec<_>>().join("|"))
}

fn grammar() -> Value {
    let verbs: Vec<&str> = Verb::ALL.iter().map(|v| v.word()).collect();
    let class = |class: WordClass| words_of(class).map(|w| w.text).collect::<Vec<_>>();
    let constants = ["true", "false", "none"];
    let logic = ["and", "or", "not", "if", "then", "else"];
    let declarations: Vec<&str> = class(WordClass::Declaration).into_iter().filter(|w| *w != "pub").collect();
    let statements: Vec<&str> = class(WordClass::Statement).into_iter().filter(|w| !verbs.contains(w)).collect();
    let line: Vec<&str> = class(WordClass::Line)
        .into_iter()
        .filter(|w| !constants.contains(w) && !logic.contains(w) && *w != "x" && *w != "in")
        .collect();
    let prelude: Vec<&str> =
        WORDS.iter().filter(|w| matches!(w.class, WordClass::Prelude | WordClass::Wind)).map(|w| w.text).collect();
    // A figure, and a name or a sign right after it: its unit.
    let figure = "(?<![A-Za-z0-9_])(?:[0-9][0-9_]*(?:\\.[0-9]+)?(?:-[0-9]+/[0-9]+|/[0-9]+)?)";
    let length = "(?<![A-Za-z0-9_])(?:[0-9][0-9_]*(?:\\.[0-9]+)?'(?:\\s*[0-9]+(?:\\.[0-9]+)?(?:-[0-9]+/[0-9]+|/[0-9]+)?\")?|[0-9]+(?:\\.[0-9]+)?(?:-[0-9]+/[0-9]+|/[0-9]+)?\")";
    json!({
        "$schema": "https://raw.githubusercontent.com/martinring/tmlanguage/master/tmlanguage.json",
        "name": "Wythe",
        "scopeName": "source.wythe",
        "fileTypes": ["wythe"],
        "patterns": [
            { "include": "#comment" }, { "include": "#declaration" }, { "include": "#text" }, { "include": "#value" }
        ],
        "repository": {
            "comment": { "patterns": [
                { "name": "comment.line.documentation.wythe", "match": "///.*$" },
                { "name": "comment.line.double-slash.wythe", "match": "//.*$" }
            ] },
            "declaration": { "patterns": [
                {
                    "match": "^\\s*(?:(pub)\\s+)?(fn)\\s+([a-z_][a-z0-9_]*)",
                    "captures": {
                        "1": { "name": "storage.modifier.wythe" }, "2": { "name": "storage.type.wythe" },
                        "3": { "name": "entity.name.function.wythe" }
                    }
                },
                {
                    "match": format!("^\\s*(?:(pub)\\s+)?({})\\s+([A-Za-z_][A-Za-z0-9_]*)", declarations.join("|")),
                    "captures": {
                        "1": { "name": "storage.modifier.wythe" }, "2": { "name": "storage.type.wythe" },
                        "3": { "name": "entity.name.type.wythe" }
                    }
                },
                { "name": "storage.modifier.wythe", "match": "\\bpub\\b" },
                { "name": "storage.type.wythe", "match": any(declarations) }
            ] },
            "text": {
                "name": "string.quoted.double.wythe",
                // Right after a digit of a figure the mark is the inch; the figure takes it first.
                "begin": "\"", "end": "\"|$",
                "beginCaptures": { "0": { "name": "punctuation.definition.string.begin.wythe" } },
                "endCaptures": { "0": { "name": "punctuation.definition.string.end.wythe" } },
                "patterns": [
                    { "name": "constant.character.escape.wythe", "match": "\\\\." },
                    {
                        "name": "meta.embedded.wythe", "begin": "\\{", "end": "\\}|$",
                        "beginCaptures": { "0": { "name": "punctuation.section.embedded.begin.wythe" } },
                        "endCaptures": { "0": { "name": "punctuation.section.embedded.end.wythe" } },
                        "patterns": [{ "include": "#value" }]
                    }
                ]
            },
            "value": { "patterns": [
                { "name": "constant.numeric.date.wythe", "match": "\\b[0-9]{4}-[0-9]{2}-[0-9]{2}\\b" },
                { "name": "constant.numeric.thermal.wythe", "match": "\\b(?:RSI|R|U)-[0-9]+(?:\\.[0-9]+)?" },
                { "name": "constant.numeric.lumber.wythe", "match": "\\b[0-9]+x[0-9]+\\b" },
                { "name": "constant.numeric.length.wythe", "match": length },
                {
                    "match": format!("({figure})\\s+(?!(?:x|{})\\b)([A-Za-z°%][A-Za-z0-9_]*)(?:\\s+(per)\\s+([A-Za-z][A-Za-z0-9_]*))?", line.join("|")),
                    "captures": {
                        "1": { "name": "constant.numeric.wythe" }, "2": { "name": "constant.other.unit.wythe" },
                        "3": { "name": "keyword.operator.wythe" }, "4": { "name": "constant.other.unit.wythe" }
                    }
                },
                { "name": "constant.numeric.wythe", "match": figure },
                { "name": "constant.other.unit.wythe", "match": "°[FC]|%" },
                { "name": "keyword.other.verb.wythe", "match": format!("(?<![.:])\\b(?:{})\\b(?=\\s+[a-z_])", verbs.join("|")) },
                { "name": "variable.other.property.wythe", "match": "\\b[a-z_][a-z0-9_]*(?=\\s*:)" },
                { "name": "keyword.control.wythe", "match": any(statements) },
                { "name": "keyword.operator.logical.wythe", "match": any(logic) },
                { "name": "keyword.operator.wythe", "match": any(line) },
                { "name": "keyword.operator.wythe", "match": "\\b(?:in|x)\\b" },
                { "name": "constant.language.wythe", "match": any(constants) },
                { "name": "support.variable.wythe", "match": any(prelude) },
                { "name": "entity.name.type.wythe", "match": "\\b[A-Z][A-Za-z0-9]*\\b" },
                { "name": "keyword.operator.wythe", "match": "\\+-|==|!=|<=|>=|->|\\.\\.|\\?\\?|[-+*/<>=?]" }
            ] }
        }
    })
}

/// The grammar in the repository is the one of the table. Every editor that colors by it has the same copy.
#[test]
fn the_grammar_is_that_of_the_table_of_words() {
    let made = serde_json::to_string_pretty(&grammar()).unwrap() + "\n";
    for name in ["editors/textmate/wythe.tmLanguage.json", "editors/vscode/wythe.tmLanguage.json"] {
        let path = root().join(name);
        if std::env::var_os("WYTHE_UPDATE").is_some() {
            fs::write(&path, &made).unwrap();
        }
        let stands = fs::read_to_string(&path).unwrap_or_default();
        assert!(stands == made, "{name} is stale: WYTHE_UPDATE=1 cargo test -p wythe-tests --test editors");
    }
}

/// The words other editors are told of are those of the table.
#[test]
fn the_words_of_emacs_are_those_of_the_table() {
    let mode = fs::read_to_string(root().join("editors/emacs/wythe-mode.el")).unwrap();
    let missing: Vec<&str> = WORDS
        .iter()
        .filter(|w| w.class.is_reserved())
        .map(|w| w.text)
        .filter(|w| !mode.contains(&format!("\"{w}\"")))
        .collect();
    assert_eq!(missing, Vec::<&str>::new());
}
