//! Whatever the text: no panic, no lost byte, places on character boundaries, a formatter that keeps it all,
//! and time in step with length.

use std::time::{Duration, Instant};

use proptest::prelude::*;
use wythe_source::{FileId, Span};
use wythe_syntax::keywords::WORDS;
use wythe_syntax::{Parsed, decode, format, parse, parse_prelude};

fn check(text: &str) {
    let parsed = parse(FileId(0), text);
    whole(text, &parsed);
    places(text, &parsed);
    parse_prelude(FileId(0), text);
    let once = format(text);
    assert_eq!(words(text, &parsed), words(&once, &parse(FileId(0), &once)), "{text:?} became {once:?}");
    assert_eq!(format(&once), once, "not stable for {text:?}");
}

/// Between two tokens or comments stands white space alone.
fn whole(text: &str, parsed: &Parsed) {
    let mut pieces: Vec<(u32, u32)> = parsed.tokens.iter().map(|t| (t.start, t.end)).collect();
    pieces.extend(parsed.comments.iter().map(|c| (c.start, c.end)));
    pieces.sort_unstable();
    let mut at = 0;
    for (start, end) in pieces.into_iter().chain([(text.len() as u32, text.len() as u32)]) {
        let gap = text.get(at as usize..start as usize).unwrap_or_else(|| panic!("pieces overlap at {at} in {text:?}"));
        let gap = if at == 0 { gap.trim_start_matches('\u{feff}') } else { gap };
        assert!(gap.bytes().all(|b| b" \t\r\n".contains(&b)), "{gap:?} is in no token of {text:?}");
        at = end;
    }
}

/// Every place anyone may point at can be cut out of the text.
fn places(text: &str, parsed: &Parsed) {
    let fits = |span: Span| assert!(text.get(span.range()).is_some(), "{span:?} does not fit {text:?}");
    parsed.tokens.iter().for_each(|t| fits(t.span(FileId(0))));
    parsed.module.exprs.iter().for_each(|e| fits(e.span));
    parsed.module.decls.iter().for_each(|d| fits(d.span));
    for finding in &parsed.findings {
        fits(finding.primary.span);
        finding.related.iter().for_each(|l| fits(l.span));
        finding.fixes.iter().flat_map(|f| &f.edits).for_each(|e| fits(e.span));
        assert!(finding.mend.is_some(), "{} says no way to mend it", finding.title);
    }
}

fn words(text: &str, parsed: &Parsed) -> Vec<String> {
    let tokens = parsed.tokens.iter().map(|t| t.text(text)).filter(|t| *t != ";");
    let mut words: Vec<String> = tokens.map(|t| t.split_whitespace().collect()).collect();
    words.extend(parsed.comments.iter().map(|c| c.text(text).to_owned()));
    words.sort();
    words
}

/// A piece of a text that is nearly a program.
fn piece() -> impl Strategy<Value = String> {
    let word = prop::sample::select(WORDS.iter().map(|w| w.text.to_owned()).collect::<Vec<_>>());
    let sign = prop::sample::select(
        "{ } ( ) [ ] , : ; . .. = == != < <= > >= + - +- * / ? ?? -> \" ' \\ ° °F % @ é 😀 \u{a0} ½ ’ “ ” // ///"
            .split(' ')
            .map(str::to_owned)
            .collect::<Vec<_>>(),
    );
    let figure = prop::sample::select(
        "3' 3'4\" 3' 4-1/2\"|3' 4|3'-4\"|4 1/2\"|3 ft 4 in|4-1/2|3/8|12|0.5|1_0|2x8|16\"x16\"|R-10|U-0.06|2026-03-09|2026-3-9|3 in"
            .split('|')
            .map(str::to_owned)
            .collect::<Vec<_>>(),
    );
    let text = prop::sample::select(vec!["\"a\"", "\"a {", "} b\"", "} b {", "\"\\q\"", "\"{a}\"", "\"{3\"} b\""])
        .prop_map(str::to_owned);
    let name = prop::sample::select(vec!["gap", "Board", "a1", "X", "_"]).prop_map(str::to_owned);
    let space = prop::sample::select(vec![" ", "\n", "\n\n", "\r\n", "\t", "\n    ", "", "\r", "// c\n", "/// d\n"])
        .prop_map(str::to_owned);
    let opening = prop::sample::select(vec![
        "\nfoundation f on s {\n    ",
        "\nphase p { ",
        "\nlet a = ",
        "\nbuildup b(a: Length) for wall {\n inside {\n ",
        "\nrule r {\n require ",
        "\ntest \"t\" {\n expect ",
        "\nfn f(a: D) -> D = ",
        "\nrecord R {\n a: ",
        "\nuse \"a\": b, ",
    ])
    .prop_map(str::to_owned);
    prop_oneof![3 => word, 4 => sign, 2 => figure, 1 => text, 3 => name, 5 => space, 2 => opening]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn any_characters(text in any::<String>()) {
        check(&text);
    }

    #[test]
    fn nearly_a_program(pieces in prop::collection::vec(piece(), 0..60)) {
        check(&pieces.join(" "));
    }

    #[test]
    fn nearly_a_program_without_spaces(pieces in prop::collection::vec(piece(), 0..60)) {
        check(&pieces.concat());
    }

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        if let Ok(text) = decode(FileId(0), &bytes) {
            check(text);
        }
    }
}

#[test]
fn texts_that_failed_once_stay_well() {
    for text in [
        "",
        "\n",
        "\u{feff}",
        "\"",
        "\"{",
        "\"{\n",
        "\"{a\r\n",
        "}",
        ";",
        ";;\n;",
        "pub",
        "pub pub",
        "let",
        "use",
        "/",
        "'",
        "\\",
        "3'",
        "let a = \"{\"",
        "phase a { b: \"{c }",
        "//",
        "///\nlet a = 1 ///",
        "let a = (\n\n)",
        "record",
        "fn f(",
        "enum E {",
        "let a = 1 };{",
    ] {
        check(text);
    }
}

/// The best of three, so that a busy machine does not count.
fn time(text: &str) -> Duration {
    (0..3)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(format(text));
            start.elapsed()
        })
        .min()
        .unwrap_or_default()
}

#[test]
fn time_grows_with_length_and_no_faster() {
    let good = include_str!("good/unit_4.wythe").split_once("\n\n").map_or("", |(_, body)| body);
    let bad = include_str!("faults/unexpected_token.wythe");
    let cases: [(&str, &dyn Fn(usize) -> String); 11] = [
        ("good declarations", &|n| good.repeat(n / 20)),
        ("faulty declarations", &|n| bad.repeat(n / 20)),
        ("a long sum", &|n| format!("let a = {}1", "1 + ".repeat(n))),
        ("a long list", &|n| format!("let a = [{}1]", "1, ".repeat(n))),
        ("a long list with a fault at its end", &|n| format!("let a = [{}]", "1, ".repeat(n))),
        ("open brackets", &|n| format!("let a = {}", "(".repeat(n))),
        ("open braces", &|n| "phase p { a {".repeat(n)),
        ("closing braces", &|n| "}".repeat(n)),
        ("faulty lines", &|n| format!("phase p {{\n{}}}", "a b\n".repeat(n))),
        ("faulty lines in nested blocks", &|n| {
            format!("phase p {{{}{}}}", "a { ".repeat(40), "b } junk\n".repeat(40)).repeat(n / 40)
        }),
        ("open texts", &|n| "let a = \"{b\n".repeat(n)),
    ];
    for (name, make) in cases {
        let (short, long) = (make(1000), make(8000));
        let (short, long) = (time(&short), time(&long));
        let limit = short * 8 * 4 + Duration::from_millis(50);
        assert!(long < limit, "{name}: {short:?} for one, {long:?} for eight times as much");
    }
}
