// The grammar of Wythe for editors that color and fold by trees. It takes what the compiler takes, and a little more:
// which words may stand in which block is left to the compiler.
//
// A line end closes a statement, except inside round and square brackets, after a comma or an operator between two
// operands, and before a line that goes on with the one before; `src/scanner.c` tells them apart.

const PREC = { IF: 1, OR: 2, AND: 3, NOT: 4, COMPARE: 5, RANGE: 6, PLUS_MINUS: 7, DEFAULT: 8, SIZE: 9, SUM: 10, TERM: 11, UNARY: 12, POST: 13 };

const commaSep1 = (rule) => seq(rule, repeat(seq(",", rule)));

module.exports = grammar({
  name: "wythe",

  externals: ($) => [$._line_end, $._never],

  extras: ($) => [/\s/, $.comment, $.doc_comment],

  word: ($) => $.identifier,

  supertypes: ($) => [$._declaration, $._statement, $._expression],

  rules: {
    source_file: ($) =>
      seq(
        repeat($._end),
        optional(seq($._top, repeat(seq(repeat1($._end), $._top)), repeat($._end))),
      ),

    _top: ($) => choice($.use, $._declaration),
    _end: ($) => choice(";", $._line_end),

    comment: (_) => token(seq("//", /[^\n]*/)),
    doc_comment: (_) => token(prec(1, seq("///", /[^\n]*/))),

    use: ($) =>
      seq(
        "use",
        choice(
          seq("code", field("pack", $.identifier)),
          seq(field("path", $.text), optional(seq(":", commaSep1($.import)))),
        ),
      ),
    import: ($) => seq(field("name", $._name), optional(seq("as", field("alias", $._name)))),

    _name: ($) => choice($.identifier, $.type_identifier),

    // Declarations

    _declaration: ($) =>
      choice(
        $.let_declaration, $.fn_declaration, $.unit_declaration, $.record_declaration, $.enum_declaration,
        $.product_declaration, $.buildup_declaration, $.joint_declaration, $.phase_declaration, $.site_declaration,
        $.foundation_declaration, $.rule_declaration, $.amend_declaration, $.waiver_declaration,
        $.prices_declaration, $.rates_declaration, $.log_declaration, $.test_declaration,
      ),
    _pub: (_) => "pub",

    let_declaration: ($) => seq(optional($._pub), $._let),
    _let: ($) =>
      seq("let", field("name", $.identifier), optional(seq(":", field("type", $._type))), "=", field("value", $._value)),

    fn_declaration: ($) =>
      seq(
        optional($._pub), "fn", field("name", $.identifier),
        optional(seq("[", commaSep1($.type_identifier), "]")),
        field("parameters", $.parameters),
        "->", field("result", $._type),
        field("body", choice(seq("=", $._value), $.fn_block)),
      ),
    fn_block: ($) =>
      seq("{", repeat($._end), repeat(seq($.let_statement, repeat1($._end))), "give", $._value, repeat($._end), "}"),

    unit_declaration: ($) => seq(optional($._pub), "unit", field("name", $._name), optional(seq("=", $._expression))),

    record_declaration: ($) =>
      seq(
        optional($._pub), "record", field("name", $.type_identifier),
        "{", repeat($._end), optional(seq($.field, repeat(seq(repeat1($._end), $.field)), repeat($._end))), "}",
      ),
    field: ($) => seq(field("name", $.identifier), ":", field("type", $._type), optional(seq("=", $._expression))),

    enum_declaration: ($) =>
      seq(
        optional($._pub), "enum", field("name", $.type_identifier), optional("ordered"),
        "{", repeat($._end), commaSep1(field("member", $.identifier)), repeat($._end), "}",
      ),

    product_declaration: ($) =>
      seq(optional($._pub), "product", field("name", $.identifier), ":", field("class", $.type_identifier), $.block),

    buildup_declaration: ($) =>
      seq(
        optional($._pub), "buildup", field("name", $.identifier), optional(field("parameters", $.parameters)),
        "for", field("kind", choice($.identifier, "wall", "pier", "opening")), $.block,
      ),

    joint_declaration: ($) =>
      seq(
        optional($._pub), "joint", field("name", $.identifier),
        "between", $.face, "and", $.face, $.block,
      ),
    face: ($) => seq(choice($.identifier, "wall", "pier", "opening"), ".", $.identifier),

    phase_declaration: ($) => seq(optional($._pub), "phase", field("name", $.identifier), $.block),
    site_declaration: ($) => seq(optional($._pub), "site", field("name", $.identifier), $.block),
    foundation_declaration: ($) =>
      seq(optional($._pub), "foundation", field("name", $.identifier), "on", field("site", $.identifier), $.block),
    rule_declaration: ($) => seq(optional($._pub), "rule", field("name", $.identifier), $.block),
    amend_declaration: ($) => seq(optional($._pub), "amend", field("rule", $.path), $.block),
    waiver_declaration: ($) =>
      seq(
        optional($._pub), "waiver", "of", field("rule", $.path), "in", field("within", $.identifier),
        optional(seq("for", commaSep1(field("element", $.identifier)))), $.block,
      ),
    prices_declaration: ($) => seq(optional($._pub), "prices", field("name", $.identifier), $.block),
    rates_declaration: ($) => seq(optional($._pub), "rates", field("name", $.identifier), $.block),
    log_declaration: ($) => seq(optional($._pub), "log", field("name", $.identifier), $.block),
    test_declaration: ($) => seq(optional($._pub), "test", field("title", $.text), $.block),

    parameters: ($) => seq("(", optional(commaSep1($.parameter)), ")"),
    parameter: ($) =>
      seq(
        field("name", $.identifier), ":", field("type", $._type),
        optional(seq("=", field("default", $._expression))),
        optional(seq("where", field("contract", $._expression))),
      ),

    _type: ($) => choice($.optional_type, $._plain_type),
    optional_type: ($) => seq($._plain_type, "?"),
    _plain_type: ($) => choice($.type_identifier, $.generic_type, $.list_type),
    generic_type: ($) => seq($.type_identifier, "[", $._type, "]"),
    list_type: ($) => seq("[", $._type, "]"),

    path: ($) => prec.left(seq($._name, repeat(seq(".", choice($._name, "wall", "pier", "opening"))))),

    // Blocks

    block: ($) =>
      seq("{", repeat($._end), optional(seq($._item, repeat(seq(repeat1($._end), $._item)), repeat($._end))), "}"),
    _item: ($) => choice($.property, $.section, $._statement),
    property: ($) => seq(field("name", $.identifier), ":", field("value", $._value)),
    section: ($) => seq(field("name", $.identifier), $.block),

    _statement: ($) =>
      choice(
        $.let_statement, $.layer, $.during, $.wall, $.step, $.opening, $.piers, $.pier, $.pad, $.beam, $.for_each,
        $.require, $.otherwise, $.rate, $.waste, $.entry, $.expect,
      ),

    let_statement: ($) => $._let,

    layer: ($) => seq(field("verb", $.verb), field("object", $.identifier), repeat($._clause)),
    verb: (_) => choice("coat", "drain", "fill", "lay", "hang", "set", "fasten", "cap", "tape", "seal", "lap", "remove"),
    _clause: ($) => choice($.as_clause, $.extent, $.place, $.with_clause, $.measure_clause),
    as_clause: ($) => seq("as", field("name", $.identifier)),
    extent: ($) => seq("from", field("from", $._expression), "to", field("to", $._expression)),
    place: ($) => seq(choice("along", "over", "under", "into"), $.edge),
    with_clause: ($) => seq("with", field("fastener", $.identifier)),
    measure_clause: ($) => seq(choice("every", "by", "bead"), $._expression),
    edge: ($) =>
      prec.right(seq(
        field("what", $.identifier), optional(field("what", $.identifier)),
        optional(seq("of", field("of", $.identifier))), optional(seq("to", field("to", $.identifier))),
      )),

    during: ($) => seq("during", field("phase", $.identifier), $.block),
    wall: ($) =>
      seq("wall", field("name", $.identifier), "runs", field("direction", $.identifier), field("length", $._expression), optional($.block)),
    step: ($) => seq("step", "at", field("at", $._expression), $.block),
    opening: ($) => seq("opening", field("name", $.identifier), "in", field("wall", $.identifier), "at", field("at", $._expression), $.block),
    piers: ($) => seq("piers", field("name", $.identifier), $.block),
    pier: ($) => seq("pier", field("name", $.identifier), "at", field("at", $._expression), $.block),
    pad: ($) => seq("pad", field("name", $.identifier), "at", field("at", $._expression), $.block),
    beam: ($) =>
      seq("beam", field("name", $.identifier), "from", field("from", $._expression), "to", field("to", $._expression), optional($.block)),
    for_each: ($) =>
      seq("for", "each", field("name", $.identifier), "in", field("list", $._expression), optional(seq("where", field("condition", $._expression)))),
    require: ($) => seq("require", $._expression),
    otherwise: ($) => seq("otherwise", $._expression),
    rate: ($) => seq("rate", $.verb, $._expression, optional(seq("for", $.type_identifier))),
    waste: ($) => seq("waste", $.type_identifier, $._expression),
    entry: ($) => seq("entry", $.date, $.block),
    expect: ($) =>
      seq(
        "expect",
        choice(
          seq(optional("no"), "finding", optional(field("finding", $.path)), optional(seq("in", field("within", $.path)))),
          seq($._expression, optional(seq("within", $._expression))),
        ),
      ),

    // Expressions

    _expression: ($) =>
      choice(
        $.if, $.binary, $.not, $.negation, $.member, $.call, $.subscript, $.number, $.length, $.thermal,
        $.date, $.lumber, $.text, $.identifier, $.type_identifier, $.site, $.boolean, $.none, $.tuple, $.list,
      ),

    if: ($) => prec.right(PREC.IF, seq("if", $._expression, "then", $._expression, "else", $._expression)),

    binary: ($) =>
      choice(
        ...[
          [PREC.OR, "or"], [PREC.AND, "and"],
          [PREC.COMPARE, "=="], [PREC.COMPARE, "!="], [PREC.COMPARE, "<"], [PREC.COMPARE, "<="], [PREC.COMPARE, ">"], [PREC.COMPARE, ">="],
          [PREC.RANGE, ".."], [PREC.PLUS_MINUS, "+-"], [PREC.DEFAULT, "??"], [PREC.SIZE, "x"],
          [PREC.SUM, "+"], [PREC.SUM, "-"], [PREC.TERM, "*"], [PREC.TERM, "/"],
        ].map(([precedence, operator]) =>
          prec.left(precedence, seq(field("left", $._expression), field("operator", operator), field("right", $._expression))),
        ),
      ),
    not: ($) => prec(PREC.NOT, seq("not", $._expression)),
    negation: ($) => prec(PREC.UNARY, seq("-", $._expression)),
    // A value may say the unit it is to be shown in; what is worked with may not.
    _value: ($) => choice($._expression, $.shown),
    shown: ($) => seq(field("value", $._expression), "as", field("unit", $.unit)),

    member: ($) => prec(PREC.POST, seq(field("of", $._expression), ".", field("name", choice($._name, "wall", "pier", "opening")))),
    call: ($) => prec(PREC.POST, seq(field("callee", $._expression), field("arguments", $.arguments))),
    arguments: ($) => seq("(", optional(commaSep1($.argument)), ")"),
    argument: ($) => seq(optional(seq(field("name", $.identifier), ":")), field("value", $._value)),
    subscript: ($) => prec(PREC.POST, seq(field("of", $._expression), "[", $._expression, "]")),

    number: ($) => prec.right(seq(field("figure", $.figure), optional(field("unit", $.unit)))),
    figure: (_) => token(/[0-9][0-9_]*(\.[0-9]+)?(-[0-9]+\/[0-9]+|\/[0-9]+)?/),
    unit: ($) =>
      prec.right(choice(
        seq(repeat1($._unit_name), optional(seq("per", repeat1($._unit_name)))),
        seq("per", repeat1($._unit_name)),
      )),
    _unit_name: ($) => choice(alias($._name, $.unit_name), alias("in", $.unit_name), alias($._unit_sign, $.unit_name)),
    _unit_sign: (_) => token(choice("°F", "°C", "%")),

    length: (_) =>
      token(prec(2, choice(
        /[0-9][0-9_]*(\.[0-9]+)?'([ ]*[0-9]+(\.[0-9]+)?(-[0-9]+\/[0-9]+|\/[0-9]+)?")?/,
        /[0-9][0-9_]*(\.[0-9]+)?(-[0-9]+\/[0-9]+|\/[0-9]+)?"/,
      ))),
    thermal: (_) => token(prec(2, /(RSI|R|U)-[0-9]+(\.[0-9]+)?/)),
    date: (_) => token(prec(3, /[0-9]{4}-[0-9]{2}-[0-9]{2}/)),
    lumber: (_) => token(prec(3, /[0-9]+x[0-9]+/)),

    text: ($) => seq('"', repeat(choice($.text_content, $.escape, $.interpolation)), token.immediate('"')),
    text_content: (_) => token.immediate(prec(1, /[^"\\{}\n]+/)),
    escape: (_) => token.immediate(/\\./),
    interpolation: ($) => seq(token.immediate("{"), $._value, "}"),

    site: (_) => "site",
    boolean: (_) => choice("true", "false"),
    none: (_) => "none",
    tuple: ($) => seq("(", commaSep1($._value), ")"),
    list: ($) =>
      seq(
        "[",
        optional(seq(
          commaSep1($._value),
          optional(seq("for", "each", field("name", $.identifier), "in", field("list", $._expression), optional(seq("where", field("condition", $._expression))))),
        )),
        "]",
      ),

    identifier: (_) => /[a-z_][a-z0-9_]*/,
    type_identifier: (_) => /[A-Z][A-Za-z0-9]*/,
  },
});
