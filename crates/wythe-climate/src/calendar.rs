//! Hours of a year by month and day, with or without 29 February.

/// Days in the months of a common year.
pub(crate) const DAYS: [u16; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// Days of a month, 1 to 12.
pub(crate) fn days(month: usize, leap: bool) -> u16 {
    DAYS[month - 1] + u16::from(leap && month == 2)
}

/// Hours in the year.
pub(crate) fn hours(leap: bool) -> usize {
    if leap { 8784 } else { 8760 }
}

/// Index of an hour; none if the calendar has no such hour.
pub(crate) fn index(month: i64, day: i64, hour: i64, leap: bool) -> Option<usize> {
    if !(1..=12).contains(&month) || !(0..24).contains(&hour) {
        return None;
    }
    let month = usize::try_from(month).ok()?;
    if !(1..=i64::from(days(month, leap))).contains(&day) {
        return None;
    }
    let before: u16 = (1..month).map(|m| days(m, leap)).sum();
    let day = usize::try_from(day).ok()? - 1;
    Some((usize::from(before) + day) * 24 + usize::try_from(hour).ok()?)
}

/// Month, day and hour of an index within the year.
pub(crate) fn date(index: usize, leap: bool) -> (u8, u8, u8) {
    let hour = index % 24;
    let mut day = index / 24;
    let mut month = 1;
    while month < 12 && day >= usize::from(days(month, leap)) {
        day -= usize::from(days(month, leap));
        month += 1;
    }
    (month as u8, day as u8 + 1, hour as u8)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn index_and_date_are_inverse() {
        for leap in [false, true] {
            for n in 0..hours(leap) {
                let (m, d, h) = date(n, leap);
                assert_eq!(index(m.into(), d.into(), h.into(), leap), Some(n));
            }
        }
        assert_eq!(index(2, 29, 0, false), None);
        assert_eq!(index(13, 1, 0, false), None);
        assert_eq!(index(1, 1, 24, false), None);
    }
}
