//! Arithmetic on 64-bit fractions in lowest terms: none where the answer does not fit.

use std::cmp::Ordering;

use num_integer::Integer;
use num_rational::Ratio;

pub(crate) fn gcd_wide(a: u128, b: u128) -> u128 {
    match (u64::try_from(a), u64::try_from(b)) {
        (Ok(a), Ok(b)) => u128::from(a.gcd(&b)),
        _ => a.gcd(&b),
    }
}

/// `n / d` with the sign moved to the numerator; none if that does not fit or `d` is zero.
pub(crate) fn positive_denominator(n: i64, d: i64) -> Option<Ratio<i64>> {
    match d {
        0 => None,
        d if d < 0 => Some(Ratio::new_raw(n.checked_neg()?, d.checked_neg()?)),
        d => Some(Ratio::new_raw(n, d)),
    }
}

/// The common divisor of a sum and a positive denominator.
fn gcd_with(part: i128, denominator: i64) -> i64 {
    match i64::try_from(part) {
        Ok(part) => gcd_small(part, denominator),
        // The remainder is below the denominator, so it fits.
        Err(_) => gcd_small((part % i128::from(denominator)) as i64, denominator),
    }
}

/// The common divisor of a numerator and a positive denominator; most denominators are one or
/// small, and one division brings the numerator down to their size.
fn gcd_small(part: i64, denominator: i64) -> i64 {
    if denominator == 1 || part == 1 || part == -1 {
        return 1;
    }
    let rest = (part % denominator).unsigned_abs();
    rest.gcd(&denominator.unsigned_abs()) as i64
}

/// Knuth's addition of fractions (The Art of Computer Programming, 4.5.1): the common divisor is
/// taken from the small numbers, before the products.
pub(crate) fn add_exact(a: Ratio<i64>, b: Ratio<i64>) -> Option<Ratio<i64>> {
    let (an, ad, bn, bd) = (*a.numer(), *a.denom(), *b.numer(), *b.denom());
    if ad == 1 && bd == 1 {
        return an.checked_add(bn).map(|n| Ratio::new_raw(n, 1));
    }
    if ad <= 0 || bd <= 0 {
        return None;
    }
    let g = if ad == bd { ad } else { ad.gcd(&bd) };
    let sum = i128::from(an) * i128::from(bd / g) + i128::from(bn) * i128::from(ad / g);
    let shared = gcd_with(sum, g).max(1);
    let n = i64::try_from(sum / i128::from(shared)).ok()?;
    let d = (ad / g).checked_mul(bd / shared)?;
    Some(Ratio::new_raw(n, d))
}

pub(crate) fn mul_exact(a: Ratio<i64>, b: Ratio<i64>) -> Option<Ratio<i64>> {
    let (an, ad, bn, bd) = (*a.numer(), *a.denom(), *b.numer(), *b.denom());
    if ad == 1 && bd == 1 {
        return an.checked_mul(bn).map(|n| Ratio::new_raw(n, 1));
    }
    if ad <= 0 || bd <= 0 {
        return None;
    }
    let left = gcd_small(an, bd);
    let right = gcd_small(bn, ad);
    let n = (an / left).checked_mul(bn / right)?;
    let d = (ad / right).checked_mul(bd / left)?;
    Some(Ratio::new_raw(n, d))
}

pub(crate) fn cmp_exact(a: Ratio<i64>, b: Ratio<i64>) -> Ordering {
    if a.denom() == b.denom() {
        return a.numer().cmp(b.numer());
    }
    let left = i128::from(*a.numer()) * i128::from(*b.denom());
    let right = i128::from(*b.numer()) * i128::from(*a.denom());
    left.cmp(&right)
}
