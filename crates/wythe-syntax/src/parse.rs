//! From a text to a module: lexer, layout and parser, one declaration at a time.

use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span};

use crate::ast::{ExprKind, Ident, Module};
use crate::collector::Collector;
use crate::layout::{Chunk, Cut, Layout};
use crate::lexer::{Lexed, lex};
use crate::limits::{MAX_EXPR_DEPTH, MAX_FILE_BYTES};
use crate::parser::{ChunkResult, Reading, Source, depths, lost_name, read_chunk};
use crate::token::{Comment, Token};

/// A file, read as far as it can be.
#[derive(Clone, Debug, Default)]
pub struct Parsed {
    /// The syntax tree. A declaration that cannot be read is not in it; a line that cannot be read is left out.
    pub module: Module,
    /// What is wrong, by place.
    pub findings: Vec<Finding>,
    /// Every token. What stands between two tokens is white space or a comment.
    pub tokens: Vec<Token>,
    /// Every comment.
    pub comments: Vec<Comment>,
    /// The declarations and `use` lines as ranges of tokens.
    pub chunks: Vec<Chunk>,
    /// The names of declarations that could not be read, so that uses of them need not be reported again.
    pub lost: Vec<Ident>,
}

/// Reads a file. Never fails: what cannot be read is in the findings.
pub fn parse(file: FileId, text: &str) -> Parsed {
    read(file, text, false)
}

/// Reads a file of the prelude, where functions of the language itself have no body.
pub fn parse_prelude(file: FileId, text: &str) -> Parsed {
    read(file, text, true)
}

/// The text of a file, or the finding that says why it is none: too large, or not UTF-8.
pub fn decode(file: FileId, bytes: &[u8]) -> Result<&str, Box<Finding>> {
    if bytes.len() > MAX_FILE_BYTES {
        return Err(Box::new(too_large(file, bytes.len())));
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to() as u32;
        let line = bytes.get(..at as usize).unwrap_or(&[]).iter().filter(|&&b| b == b'\n').count() + 1;
        let byte = bytes.get(at as usize).copied().unwrap_or(0);
        let finding = Finding::new(codes::NOT_TEXT, Span::new(file, at, at), "the file is not UTF-8 text")
            .label(format!("byte {at} on line {line} is 0x{byte:02X}, which no UTF-8 text holds there"))
            .mend("save the file as UTF-8; a picture, a table or an archive does not belong here");
        Box::new(finding)
    })
}

fn too_large(file: FileId, bytes: usize) -> Finding {
    Finding::new(codes::FILE_TOO_LARGE, Span::new(file, 0, 0), "the file is too large to be read")
        .label(format!("{bytes} bytes; {MAX_FILE_BYTES} are the limit"))
        .mend("part it into several files and join them with `use`")
}

fn read(file: FileId, text: &str, prelude: bool) -> Parsed {
    if text.len() > MAX_FILE_BYTES {
        let module = Module { file, ..Module::default() };
        return Parsed { module, findings: vec![too_large(file, text.len())], ..Parsed::default() };
    }
    let mut findings = Collector::new(file);
    let Lexed { tokens, comments } = lex(text, &mut findings);
    let mut parsed = Parsed { module: Module { file, ..Module::default() }, ..Parsed::default() };
    let source = Source { file, text, comments: &comments, prelude };
    let mut layout = Layout::new(text, &tokens, &comments);
    let mut buffer = Vec::new();
    while let Some(cut) = layout.next_chunk(&mut buffer, &mut findings) {
        let before = (findings.len(), parsed.module.exprs.len());
        let result = if cut.too_deep {
            ChunkResult { reading: None, lost: lost_name(source, &buffer) }
        } else {
            read_chunk(source, &buffer, &cut, &mut parsed.module, &mut findings)
        };
        if cut.longest > MAX_EXPR_DEPTH {
            flatten(&mut parsed.module, before.1, &mut findings);
        }
        let broken = result.reading.is_none() || findings.len() > before.0;
        keep(&mut parsed, result, &cut, broken, &mut findings);
    }
    parsed.findings = findings.finish();
    mark_broken(&mut parsed.chunks, &tokens, &parsed.findings);
    parsed.tokens = tokens;
    parsed.comments = comments;
    parsed
}

fn keep(parsed: &mut Parsed, result: ChunkResult, cut: &Cut, broken: bool, findings: &mut Collector) {
    parsed.chunks.push(Chunk { first: cut.first, end: cut.end, broken });
    parsed.lost.extend(result.lost);
    match result.reading {
        Some(Reading::Use(line)) => {
            if let Some(first) = parsed.module.decls.first() {
                let (span, first) = (line.span, first.name.span);
                findings.add(span.start, || {
                    Finding::new(codes::USE_AFTER_DECLARATION, span, "`use` lines come first")
                        .label("a declaration stands before it")
                        .related(first, "declared here")
                        .mend("move the line to the head of the file")
                });
            }
            parsed.module.uses.push(line);
        }
        Some(Reading::Decl(decl)) => parsed.module.decls.push(*decl),
        None => {}
    }
}

/// Cuts off expressions that hang too deep for the passes that recur over them.
fn flatten(module: &mut Module, from: usize, findings: &mut Collector) {
    let depths = depths(&module.exprs, from);
    for (expr, depth) in module.exprs.iter_mut().skip(from).zip(depths) {
        if depth < MAX_EXPR_DEPTH {
            continue;
        }
        if depth == MAX_EXPR_DEPTH {
            let span = expr.span;
            findings.add(span.start, || {
                Finding::new(codes::EXPRESSION_TOO_LONG, span, "the expression is too long")
                    .label(format!("more than {MAX_EXPR_DEPTH} operations hang on one another"))
                    .mend("give parts of it names with `let`, or use `sum` over a list")
            });
        }
        expr.kind = ExprKind::Broken;
    }
}

/// A chunk is broken too if the lexer or the layout pass found fault with one of its tokens.
fn mark_broken(chunks: &mut [Chunk], tokens: &[Token], findings: &[Finding]) {
    if findings.is_empty() {
        return;
    }
    for chunk in chunks.iter_mut().filter(|c| !c.broken) {
        let start = tokens.get(chunk.first as usize).map_or(0, |t| t.start);
        let end = tokens.get((chunk.end as usize).saturating_sub(1)).map_or(start, |t| t.end);
        let first = findings.partition_point(|f| f.primary.span.end < start);
        chunk.broken = findings
            .iter()
            .skip(first)
            .take_while(|f| f.primary.span.start <= end)
            .any(|f| f.primary.span.start >= start);
    }
}

/// The tokens and comments of a text alone, as an editor needs them while a line is typed.
pub fn tokens(file: FileId, text: &str) -> Lexed {
    if text.len() > MAX_FILE_BYTES {
        return Lexed::default();
    }
    lex(text, &mut Collector::new(file))
}

/// What the grammar sees of a text: its declarations as tokens, with [`Kind::End`](crate::Kind::End) where a
/// statement ends and without line ends that mean nothing.
#[derive(Clone, Debug, Default)]
pub struct LaidOut {
    /// The tokens of each declaration or `use` line.
    pub chunks: Vec<Vec<Token>>,
    /// What the lexer and the layout pass found wrong.
    pub findings: Vec<Finding>,
}

/// Cuts a text into declarations without reading any of them.
pub fn lay_out(file: FileId, text: &str) -> LaidOut {
    let mut findings = Collector::new(file);
    let Lexed { tokens, comments } =
        if text.len() > MAX_FILE_BYTES { Lexed::default() } else { lex(text, &mut findings) };
    let mut layout = Layout::new(text, &tokens, &comments);
    let mut chunks = Vec::new();
    let mut buffer = Vec::new();
    while layout.next_chunk(&mut buffer, &mut findings).is_some() {
        chunks.push(buffer.clone());
    }
    LaidOut { chunks, findings: findings.finish() }
}
