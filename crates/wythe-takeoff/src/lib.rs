//! Quantities, nesting of sheets and rolls, purchase units, cost and labour.
