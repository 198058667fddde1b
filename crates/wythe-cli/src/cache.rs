//! Answers kept from one run to the next: a check whose files all read as they did gives what it gave, unworked.
//!
//! An answer is found by its question (this very program, its arguments, where it runs, the files asked for) and holds
//! only as long as the content of every file that was read is the same. Kept in the user's own folder and never in a
//! repository, so that what a repository holds cannot answer for it. Whatever goes wrong here costs the work anew and
//! nothing else.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use etcetera::BaseStrategy as _;
use serde::{Deserialize, Serialize};
use wythe_project::{Digest, Disk, SourcePath, reads_the_same};

use crate::exit::Exit;
use crate::repository::Opened;

/// The folder of the cache, over the user's own; empty for none.
const FOLDER: &str = "WYTHE_CACHE";

/// With fewer files the work is quicker than the doubt.
const FEW: usize = 8;

/// How many answers are kept.
const MOST_ANSWERS: usize = 64;

/// The most bytes of an answer.
const MOST_BYTES: u64 = 16 << 20;

/// The files asked for, by repository.
type Asked = BTreeMap<PathBuf, Vec<Vec<SourcePath>>>;

/// A question that may have been answered before.
pub(crate) struct Question {
    /// Where its answer is kept.
    place: PathBuf,
    roots: Vec<PathBuf>,
}

/// What a command came to.
pub(crate) struct Answer {
    pub exit: Exit,
    pub out: Vec<u8>,
}

#[derive(Serialize, Deserialize)]
struct Head {
    exit: u8,
    /// Of each repository, the files read and the digest of each.
    reads: Vec<Vec<(String, String)>>,
}

impl Question {
    /// A question of a command in these words about these files, if its answer is worth keeping.
    pub(crate) fn new(words: &dyn std::fmt::Debug, asked: &Asked) -> Option<Question> {
        if asked.values().flatten().map(Vec::len).sum::<usize>() < FEW {
            return None;
        }
        let folder = folder()?;
        let here = std::env::current_dir().ok()?;
        let text = format!("{:?} {here:?} {words:?} {asked:?}", program()?);
        let place = folder.join(Digest::of_bytes(text.as_bytes()).hex());
        Some(Question { place, roots: asked.keys().cloned().collect() })
    }

    /// The answer kept, if all it was worked out of still reads the same.
    pub(crate) fn answer(&self) -> Option<Answer> {
        let mut bytes = Vec::new();
        fs::File::open(&self.place).ok()?.take(MOST_BYTES + 1).read_to_end(&mut bytes).ok()?;
        let (digest, rest) = split_line(&bytes)?;
        // A file cut short or written over is no answer.
        if Digest::of_bytes(rest).hex().as_bytes() != digest {
            return None;
        }
        let (head, out) = split_line(rest)?;
        let head: Head = serde_json::from_slice(head).ok()?;
        if head.reads.len() != self.roots.len() {
            return None;
        }
        for (root, reads) in self.roots.iter().zip(&head.reads) {
            let root_path = SourcePath::root();
            let reads: Vec<(SourcePath, Digest)> = reads
                .iter()
                .map(|(path, hex)| Some((SourcePath::resolve(&root_path, path)?, Digest::from_hex(hex)?)))
                .collect::<Option<_>>()?;
            if !reads_the_same(&Disk::new(root).ok()?, &reads) {
                return None;
            }
        }
        let exit = [Exit::Clean, Exit::Findings, Exit::Unusable].into_iter().find(|exit| *exit as u8 == head.exit)?;
        Some(Answer { exit, out: out.to_vec() })
    }

    /// Keeps an answer. A fault of Wythe is none.
    pub(crate) fn keep(&self, answer: &Answer, opened: &[Opened]) {
        if answer.exit != Exit::Broken && opened.len() == self.roots.len() {
            // Without the answer the next run works it out again.
            let _ = self.write(answer, opened);
        }
    }

    fn write(&self, answer: &Answer, opened: &[Opened]) -> Option<()> {
        let reads = opened
            .iter()
            .map(|repository| {
                let reads = repository.record.as_ref()?.settled()?;
                Some(reads.iter().map(|(path, digest)| (path.as_str().to_owned(), digest.hex())).collect())
            })
            .collect::<Option<_>>()?;
        let mut rest = serde_json::to_vec(&Head { exit: answer.exit as u8, reads }).ok()?;
        rest.push(b'\n');
        rest.extend(&answer.out);
        if rest.len() as u64 > MOST_BYTES - 100 {
            return None;
        }
        let folder = self.place.parent()?;
        fs::create_dir_all(folder).ok()?;
        let mut new = tempfile::NamedTempFile::new_in(folder).ok()?;
        new.write_all(Digest::of_bytes(&rest).hex().as_bytes()).ok()?;
        new.write_all(b"\n").ok()?;
        new.write_all(&rest).ok()?;
        new.persist(&self.place).ok()?;
        drop_oldest(folder);
        Some(())
    }
}

fn split_line(bytes: &[u8]) -> Option<(&[u8], &[u8])> {
    let end = bytes.iter().position(|byte| *byte == b'\n')?;
    Some((&bytes[..end], &bytes[end + 1..]))
}

/// Which program this is: another build of the same version may answer otherwise.
fn program() -> Option<(PathBuf, u64, SystemTime)> {
    let program = std::env::current_exe().ok()?;
    let about = fs::metadata(&program).ok()?;
    Some((program, about.len(), about.modified().ok()?))
}

fn folder() -> Option<PathBuf> {
    match std::env::var_os(FOLDER) {
        Some(named) if named.is_empty() => None,
        Some(named) => Some(PathBuf::from(named)),
        None => Some(etcetera::choose_base_strategy().ok()?.cache_dir().join("wythe")),
    }
}

/// Lets go of the answers written longest ago, past the number that is kept.
fn drop_oldest(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    let mut answers: Vec<(SystemTime, PathBuf)> =
        entries.flatten().filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path()))).collect();
    answers.sort();
    let over = answers.len().saturating_sub(MOST_ANSWERS);
    for (_, path) in &answers[..over] {
        // Another run may have been quicker.
        let _ = fs::remove_file(path);
    }
}
