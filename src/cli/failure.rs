//! Why a command could not be run at all, in one line for the user.

use std::path::Path;

use backtack_core::diag::plain;

/// Why a command could not be run: one line for the user.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    message: String,
}

impl Failure {
    /// A failure in one sentence, without the program's name before it.
    pub fn new(message: impl Into<String>) -> Self {
        Failure { message: message.into() }
    }

    /// Something the system refused to do with a file or folder.
    pub fn of(doing: &str, path: &Path, error: &std::io::Error) -> Self {
        Failure::new(format!("cannot {doing} {}: {}", path.display(), reason(error)))
    }
}

impl std::fmt::Display for Failure {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&plain(&self.message))
    }
}

impl std::error::Error for Failure {}

/// The system's reason in a few words.
fn reason(error: &std::io::Error) -> String {
    use std::io::ErrorKind::{
        AlreadyExists, NotADirectory, NotFound, PermissionDenied, ReadOnlyFilesystem, StorageFull,
    };
    match error.kind() {
        StorageFull => "the disk is full".into(),
        PermissionDenied => "permission denied".into(),
        ReadOnlyFilesystem => "the disk can only be read".into(),
        NotADirectory => "there is a file where a folder is needed".into(),
        AlreadyExists => "something of this name is there already".into(),
        NotFound => "there is no such file or folder".into(),
        _ => error.to_string(),
    }
}
