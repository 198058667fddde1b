//! A repository of plans under the server's eye, and which one an address belongs to.

use std::path::{Path, PathBuf};

use tower_lsp::lsp_types::Url;
use wythe_project::{Disk, MANIFEST_NAME, Memory, Origin, Project, SourcePath, find_repositories};
use wythe_sema::Prelude;
use wythe_source::FileId;

use super::State;

/// A repository.
pub(crate) struct Repository {
    /// Its folder; an unsaved document stands in none.
    pub root: Option<PathBuf>,
    /// Its plans.
    pub project: Project,
}

impl Repository {
    /// The address of one of its files that is not open; nothing for one that stands nowhere.
    pub(crate) fn url(&self, state: &State, file: FileId) -> Option<Url> {
        if file == Prelude::FILE {
            return state.shipped.url("prelude.wythe");
        }
        let entry = self.project.entry(file)?;
        match entry.origin {
            Origin::BuiltIn => state.shipped.url(&format!("codes/{}", entry.path)),
            Origin::Repository => Url::from_file_path(entry.path.under(self.root.as_ref()?)).ok(),
        }
    }
}

impl State {
    /// Takes up a folder of the client with every repository in it.
    pub(crate) fn add_folder(&mut self, folder: &Path) {
        if !self.folders.iter().any(|f| f == folder) {
            self.folders.push(folder.to_path_buf());
        }
        match find_repositories(folder) {
            Err(error) => self.publisher().log(format!("{} cannot be read: {error}", folder.display())),
            Ok(found) => {
                for repository in found {
                    let Some(number) = self.repository_at(&repository.root) else { continue };
                    for file in repository.files {
                        self.repositories[number].project.add(file);
                    }
                }
            }
        }
    }

    /// Lets go of a folder: what is found in its files is taken back.
    pub(crate) fn remove_folder(&mut self, folder: &Path) {
        self.folders.retain(|f| f != folder);
        for number in 0..self.repositories.len() {
            let inside = self.repositories[number].root.as_ref().is_some_and(|root| root.starts_with(folder));
            let kept =
                self.repositories[number].root.as_ref().is_some_and(|r| self.folders.iter().any(|f| r.starts_with(f)));
            if !inside || kept {
                continue;
            }
            let open: Vec<SourcePath> =
                self.open.values().filter(|o| o.repository == number).map(|o| o.path.clone()).collect();
            let project = &mut self.repositories[number].project;
            let roots: Vec<SourcePath> =
                project.roots().filter_map(|f| project.entry(f)).map(|e| e.path.clone()).collect();
            for path in roots.iter().filter(|p| !open.contains(p)) {
                project.drop_root(path);
            }
        }
    }

    /// The repository and the path of an address, taken up if it is new. Nothing for shipped texts and for what is
    /// no source.
    pub(super) fn belongs(&mut self, url: &Url) -> Option<(usize, SourcePath)> {
        let Ok(path) = url.to_file_path() else { return self.unsaved(url) };
        if self.shipped.holds(&path) {
            return None;
        }
        let root = self.root_of(&path);
        let number = self.repository_at(&root)?;
        let path = SourcePath::below(&root, &path)?;
        (path.as_str() != MANIFEST_NAME).then_some((number, path))
    }

    /// The repository and the path of an address already taken up.
    pub(super) fn known(&self, url: &Url) -> Option<(usize, SourcePath)> {
        let path = url.to_file_path().ok()?;
        let root = self.root_of(&path);
        let number = self.repositories.iter().position(|r| r.root.as_deref() == Some(&root))?;
        Some((number, SourcePath::below(&root, &path)?))
    }

    /// The folder with the nearest manifest above a file; else the client's folder it stands in; else its own.
    fn root_of(&self, path: &Path) -> PathBuf {
        let folder = path.parent().unwrap_or(path);
        // A repository known already needs no look at the disk.
        let known = self.repositories.iter().filter_map(|r| r.root.as_deref());
        let nearest = known.filter(|r| folder.starts_with(r)).max_by_key(|r| r.components().count());
        let below = |above: &Path| nearest.is_none_or(|n| above.starts_with(n) && above != n);
        let manifest = folder.ancestors().take_while(|a| below(a)).find(|a| a.join(MANIFEST_NAME).is_file());
        if let Some(found) = manifest.or(nearest) {
            return found.to_path_buf();
        }
        let given = self.folders.iter().filter(|f| folder.starts_with(f)).max_by_key(|f| f.components().count());
        given.map_or_else(|| folder.to_path_buf(), Clone::clone)
    }

    fn repository_at(&mut self, root: &Path) -> Option<usize> {
        if let Some(number) = self.repositories.iter().position(|r| r.root.as_deref() == Some(root)) {
            return Some(number);
        }
        let project = match Disk::new(root) {
            Ok(disk) => Project::open(disk),
            Err(error) => {
                // A document may be written before its folder is made.
                self.publisher().log(format!("{} cannot be read: {error}", root.display()));
                Project::open(Memory::default())
            }
        };
        self.repositories.push(Repository { root: Some(root.to_path_buf()), project });
        Some(self.repositories.len() - 1)
    }

    /// A repository of its own for a document that has never been saved.
    fn unsaved(&mut self, url: &Url) -> Option<(usize, SourcePath)> {
        let name = url.path().rsplit('/').next().filter(|n| !n.is_empty()).unwrap_or("unsaved");
        let path = SourcePath::resolve(&SourcePath::root(), name)?;
        self.repositories.push(Repository { root: None, project: Project::open(Memory::default()) });
        Some((self.repositories.len() - 1, path))
    }
}
