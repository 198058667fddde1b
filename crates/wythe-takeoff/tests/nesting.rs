//! Nesting checked by properties, by known optima and by hand arithmetic.

mod nesting {
    mod check;
    mod literature;
    mod properties;
    mod trade;
}
