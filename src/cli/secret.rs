//! The secret of a folder: 32 random bytes that salt the digests of what is private. The only use of chance there is; it
//! decides nothing but these digests, and once it is written the same seal gives the same bytes.

use std::path::Path;

use backtack_core::read::{is_there, text_file};
use backtack_core::revision::Digest;
use zeroize::ZeroizeOnDrop;

use super::Failure;
use super::output::{Item, Output};
use super::source::failed;

/// The file that keeps it, below the style folder.
const FILE: &str = "private/salt.txt";

/// A secret, wiped from memory once it is used.
#[derive(ZeroizeOnDrop)]
pub struct Secret(pub [u8; 32]);

/// The secret of a style folder, made if there is none yet.
///
/// # Errors
/// If it cannot be read or written, or the system has no random bytes to give.
pub fn secret(folder: &Path, output: &Output) -> Result<Secret, Failure> {
    let path = folder.join(FILE);
    if !is_there(&path) {
        let made = made(&path, output);
        // Another seal may have written it meanwhile.
        if made.is_err() && !is_there(&path) {
            made?;
        }
    }
    kept(&path)
}

fn made(path: &Path, output: &Output) -> Result<(), Failure> {
    let mut secret = Secret([0; 32]);
    getrandom::fill(&mut secret.0).map_err(|error| failed(path, format!("no random bytes can be had: {error}")))?;
    let text = format!("{}\n", Digest(secret.0).hex());
    output.create(&[Item { path: path.to_path_buf(), bytes: text.into_bytes() }], &[])
}

fn kept(path: &Path) -> Result<Secret, Failure> {
    let text = text_file(path, 1 << 10).map_err(|why| failed(path, &why))?;
    let digest = Digest::parse(text.trim());
    digest.map(|digest| Secret(digest.0)).ok_or_else(|| failed(path, "it does not hold 64 hexadecimal digits"))
}
