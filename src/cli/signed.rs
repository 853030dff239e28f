//! What is to be told of the signature of a sealed revision.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use backtack_core::diag::plain;
use backtack_core::read;
use backtack_core::revision::seal::Sealed;
use backtack_core::revision::signature::{ENDING, LARGEST, Signature, Signers};
use clap::{Arg, ArgMatches, value_parser};

use super::Failure;
use super::source::failed;

/// What a signature says and what it does not.
pub const MEANING: &str = "A signature says who holds the key that made it, and no more.\n\
                           Where a factory's chop is agreed on, the chop counts.\n";

/// The arguments of a command that looks at signatures.
pub fn arguments() -> [Arg; 2] {
    let path = |name: &'static str, value: &'static str, help: &'static str| {
        Arg::new(name).long(name).value_name(value).value_parser(value_parser!(PathBuf)).help(help)
    };
    [
        path("signature", "FILE", "Signature of the sealed revision [default: NAME.sig beside NAME.sealed]"),
        path("signers", "LIST", "Who may sign, a list in the form of ssh-keygen's allowed signers"),
    ]
}

/// Which signatures are asked about.
#[derive(Debug)]
pub struct Asked {
    /// The signature the user names.
    pub file: Option<PathBuf>,
    /// Who may sign; where nothing is said, whoever does.
    pub signers: Option<Signers>,
}

impl Asked {
    /// What the arguments ask for.
    ///
    /// # Errors
    /// If the list of signers cannot be read or understood.
    pub fn of(matches: &ArgMatches) -> Result<Asked, Failure> {
        let path = |name: &str| matches.get_one::<PathBuf>(name);
        let list = |path: &PathBuf| {
            let text = read::text_file(path, LARGEST).and_then(|text| Signers::read(&text));
            text.map_err(|why| failed(path, &why))
        };
        Ok(Asked { file: path("signature").cloned(), signers: path("signers").map(list).transpose()? })
    }

    /// The signature of one sealed file: the one that is named, or the one beside it. None if there is none, which is
    /// an error only where signers are named.
    ///
    /// # Errors
    /// If signers are named and there is none.
    pub fn one(&self, sealed: &Path) -> Result<Option<PathBuf>, Failure> {
        let beside = sealed.with_extension(ENDING);
        match &self.file {
            Some(file) => Ok(Some(file.clone())),
            None if read::is_there(&beside) => Ok(Some(beside)),
            None if self.signers.is_some() => {
                Err(failed(sealed, "no signature is beside it; name it with --signature"))
            }
            None => Ok(None),
        }
    }

    /// Who made a signature of a sealed revision that holds.
    ///
    /// # Errors
    /// If the file cannot be read; within, why it does not hold.
    pub fn told(&self, path: &Path, sealed: &Sealed<'_>) -> Result<Result<String, String>, Failure> {
        let bytes = read::file_bytes(path, LARGEST).map_err(|why| failed(path, &why))?;
        Ok(self.who(&bytes, sealed).map_err(|why| format!("{}: {why}", path.display())))
    }

    fn who(&self, bytes: &[u8], sealed: &Sealed<'_>) -> Result<String, String> {
        let signature = Signature::read(bytes)?;
        signature.holds(sealed.outer_text.as_bytes())?;
        let key = signature.key.fingerprint();
        match &self.signers {
            None => Ok(format!("signed with the key {key}; no list says whose it is")),
            Some(signers) => {
                let who = signers.who(&signature.key, Some(sealed.title.date))?;
                Ok(plain(&format!("signed by {who} with the key {key}")))
            }
        }
    }
}

/// The signatures of a folder of sealed revisions, by the names of these.
///
/// # Errors
/// If the folder cannot be listed; within, if a signature has no sealed revision beside it.
pub fn carried(
    folder: &Path,
    sealed: &[(String, PathBuf)],
) -> Result<Result<BTreeMap<String, PathBuf>, String>, Failure> {
    let found = read::revisions(folder, ENDING).map_err(|why| failed(folder, &why))?;
    let lone = found.iter().find(|(name, _)| !sealed.iter().any(|(one, _)| one == name));
    Ok(match lone {
        Some((_, path)) => Err(format!("{}: the sealed revision it belongs to is missing", path.display())),
        None => Ok(found.into_iter().collect()),
    })
}
