//! Public keys as OpenSSH writes them, and the kinds there are.

use base64::Engine as _;
use base64::engine::general_purpose::{STANDARD, STANDARD_NO_PAD};
use ed25519_dalek::{Signature, VerifyingKey};

use super::super::digest::sha256;
use super::wire::{Wire, shown};

/// The kind of key whose signatures are checked here.
pub const CHECKED: &str = "ssh-ed25519";
/// Kinds of keys that a list may hold (OpenSSH 9, `ssh -Q key-sig`, without certificates).
const KINDS: [&str; 7] = [
    CHECKED,
    "ssh-rsa",
    "ecdsa-sha2-nistp256",
    "ecdsa-sha2-nistp384",
    "ecdsa-sha2-nistp521",
    "sk-ssh-ed25519@openssh.com",
    "sk-ecdsa-sha2-nistp256@openssh.com",
];

/// A public key. Two are the same if all their bytes are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key {
    kind: &'static str,
    blob: Vec<u8>,
}

/// The name of a kind of key, if it is known.
pub fn kind(name: &str) -> Option<&'static str> {
    KINDS.into_iter().find(|kind| *kind == name)
}

impl Key {
    /// Reads a key in the form that SSH sends it: the name of its kind, then what belongs to it.
    ///
    /// # Errors
    /// If it is cut off, of an unknown kind, or no point of its curve.
    pub fn read(blob: &[u8]) -> Result<Key, String> {
        let name = Wire(blob).string().ok_or("its key is cut off or was changed")?;
        let known = std::str::from_utf8(name).ok().and_then(kind);
        let kind = known.ok_or_else(|| format!("its key is of an unknown kind, {}", shown(name)))?;
        let key = Key { kind, blob: blob.to_vec() };
        if key.is_checked() && key.point().is_none() {
            return Err(format!("its key is no {CHECKED} key"));
        }
        Ok(key)
    }

    /// Reads a key from its line in a list: the name of its kind, and all of it in base64.
    ///
    /// # Errors
    /// If it is not of that kind, or cannot be read.
    pub fn listed(kind: &str, text: &str) -> Result<Key, String> {
        let blob = STANDARD.decode(text).map_err(|_| "its key is not base64")?;
        let key = Key::read(&blob)?;
        if key.kind == kind { Ok(key) } else { Err(format!("its key is of kind {}, not {kind}", key.kind)) }
    }

    /// The name of its kind.
    pub fn kind(&self) -> &'static str {
        self.kind
    }

    /// Whether signatures of its kind are checked here.
    pub fn is_checked(&self) -> bool {
        self.kind == CHECKED
    }

    /// `SHA256:` and the digest of the key in base64 without padding, as `ssh-keygen -l` prints it.
    pub fn fingerprint(&self) -> String {
        format!("SHA256:{}", STANDARD_NO_PAD.encode(sha256(&self.blob).0))
    }

    /// Whether an Ed25519 key made these 64 bytes over a message (RFC 8032, 5.1.7). Keys and points of small order,
    /// which fit many messages, and numbers that could be written otherwise are refused.
    pub fn signed(&self, message: &[u8], signature: &[u8; 64]) -> bool {
        self.point().is_some_and(|key| key.verify_strict(message, &Signature::from_bytes(signature)).is_ok())
    }

    fn point(&self) -> Option<VerifyingKey> {
        let [kind, bytes] = Wire(&self.blob).strings()?;
        let bytes: &[u8; 32] = bytes.try_into().ok()?;
        if kind == CHECKED.as_bytes() { VerifyingKey::from_bytes(bytes).ok() } else { None }
    }
}
