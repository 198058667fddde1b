//! What the manifest says of libraries.

use serde::Deserialize;
use toml::Spanned;
use wythe_source::Span;

/// Where a library comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LibrarySource {
    /// A folder, its path taken from the repository's.
    Folder(String),
    /// A revision of a git repository.
    Git {
        /// Where the repository is.
        url: String,
        /// A commit, a tag or a branch.
        revision: String,
    },
}

/// A library the manifest names.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Library {
    /// The first part of the paths that lead to its files.
    pub name: String,
    /// Where it comes from.
    pub source: LibrarySource,
    pub(crate) place: Span,
}

/// A library as it stands in the manifest.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WrittenLibrary {
    path: Option<Spanned<String>>,
    git: Option<Spanned<String>>,
    revision: Option<Spanned<String>>,
}

/// What a library's lines mean, or what is wrong with them.
pub(crate) fn declare(name: &str, written: &WrittenLibrary, place: Span) -> Result<Library, &'static str> {
    let letters = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
    if !name.starts_with(|c: char| c.is_ascii_lowercase()) || !name.chars().all(letters) || name.len() > 64 {
        return Err("a library's name is of small letters, digits and `_`, and begins with a letter");
    }
    let text = |value: &Spanned<String>| value.get_ref().clone();
    let source = match (&written.path, &written.git, &written.revision) {
        (Some(path), None, None) => LibrarySource::Folder(text(path)),
        (None, Some(git), Some(revision)) => {
            let (url, revision) = (text(git), text(revision));
            if !may_be_fetched(&url) {
                return Err("`git` is an address that begins with https://, ssh:// or file://, or a folder");
            }
            // What looks like an option would be taken for one.
            if revision.is_empty() || revision.starts_with('-') || revision.contains(['\0', '\n', ' ']) {
                return Err("`revision` is a commit, a tag or a branch");
            }
            LibrarySource::Git { url, revision }
        }
        _ => return Err("a library has either `path`, or `git` and `revision`"),
    };
    Ok(Library { name: name.to_owned(), source, place })
}

/// Whether an address names no helper program and no option.
fn may_be_fetched(url: &str) -> bool {
    let plain = !url.is_empty() && !url.starts_with('-') && !url.contains(['\0', '\n']);
    let known = ["https://", "ssh://", "file://"].iter().any(|scheme| url.starts_with(scheme));
    plain && (known || !url.contains(':'))
}

#[cfg(test)]
mod tests {
    use super::may_be_fetched;

    #[test]
    fn no_address_names_a_program_or_an_option() {
        for bad in ["ext::sh -c id", "--upload-pack=x", "", "http://a.example/b", "a\nb", "fd::3"] {
            assert!(!may_be_fetched(bad), "{bad}");
        }
        for good in ["https://a.example/b.git", "ssh://git@a.example/b", "../stock", "file:///srv/stock"] {
            assert!(may_be_fetched(good), "{good}");
        }
    }
}
