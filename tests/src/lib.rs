//! Whole-program tests of Wythe.
