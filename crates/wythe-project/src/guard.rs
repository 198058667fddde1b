//! A fault of the compiler itself, in one file, is a finding about that file and stops no other.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};

use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span};

/// Does a piece of work on a file.
///
/// # Errors
/// Where the work breaks down, the finding that says so. What the work was changing must then be given up.
pub fn guarded<T>(file: FileId, work: impl FnOnce() -> T) -> Result<T, Box<Finding>> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|payload| {
        let finding = Finding::new(codes::INTERNAL_ERROR, Span::new(file, 0, 0), "Wythe broke down on this file")
            .label(words(payload.as_ref()))
            .cause("This is a fault of Wythe, not of the file.")
            .mend("report it with the file, if the file may be shown");
        Box::new(finding)
    })
}

fn words(payload: &(dyn Any + Send)) -> String {
    let text = payload.downcast_ref::<&str>().copied();
    let text = text.or_else(|| payload.downcast_ref::<String>().map(String::as_str));
    text.unwrap_or("no reason is known").to_owned()
}

#[cfg(test)]
mod tests {
    use wythe_findings::codes;
    use wythe_source::FileId;

    use super::guarded;

    #[test]
    fn a_breakdown_is_a_finding_about_its_file() {
        let finding = guarded(FileId(7), || -> u8 { panic!("lost {}", "count") }).unwrap_err();
        assert_eq!((finding.primary.span.file, finding.primary.text.as_str()), (FileId(7), "lost count"));
        assert_eq!(finding.name.as_str(), codes::INTERNAL_ERROR.name());
        assert_eq!(guarded(FileId(7), || 3), Ok(3));
    }
}
