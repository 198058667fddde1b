//! Mold index, a screening measure: [`class`] tells materials apart, [`growth`] advances the index
//! by the hour.
//!
//! Growth after the first sign uses the class table's constant (2 for the most sensitive), not the
//! older ratio of times for pine (about 1.98 at 20 °C and 97 %).
//!
//! The model is Hukka and Viitanen (1999) with the classes of Ojanen et al. (2010), as used in
//! ASHRAE 160; constants from memory of those papers. A published critique doubts the formulation.
//! Present the index as screening, never as a finding about health.

pub mod class;
pub mod growth;
