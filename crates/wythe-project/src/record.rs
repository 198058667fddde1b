//! What was read of a repository, kept by content: as long as all of it reads the same, so does what came of it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use rayon::prelude::*;

use crate::{ReadFault, SourcePath, Sources};

/// The digest of what reading a file gave: its bytes, or why it could not be read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Digest([u8; 32]);

impl Digest {
    /// Of what reading gave.
    pub fn of(read: &Result<Vec<u8>, ReadFault>) -> Digest {
        match read {
            Ok(bytes) => Digest::of_bytes(bytes),
            // No text has this as its digest, since the key differs from that of plain hashing.
            Err(fault) => Digest(
                *blake3::keyed_hash(b"a file that could not be read...", fault.to_string().as_bytes()).as_bytes(),
            ),
        }
    }

    /// Of bytes.
    pub fn of_bytes(bytes: &[u8]) -> Digest {
        Digest(*blake3::hash(bytes).as_bytes())
    }

    /// As 64 hexadecimal digits.
    pub fn hex(self) -> String {
        blake3::Hash::from_bytes(self.0).to_string()
    }

    /// From 64 hexadecimal digits.
    pub fn from_hex(hex: &str) -> Option<Digest> {
        Some(Digest(*blake3::Hash::from_hex(hex).ok()?.as_bytes()))
    }
}

/// Every file that was read, and what it gave.
#[derive(Debug, Default)]
pub struct Record(Mutex<Reads>);

#[derive(Debug, Default)]
struct Reads {
    files: BTreeMap<SourcePath, Digest>,
    /// A file gave one thing and then another, or a folder was listed: what came of it holds for no one state.
    unsettled: bool,
}

impl Record {
    /// The files read and what each gave; nothing where one changed while it was read, or a folder was listed.
    pub fn settled(&self) -> Option<Vec<(SourcePath, Digest)>> {
        let reads = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        (!reads.unsettled).then(|| reads.files.iter().map(|(path, digest)| (path.clone(), *digest)).collect())
    }

    fn note(&self, path: &SourcePath, digest: Digest) {
        let mut reads = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if reads.files.insert(path.clone(), digest).is_some_and(|earlier| earlier != digest) {
            reads.unsettled = true;
        }
    }
}

/// Sources that write down what is read of them.
#[derive(Debug)]
pub struct Recording<S> {
    below: S,
    record: Arc<Record>,
}

impl<S: Sources> Recording<S> {
    /// Over other sources.
    pub fn new(below: S) -> Self {
        Recording { below, record: Arc::default() }
    }

    /// Where the reads are written down.
    pub fn record(&self) -> Arc<Record> {
        self.record.clone()
    }
}

impl<S: Sources> Sources for Recording<S> {
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault> {
        let read = self.below.read(path);
        self.record.note(path, Digest::of(&read));
        read
    }

    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault> {
        self.record.0.lock().unwrap_or_else(PoisonError::into_inner).unsettled = true;
        self.below.list(folder)
    }
}

/// Whether every file still gives what it gave.
pub fn reads_the_same(sources: &dyn Sources, reads: &[(SourcePath, Digest)]) -> bool {
    reads.par_iter().all(|(path, digest)| Digest::of(&sources.read(path)) == *digest)
}

#[cfg(test)]
mod tests {
    use super::{Digest, Recording, reads_the_same};
    use crate::{Memory, ReadFault, SourcePath, Sources as _};

    fn path(text: &str) -> SourcePath {
        SourcePath::resolve(&SourcePath::root(), text).expect("a path inside the repository")
    }

    #[test]
    fn what_was_read_reads_the_same_until_it_changes_goes_or_comes() {
        let sources = |files: &[(&'static str, &'static str)]| Memory::new(files.iter().copied());
        let recording = Recording::new(sources(&[("a", "1"), ("b", "2")]));
        assert!(recording.read(&path("a")).is_ok() && recording.read(&path("c")).is_err());
        let reads = recording.record().settled().expect("nothing changed meanwhile");
        assert_eq!(reads.len(), 2);
        assert!(reads_the_same(&sources(&[("a", "1"), ("b", "other")]), &reads));
        assert!(!reads_the_same(&sources(&[("a", "2")]), &reads));
        assert!(!reads_the_same(&sources(&[("a", "1"), ("c", "")]), &reads));
        assert!(!reads_the_same(&sources(&[]), &reads));
    }

    #[test]
    fn a_fault_has_a_digest_that_no_text_has() {
        let fault = ReadFault::NotFound;
        assert_ne!(Digest::of(&Err(fault.clone())), Digest::of_bytes(fault.to_string().as_bytes()));
        let digest = Digest::of_bytes(b"x");
        assert_eq!(Digest::from_hex(&digest.hex()), Some(digest));
    }
}
