[
  (block)
  (fn_block)
  (record_declaration)
  (enum_declaration)
  (list)
  (arguments)
] @fold
