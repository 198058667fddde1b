//! x
mod bars;
mod guillotine;
mod knapsack;
mod master;
