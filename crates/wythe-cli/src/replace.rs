//! A file replaced as a whole: whoever looks, at any moment, sees the old text or the new one.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use tempfile::NamedTempFile;

/// Puts a text in the place of a file's, keeping its permissions. A link stays a link: what it leads to is replaced.
pub(crate) fn replace(path: &Path, text: impl AsRef<[u8]>) -> io::Result<()> {
    let path = fs::canonicalize(path)?;
    let folder = path.parent().ok_or(io::ErrorKind::InvalidInput)?;
    let about = fs::metadata(&path)?;
    if about.is_dir() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    if !about.is_file() {
        // A pipe or a device is written to; a file put in its place would not be the one who reads it.
        return fs::OpenOptions::new().write(true).open(&path)?.write_all(text.as_ref());
    }
    let permissions = about.permissions();
    if permissions.readonly() {
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    let mut new = NamedTempFile::new_in(folder)?;
    new.write_all(text.as_ref())?;
    new.as_file().set_permissions(permissions)?;
    new.persist(&path)?;
    Ok(())
}

/// Puts a text in a file, which is made if it is not there.
pub(crate) fn put(path: &Path, text: impl AsRef<[u8]>) -> io::Result<()> {
    match replace(path, &text) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => {}
        done => return done,
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // Like any file of its owner, and unlike a file for a moment, others may read it as far as the system lets them.
    let mut named = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        named.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut new = named.tempfile_in(folder)?;
    new.write_all(text.as_ref())?;
    match new.persist_noclobber(path) {
        // Somebody else has made it meanwhile; then it is theirs that is replaced.
        Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => replace(path, &text),
        done => done.map(drop).map_err(io::Error::from),
    }
}

#[cfg(all(test, unix))]
mod tests {
    use std::fs;
    use std::os::unix::fs::{PermissionsExt as _, symlink};

    use super::replace;

    #[test]
    fn permissions_and_links_are_kept_and_nothing_is_left_behind() {
        let place = tempfile::tempdir().unwrap();
        let file = place.path().join("a");
        let link = place.path().join("b");
        fs::write(&file, "old").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
        symlink("a", &link).unwrap();
        replace(&link, "new").unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), "new");
        assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_file_that_may_not_be_written_stays() {
        let place = tempfile::tempdir().unwrap();
        let file = place.path().join("a");
        fs::write(&file, "old").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o440)).unwrap();
        assert!(replace(&file, "new").is_err());
        assert_eq!(fs::read_to_string(&file).unwrap(), "old");
    }
}
