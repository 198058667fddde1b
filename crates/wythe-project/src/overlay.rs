//! Texts open in an editor, over those on the disk.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use wythe_syntax::limits::MAX_FILE_BYTES;

use crate::{ReadFault, SourcePath, Sources};

/// Texts that stand in the place of those of the sources below.
///
/// A clone keeps the texts as they are now.
#[derive(Clone)]
pub(crate) struct Overlay {
    below: Arc<dyn Sources>,
    open: Arc<FxHashMap<SourcePath, Arc<str>>>,
}

impl Overlay {
    pub(crate) fn new(below: Arc<dyn Sources>) -> Self {
        Overlay { below, open: Arc::default() }
    }

    pub(crate) fn set(&mut self, path: SourcePath, text: Arc<str>) {
        Arc::make_mut(&mut self.open).insert(path, text);
    }

    pub(crate) fn close(&mut self, path: &SourcePath) {
        Arc::make_mut(&mut self.open).remove(path);
    }

    pub(crate) fn is_open(&self, path: &SourcePath) -> bool {
        self.open.contains_key(path)
    }
}

impl Sources for Overlay {
    fn read(&self, path: &SourcePath) -> Result<Vec<u8>, ReadFault> {
        match self.open.get(path) {
            Some(text) if text.len() > MAX_FILE_BYTES => Err(ReadFault::TooLarge(text.len() as u64)),
            Some(text) => Ok(text.as_bytes().to_vec()),
            None => self.below.read(path),
        }
    }

    fn list(&self, folder: &SourcePath) -> Result<Vec<SourcePath>, ReadFault> {
        let open = self.open.keys().filter(|p| p.is_in(folder)).cloned();
        let mut listed = self.below.list(folder)?;
        listed.extend(open);
        listed.sort();
        listed.dedup();
        Ok(listed)
    }
}
