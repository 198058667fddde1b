(comment) @comment
(doc_comment) @comment.documentation

(text) @string
(escape) @string.escape
(interpolation ["{" "}"] @punctuation.special)

(figure) @number
(length) @number
(thermal) @number
(date) @number
(lumber) @number
(unit_name) @type.builtin
(boolean) @boolean
(none) @constant.builtin
(site) @variable.builtin

(type_identifier) @type
(identifier) @variable

(let_declaration name: (identifier) @constant)
(let_statement name: (identifier) @variable)
(fn_declaration name: (identifier) @function)
(product_declaration name: (identifier) @type.definition)
(buildup_declaration name: (identifier) @function)
(joint_declaration name: (identifier) @function)
(phase_declaration name: (identifier) @label)
(during phase: (identifier) @label)
(site_declaration name: (identifier) @namespace)
(foundation_declaration name: (identifier) @namespace)
(rule_declaration name: (identifier) @function)
(parameter name: (identifier) @variable.parameter)
(argument name: (identifier) @variable.parameter)
(field name: (identifier) @property)
(property name: (identifier) @property)
(section name: (identifier) @property)
(member name: (identifier) @property)
(call callee: (identifier) @function.call)
(call callee: (member name: (identifier) @function.method.call))
(enum_declaration member: (identifier) @constant)

(verb) @keyword.function

[
  "use" "code" "let" "fn" "unit" "record" "enum" "ordered" "product" "buildup" "joint" "phase" "site" "foundation" "rule"
  "amend" "waiver" "prices" "rates" "log" "test" "pub"
] @keyword

[
  "during" "wall" "step" "opening" "piers" "pier" "pad" "beam" "for" "each" "require" "otherwise" "rate" "waste" "entry"
  "expect" "give" "where" "from" "to" "along" "over" "under" "into" "with" "every" "by" "bead" "at" "on" "of" "as"
  "per" "runs" "between" "within" "no" "finding" "if" "then" "else"
] @keyword

["and" "or" "not" "x" "in"] @keyword.operator

["=" "==" "!=" "<" "<=" ">" ">=" "+" "-" "+-" "*" "/" "??" ".." "->" "?"] @operator
["(" ")" "[" "]" "{" "}"] @punctuation.bracket
["," ":" ";" "."] @punctuation.delimiter
