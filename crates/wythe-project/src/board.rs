//! Who found what: findings by the file they stand in, the file whose check made them, and the station it was made at.

use std::collections::BTreeMap;

use rustc_hash::{FxHashMap, FxHashSet};
use wythe_check::merge;
use wythe_findings::{Finding, Fix, Label};
use wythe_source::{FileId, Span};

use crate::pipeline::moved::Moved;

/// The station a finding was made at.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub(crate) enum Station {
    /// Text, names and types.
    Words,
    /// The foundations, rules and tests worked out.
    Judgement,
}

/// Who made a finding: the file whose check it was, and the station.
type Maker = (FileId, Station);

/// The findings of a project. The check of one file may find faults in another: a house in its library.
#[derive(Debug, Default)]
pub(crate) struct Board {
    /// By the file a finding stands in, then by who made it.
    shown: FxHashMap<FileId, BTreeMap<Maker, Vec<Finding>>>,
    /// The files each maker has found faults in.
    found_in: FxHashMap<Maker, FxHashSet<FileId>>,
    touched: FxHashSet<FileId>,
}

impl Board {
    /// Puts what a station has found about a file in the place of what it found before.
    pub(crate) fn put(&mut self, by: FileId, station: Station, findings: Vec<Finding>) {
        let maker = (by, station);
        let mut new: FxHashMap<FileId, Vec<Finding>> = FxHashMap::default();
        for finding in findings {
            new.entry(finding.primary.span.file).or_default().push(finding);
        }
        let now: FxHashSet<FileId> = new.keys().copied().collect();
        let before = if now.is_empty() { self.found_in.remove(&maker) } else { self.found_in.insert(maker, now) };
        for file in before.unwrap_or_default() {
            if !new.contains_key(&file)
                && let Some(makers) = self.shown.get_mut(&file)
            {
                makers.remove(&maker);
                self.touched.insert(file);
            }
        }
        for (file, findings) in new {
            let makers = self.shown.entry(file).or_default();
            if makers.get(&maker) != Some(&findings) {
                makers.insert(maker, findings);
                self.touched.insert(file);
            }
        }
    }

    /// Takes back all that the checks of a file have found.
    pub(crate) fn take_back(&mut self, by: FileId) {
        self.put(by, Station::Words, Vec::new());
        self.put(by, Station::Judgement, Vec::new());
    }

    /// Moves everything found along with a text that has changed, until it is found anew. What stands right at the
    /// change is let go: whether it still holds there is not known.
    pub(crate) fn shift(&mut self, moved: &Moved) {
        for (file, makers) in &mut self.shown {
            for findings in makers.values_mut() {
                let before = findings.len();
                let mut differs = false;
                findings.retain_mut(|finding| follow(finding, moved, &mut differs));
                if differs || findings.len() != before {
                    self.touched.insert(*file);
                }
            }
        }
    }

    /// The findings in a file, by place. What several checks have found alike stands once.
    pub(crate) fn of(&self, file: FileId) -> Vec<Finding> {
        let all: Vec<Finding> =
            self.shown.get(&file).into_iter().flat_map(BTreeMap::values).flatten().cloned().collect();
        merge(all)
    }

    /// Every file with findings.
    pub(crate) fn files(&self) -> Vec<FileId> {
        self.shown.iter().filter(|(_, makers)| makers.values().any(|f| !f.is_empty())).map(|(file, _)| *file).collect()
    }

    /// Counts every file with findings as touched.
    pub(crate) fn touch_all(&mut self) {
        self.touched.extend(self.files());
    }

    /// The files whose findings have changed since the last call.
    pub(crate) fn take_touched(&mut self) -> Vec<FileId> {
        self.touched.drain().collect()
    }
}

/// Moves a finding along with its text; false where its place has been written over.
fn follow(finding: &mut Finding, moved: &Moved, differs: &mut bool) -> bool {
    let mut place = |span: &mut Span| match moved.span(*span) {
        Some(new) => {
            *differs |= new != *span;
            *span = new;
            true
        }
        None => false,
    };
    if !place(&mut finding.primary.span) {
        return false;
    }
    let mut gone = false;
    finding.related.retain_mut(|label: &mut Label| {
        let kept = place(&mut label.span);
        gone |= !kept;
        kept
    });
    finding.fixes.retain_mut(|fix: &mut Fix| {
        let kept = fix.edits.iter_mut().all(|edit| place(&mut edit.span))
            && fix.moves.iter_mut().all(|m| place(&mut m.to) && place(&mut m.from));
        gone |= !kept;
        kept
    });
    *differs |= gone;
    true
}

#[cfg(test)]
mod tests {
    use wythe_findings::{Finding, codes};
    use wythe_source::{FileId, Span};

    use super::{Board, Station};
    use crate::pipeline::moved::Moved;

    #[test]
    fn findings_move_with_their_text_and_go_where_it_is_written_over() {
        let (house, library) = (FileId(1), FileId(2));
        let at = |file, start, end| Finding::new(codes::UNKNOWN_NAME, Span::new(file, start, end), "x");
        let mut board = Board::default();
        board.put(
            house,
            Station::Judgement,
            vec![at(library, 0, 2), at(library, 4, 7), at(library, 9, 11), at(house, 5, 6)],
        );
        board.take_touched();
        let moved = Moved::between(library, "abcdefghijklmn", "abcdeFGHfghijklmn").unwrap();
        board.shift(&moved);
        let places = |file| board.of(file).iter().map(|f| f.primary.span.range()).collect::<Vec<_>>();
        assert_eq!(places(library), [0..2, 4..10, 12..14]);
        assert_eq!(places(house), vec![5..6]);
        assert_eq!(board.take_touched(), [library]);
        board.shift(&Moved::between(library, "abcdeFGHfghijklmn", "abX").unwrap());
        assert_eq!(board.of(library).len(), 1);
    }
}
