//! Water vapor through layers: [`permeance`] and its units, [`retarder`] classes, and monthly
//! [`interstitial`] condensation and drying.

pub mod interstitial;
pub mod permeance;
pub mod retarder;
