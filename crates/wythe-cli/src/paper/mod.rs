//! What people hold on paper: the foundation report and the site of all houses, one file a subcommand; what they share
//! stands here.

pub(crate) mod report;
pub(crate) mod site;
mod work;

use std::io;
use std::path::Path;

use crate::exit::Exit;
use crate::output::complain;
use crate::replace::put;

/// Puts a file in place; says so where it cannot be written. What stood there before stays then.
fn written(path: &Path, bytes: &[u8]) -> Result<(), Exit> {
    put(path, bytes).map_err(|error| {
        complain(&format_args!("{}: not written: {}", path.display(), reason(&error)));
        Exit::Unusable
    })
}

/// Why a file cannot be written, in plain words.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such folder".into(),
        io::ErrorKind::PermissionDenied => "writing there is not permitted".into(),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "the disk is full".into(),
        io::ErrorKind::IsADirectory => "it is a folder".into(),
        _ => error.to_string(),
    }
}
