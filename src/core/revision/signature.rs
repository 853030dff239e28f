//! Detached signatures of sealed revisions, as `ssh-keygen -Y sign` of OpenSSH makes them over the outer manifest.
//!
//! The format is open (OpenSSH, PROTOCOL.sshsig): base64 between two lines, of
//!
//! ```text
//! SSHSIG                                  6 bytes
//! 1                                       version, 4 bytes
//! public key, namespace, reserved, hash, signature      each a string of RFC 4251, 5: its length in 4 bytes, its bytes
//! ```
//! What is signed is SSHSIG, namespace, reserved, hash and the digest of the message, again as strings. Ed25519 alone is
//! checked here (RFC 8032; RFC 8709 for its form), and strictly: one message and one key have one signature.

mod key;
mod signers;
mod wire;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256, Sha512};

pub use key::Key;
pub use signers::Signers;
use wire::{Wire, put, shown};

/// What a signature of a revision is made for; one made for anything else is none.
pub const NAMESPACE: &str = "backtack-revision";
/// The ending of a signature that is kept beside a sealed file.
pub const ENDING: &str = "sig";
/// Bytes of a signature or of a list of signers, at most.
pub const LARGEST: u64 = 1 << 20;

const BEGIN: &str = "-----BEGIN SSH SIGNATURE-----";
const END: &str = "-----END SSH SIGNATURE-----";
const MAGIC: &[u8] = b"SSHSIG";
const VERSION: u32 = 1;
const CHANGED: &str = "it is cut off or was changed";

/// How the message is digested before it is signed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hash {
    Sha256,
    Sha512,
}

/// A signature that is written as it should be; whether it holds is another question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    /// The key that is said to have made it.
    pub key: Key,
    namespace: String,
    hash: Hash,
    bytes: [u8; 64],
}

impl Signature {
    /// Reads the file that `ssh-keygen -Y sign` writes.
    ///
    /// # Errors
    /// Names the first thing that is not as it should be, or that is not understood here.
    pub fn read(file: &[u8]) -> Result<Signature, String> {
        let blob = unarmoured(file)?;
        let rest = blob.strip_prefix(MAGIC).ok_or("it holds no SSH signature")?;
        let mut wire = Wire(rest);
        match wire.number().ok_or(CHANGED)? {
            VERSION => {}
            other => return Err(format!("it is of version {other}; this version of backtack reads {VERSION}")),
        }
        let [key, namespace, reserved, hash, made] = wire.strings().ok_or(CHANGED)?;
        let key = Key::read(key)?;
        if !key.is_checked() {
            return Err(format!(
                "it was made with a key of kind {}; only {} is checked here",
                key.kind(),
                key::CHECKED
            ));
        }
        // What is reserved is part of what is signed; nothing that could stand there is known yet.
        if !reserved.is_empty() {
            return Err("its reserved field is not empty, and what it means is not known".into());
        }
        let hash = match hash {
            b"sha256" => Hash::Sha256,
            b"sha512" => Hash::Sha512,
            other => return Err(format!("its hash is {}, not sha256 or sha512", shown(other))),
        };
        let namespace = std::str::from_utf8(namespace).map_err(|_| CHANGED)?.to_string();
        Ok(Signature { key, namespace, hash, bytes: inner(made).ok_or(CHANGED)? })
    }

    /// Whether its key signed this message as a revision.
    ///
    /// # Errors
    /// Says why not.
    pub fn holds(&self, message: &[u8]) -> Result<(), String> {
        if self.namespace != NAMESPACE {
            let found = shown(self.namespace.as_bytes());
            return Err(format!("it was made for the namespace {found}, not for \"{NAMESPACE}\""));
        }
        if self.key.signed(&self.signed(message), &self.bytes) {
            Ok(())
        } else {
            Err(format!("the key {} did not sign this revision, or the signature was changed", self.key.fingerprint()))
        }
    }

    /// What the key signed, if it signed this message.
    fn signed(&self, message: &[u8]) -> Vec<u8> {
        let (name, digest) = match self.hash {
            Hash::Sha256 => ("sha256", Sha256::digest(message).to_vec()),
            Hash::Sha512 => ("sha512", Sha512::digest(message).to_vec()),
        };
        let mut out = MAGIC.to_vec();
        [self.namespace.as_bytes(), b"", name.as_bytes(), &digest].iter().for_each(|part| put(&mut out, part));
        out
    }
}

/// The bytes between the two lines. Lines may be of any length and end as on any system; nothing may stand around them.
fn unarmoured(file: &[u8]) -> Result<Vec<u8>, String> {
    let text = std::str::from_utf8(file).map_err(|_| "it is no text")?;
    let mut lines = text.split('\n').map(|line| line.strip_suffix('\r').unwrap_or(line));
    if lines.next() != Some(BEGIN) {
        return Err(format!("it is no signature: its first line is not {BEGIN}"));
    }
    let mut inner = String::new();
    loop {
        match lines.next() {
            None => return Err(format!("it is cut off: the line {END} is missing")),
            Some(END) => break,
            Some(line) => inner.push_str(line),
        }
    }
    if lines.any(|line| !line.is_empty()) {
        return Err("something follows its last line".into());
    }
    STANDARD.decode(inner).map_err(|_| "what stands between its first and last line is not base64".into())
}

/// The 64 bytes of an Ed25519 signature.
fn inner(made: &[u8]) -> Option<[u8; 64]> {
    let [kind, bytes] = Wire(made).strings()?;
    if kind == key::CHECKED.as_bytes() { bytes.try_into().ok() } else { None }
}
