//! The texts that come with Wythe (the language's own words, code packs, pages on findings), put where an editor can
//! open them: a folder of the user's cache, one for each version of the texts.

use std::fs;
use std::hash::{Hash, Hasher};
use std::path::{Path, PathBuf};

use rustc_hash::FxHasher;
use tower_lsp::lsp_types::Url;
use wythe_findings::{FindingName, all_pages};
use wythe_project::built_in_packs;
use wythe_sema::PRELUDE_TEXT;

/// The folder of shipped texts; without one, nothing leads there.
#[derive(Default)]
pub(crate) struct Shipped {
    folder: Option<PathBuf>,
}

impl Shipped {
    /// Writes the texts, where they are not there yet.
    pub(crate) fn put() -> Shipped {
        Shipped { folder: cache().and_then(|cache| write(&cache)) }
    }

    /// A text by its name: `prelude.wythe`, `codes/us_residential_2021.wythe`.
    pub(crate) fn url(&self, name: &str) -> Option<Url> {
        Url::from_file_path(self.folder.as_ref()?.join(name)).ok()
    }

    /// The page on a finding; rules have none.
    pub(crate) fn page(&self, name: &FindingName) -> Option<Url> {
        match name {
            FindingName::Code(code) => self.url(&format!("pages/{}.md", code.name())),
            FindingName::Rule(_) => None,
        }
    }

    /// Whether a path leads to a shipped text.
    pub(crate) fn holds(&self, path: &Path) -> bool {
        self.folder.as_ref().is_some_and(|folder| path.starts_with(folder))
    }
}

fn cache() -> Option<PathBuf> {
    let set = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let home = || Some(set("HOME").or_else(|| set("USERPROFILE"))?.join(".cache"));
    Some(set("XDG_CACHE_HOME").or_else(|| set("LOCALAPPDATA")).or_else(home)?.join("wythe"))
}

fn write(cache: &Path) -> Option<PathBuf> {
    let mut texts: Vec<(String, String)> = vec![("prelude.wythe".into(), PRELUDE_TEXT.into())];
    texts.extend(built_in_packs().map(|(name, text)| (format!("codes/{name}.wythe"), text.to_owned())));
    texts.extend(all_pages().map(|page| {
        let head = format!("# {}\n\n`{}` {}\n\n", page.title, page.name, page.number);
        (format!("pages/{}.md", page.name), head + page.body)
    }));
    let mut hasher = FxHasher::default();
    texts.hash(&mut hasher);
    let folder = cache.join(format!("{:016x}", hasher.finish()));
    // The last file written says that all are there.
    let whole = folder.join("whole");
    if whole.exists() {
        return Some(folder);
    }
    for (name, text) in &texts {
        let place = folder.join(name);
        fs::create_dir_all(place.parent()?).ok()?;
        fs::write(place, text).ok()?;
    }
    fs::write(whole, "").ok()?;
    Some(folder)
}
