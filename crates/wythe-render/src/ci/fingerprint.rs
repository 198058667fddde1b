//! A short mark by which a host knows a finding again after lines have moved.

use rustc_hash::FxHashMap;
use wythe_findings::Finding;

/// Makes marks; the second finding that is alike in everything but its line gets another mark than the first.
#[derive(Default)]
pub(super) struct Fingerprints {
    met: FxHashMap<u64, u32>,
}

impl Fingerprints {
    /// The mark of a finding in a file of this name: sixteen hexadecimal digits, and a number from the second on.
    pub(super) fn of(&mut self, finding: &Finding, file: &str) -> String {
        let parts = [finding.name.as_str(), file, &finding.item, &finding.title];
        // A byte no text holds stands after each part.
        let mark = fnv(parts.iter().flat_map(|part| part.bytes().chain([0xff])));
        let count = self.met.entry(mark).or_default();
        *count += 1;
        if *count == 1 { format!("{mark:016x}") } else { format!("{mark:016x}-{count}") }
    }
}

/// FNV-1a in 64 bits: the same on every machine and in every version, which hashers of tables do not promise.
fn fnv(bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes.into_iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use wythe_findings::{Finding, codes};
    use wythe_source::{FileId, Span};

    use super::{Fingerprints, fnv};

    #[test]
    fn the_published_values_come_out() {
        // From the test vectors of the method's authors.
        assert_eq!(fnv([]), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv(*b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv(*b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn lines_may_move_and_twins_stay_apart() {
        let at = |start| Finding::new(codes::UNKNOWN_NAME, Span::new(FileId(0), start, start + 1), "`a` is not known");
        let (mut before, mut after) = (Fingerprints::default(), Fingerprints::default());
        let first = before.of(&at(3), "a.wythe");
        assert_eq!(first, after.of(&at(30), "a.wythe"));
        assert_eq!(before.of(&at(9), "a.wythe"), format!("{first}-2"));
        assert_ne!(before.of(&at(3), "b.wythe"), first);
    }
}
