//! Signatures of sealed revisions: RFC 8032's own, one that ssh-keygen made, and what is not to pass.

use backtack_core::revision::seal::verified;
use backtack_core::revision::sha256;
use backtack_core::revision::signature::{Key, NAMESPACE, Signature, Signers};
use backtack_core::units::Date;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use ed25519_dalek::{Signer as _, SigningKey};
use sha2::{Digest as _, Sha256, Sha512};

/// Made by `ssh-keygen -Y sign -n backtack-revision` of OpenSSH 9.2 over `outer.txt` of the sealed bag.
const MADE: &[u8] = include_bytes!("../../sealed/bag.sig");
const SIGNERS: &str = include_str!("../../sealed/signers");
const BAG: &[u8] = include_bytes!("../../sealed/bag.sealed");
const BEGIN: &str = "-----BEGIN SSH SIGNATURE-----\n";
const END: &str = "\n-----END SSH SIGNATURE-----\n";

/// The secret key of RFC 8032, 7.1, test 1.
const SECRET: &str = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";

fn hex(text: &str) -> Vec<u8> {
    text.as_bytes().chunks(2).map(|two| u8::from_str_radix(std::str::from_utf8(two).unwrap(), 16).unwrap()).collect()
}

fn string(bytes: &[u8]) -> Vec<u8> {
    [&u32::try_from(bytes.len()).unwrap().to_be_bytes(), bytes].concat()
}

fn blob(public: &[u8]) -> Vec<u8> {
    [string(b"ssh-ed25519"), string(public)].concat()
}

fn armoured(bytes: &[u8]) -> Vec<u8> {
    format!("{BEGIN}{}{END}", STANDARD.encode(bytes)).into_bytes()
}

fn unarmoured(file: &[u8]) -> Vec<u8> {
    let text = std::str::from_utf8(file).unwrap();
    let inner = text.strip_prefix(BEGIN).unwrap().strip_suffix(END).unwrap();
    STANDARD.decode(inner.replace('\n', "")).unwrap()
}

fn outer() -> String {
    verified(BAG).unwrap().outer_text.to_string()
}

/// Whether a file is a signature of this message; who signed, or why not.
fn held(file: &[u8], message: &str) -> Result<Key, String> {
    let signature = Signature::read(file)?;
    signature.holds(message.as_bytes()).map(|()| signature.key)
}

/// What is put into a signature that is made here, apart from the message.
#[derive(Clone)]
struct Parts {
    version: u32,
    namespace: Vec<u8>,
    reserved: Vec<u8>,
    hash: &'static str,
    /// Another public key than that of the secret one.
    public: Option<Vec<u8>>,
}

fn usual() -> Parts {
    Parts { version: 1, namespace: NAMESPACE.into(), reserved: Vec::new(), hash: "sha512", public: None }
}

/// A signature over a message that is valid for what it says, after PROTOCOL.sshsig.
fn made(parts: &Parts, message: &str) -> Vec<u8> {
    let secret = SigningKey::from_bytes(&hex(SECRET).try_into().unwrap());
    let digest =
        if parts.hash == "sha256" { Sha256::digest(message).to_vec() } else { Sha512::digest(message).to_vec() };
    let said = [string(&parts.namespace), string(&parts.reserved), string(parts.hash.as_bytes())].concat();
    let signature = secret.sign(&[b"SSHSIG".as_slice(), &said, &string(&digest)].concat()).to_bytes();
    let public = parts.public.clone().unwrap_or_else(|| secret.verifying_key().to_bytes().to_vec());
    let all = [
        b"SSHSIG".as_slice(),
        &parts.version.to_be_bytes(),
        &string(&blob(&public)),
        &said,
        &string(&[string(b"ssh-ed25519"), string(&signature)].concat()),
    ];
    all.concat()
}

/// RFC 8032, 7.1: tests 1, 2, 3 and SHA(abc).
#[test]
fn ed25519_is_that_of_the_standard() {
    let tests = [
        (
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            "",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            "72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
        (
            "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
            "af82",
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
        ),
        (
            "ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
            "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f",
            "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704",
        ),
    ];
    for (public, message, signature) in tests {
        let key = Key::read(&blob(&hex(public))).unwrap();
        let (message, signature): (Vec<u8>, [u8; 64]) = (hex(message), hex(signature).try_into().unwrap());
        assert!(key.signed(&message, &signature), "{public}");
        assert!(!key.signed(&[message.as_slice(), b"\0"].concat(), &signature), "{public}");
        for at in 0..64 {
            let mut changed = signature;
            changed[at] ^= 1;
            assert!(!key.signed(&message, &changed), "{public}, byte {at}");
        }
        // S + L says the same as S (RFC 8032, 5.1.7 step 1 refuses it). L: RFC 8032, 5.1, table 1.
        let order = hex("edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010");
        let (mut other, mut carry) = (signature, 0);
        for (to, by) in other[32..].iter_mut().zip(order) {
            let sum = u16::from(*to) + u16::from(by) + carry;
            (*to, carry) = (sum as u8, sum >> 8);
        }
        assert!(carry == 0 && !key.signed(&message, &other), "{public}: another writing of the same number");
    }
}

/// The neutral element as key and point, with S = 0, fits every message if it is let through.
#[test]
fn a_key_that_fits_every_message_fits_none() {
    let mut neutral = [0; 32];
    neutral[0] = 1;
    let mut signature = [0; 64];
    signature[0] = 1;
    let key = Key::read(&blob(&neutral)).unwrap();
    assert!(!key.signed(b"anything", &signature));
}

#[test]
fn a_signature_of_ssh_keygen_holds() {
    let key = held(MADE, &outer()).unwrap();
    let listed = Signers::read(SIGNERS).unwrap();
    assert_eq!(listed.who(&key, None).unwrap(), "maren@oake.example");
    assert!(key.fingerprint().starts_with("SHA256:") && key.fingerprint().len() == 7 + 43);
    let other = outer().replace("revision A", "revision B");
    let why = held(MADE, &other).unwrap_err();
    assert_eq!(why, format!("the key {} did not sign this revision, or the signature was changed", key.fingerprint()));
    // As mail and other systems leave it.
    let text = std::str::from_utf8(MADE).unwrap();
    for same in [text.replace('\n', "\r\n"), text.trim_end().into(), format!("{text}\n\n")] {
        assert_eq!(held(same.as_bytes(), &outer()), Ok(key.clone()), "{same}");
    }
    assert_eq!(held(&armoured(&unarmoured(MADE)), &outer()), Ok(key), "in one line");
}

/// The fingerprint is the digest of the key in base64 without padding (RFC 4648, 4).
#[test]
fn a_fingerprint_is_that_of_the_key() {
    let public = blob(&hex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a"));
    let print = Key::read(&public).unwrap().fingerprint();
    let digest = STANDARD.decode(format!("{}=", print.strip_prefix("SHA256:").unwrap())).unwrap();
    assert_eq!(digest, sha256(&public).0);
}

#[test]
fn no_change_of_a_signature_passes() {
    let (message, bytes) = (outer(), unarmoured(MADE));
    for at in 0..bytes.len() {
        for bit in 0..8 {
            let mut changed = bytes.clone();
            changed[at] ^= 1 << bit;
            assert!(held(&armoured(&changed), &message).is_err(), "byte {at}, bit {bit}");
        }
        assert!(held(&armoured(&bytes[..at]), &message).is_err(), "cut off at {at}");
        let twice = [&bytes[..at], &bytes[at..=at], &bytes[at..]].concat();
        assert!(held(&armoured(&twice), &message).is_err(), "byte {at} twice");
    }
    assert!(held(&armoured(&[bytes.as_slice(), b"\0"].concat()), &message).is_err());
    // The file itself: but for line ends, which say nothing.
    for at in 0..MADE.len() {
        for bit in 0..8 {
            let mut changed = MADE.to_vec();
            changed[at] ^= 1 << bit;
            assert!(held(&changed, &message).is_err(), "byte {at} of the file, bit {bit}");
        }
        assert!(at + 1 == MADE.len() || held(&MADE[..at], &message).is_err(), "the file cut off at {at}");
    }
    for at in 0..message.len() {
        let mut other = message.clone().into_bytes();
        other[at] ^= 1;
        assert!(Signature::read(MADE).unwrap().holds(&other).is_err(), "byte {at} of the message");
    }
}

#[test]
fn what_is_wrong_with_a_signature_is_named() {
    let message = outer();
    for hash in ["sha256", "sha512"] {
        assert!(held(&armoured(&made(&Parts { hash, ..usual() }, &message)), &message).is_ok(), "{hash}");
    }
    let why = |parts: &Parts| held(&armoured(&made(parts, &message)), &message).unwrap_err();
    let file = Parts { namespace: "file".into(), ..usual() };
    assert_eq!(why(&file), "it was made for the namespace \"file\", not for \"backtack-revision\"");
    let long = Parts { namespace: "a\n".repeat(50).into(), ..usual() };
    assert!(why(&long).contains("a\\na\\n") && !why(&long).contains('\n') && why(&long).len() < 160, "{}", why(&long));
    assert_eq!(why(&Parts { hash: "sha1", ..usual() }), "its hash is \"sha1\", not sha256 or sha512");
    let version = why(&Parts { version: 2, ..usual() });
    assert_eq!(version, "it is of version 2; this version of backtack reads 1");
    let reserved = why(&Parts { reserved: b"x".into(), ..usual() });
    assert_eq!(reserved, "its reserved field is not empty, and what it means is not known");
    // The hash that was signed is not the one that is named.
    let bytes = made(&usual(), &message);
    let at = bytes.windows(6).position(|part| part == b"sha512").unwrap();
    let named = [&bytes[..at], b"sha256", &bytes[at + 6..]].concat();
    assert!(held(&armoured(&named), &message).unwrap_err().contains("did not sign this revision"));
    // One key signed, another is named.
    let public = hex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
    let two = why(&Parts { public: Some(public.clone()), ..usual() });
    let other = Key::read(&blob(&public)).unwrap().fingerprint();
    assert_eq!(two, format!("the key {other} did not sign this revision, or the signature was changed"));
    // No point of the curve: y = 2 (RFC 8032, 5.1.3).
    let mut none = vec![0; 32];
    none[0] = 2;
    assert_eq!(why(&Parts { public: Some(none), ..usual() }), "its key is no ssh-ed25519 key");
    let file = |text: &str| Signature::read(text.as_bytes()).unwrap_err();
    let text = String::from_utf8(MADE.to_vec()).unwrap();
    assert!(file("").starts_with("it is no signature: its first line"));
    assert!(file(&text[1..]).starts_with("it is no signature"));
    assert_eq!(file(&text[..100]), "it is cut off: the line -----END SSH SIGNATURE----- is missing");
    assert_eq!(file(&format!("{text}{text}")), "something follows its last line");
    let space = text.replacen("U1NI", "U1N ", 1);
    assert_eq!(file(&space), "what stands between its first and last line is not base64");
    assert_eq!(file(&format!("{BEGIN}{END}")), "it holds no SSH signature");
    assert_eq!(file(&format!("{BEGIN}U1NIU0lH{END}")), "it is cut off or was changed");
    assert_eq!(Signature::read(b"-----BEGIN\xff").unwrap_err(), "it is no text");
}

/// RSA of 1024 bits is long enough to be read as one; its numbers are of no concern.
#[test]
fn a_signature_of_another_kind_of_key_is_not_vouched_for() {
    let rsa = [string(b"ssh-rsa"), string(&[1, 0, 1]), string(&[0x7f; 128])].concat();
    let all = [
        b"SSHSIG\0\0\0\x01".to_vec(),
        string(&rsa),
        string(NAMESPACE.as_bytes()),
        string(b""),
        string(b"sha512"),
        string(&[string(b"rsa-sha2-512"), string(&[0x5a; 128])].concat()),
    ];
    let why = Signature::read(&armoured(&all.concat())).unwrap_err();
    assert_eq!(why, "it was made with a key of kind ssh-rsa; only ssh-ed25519 is checked here");
}

fn public(name: u8) -> String {
    let key = SigningKey::from_bytes(&[name; 32]).verifying_key();
    format!("ssh-ed25519 {}", STANDARD.encode(blob(key.as_bytes())))
}

fn key(name: u8) -> Key {
    Key::read(&blob(SigningKey::from_bytes(&[name; 32]).verifying_key().as_bytes())).unwrap()
}

#[test]
fn a_list_says_whose_key_it_is() {
    let (one, two) = (public(1), public(2));
    let rsa = STANDARD.encode([string(b"ssh-rsa"), string(&[1, 0, 1]), string(&[0x7f; 128])].concat());
    let text = format!(
        "# Who signs.\n\n  maren@oake.example {one} her own\n\tjo@oake.example,jo {two}\r\nit@oake.example ssh-rsa {rsa}\n\
         desk@oake.example namespaces=\"file,backtack-*\" {two} the same key again\n"
    );
    let list = Signers::read(&text).unwrap();
    assert_eq!(list.who(&key(1), None).as_deref(), Ok("maren@oake.example"));
    assert_eq!(list.who(&key(2), None).as_deref(), Ok("jo@oake.example,jo, desk@oake.example"));
    let unknown = format!("the key {} is not in the list of signers", key(3).fingerprint());
    assert_eq!(list.who(&key(3), None), Err(unknown));
}

#[test]
fn a_key_signs_for_its_namespaces_and_days_only() {
    let day = |text: &str| text.parse::<Date>().ok();
    let who = |options: &str, text: &str| {
        let list = Signers::read(&format!("maren {options} {}", public(1))).unwrap();
        list.who(&key(1), day(text))
    };
    let patterns = [
        ("backtack-revision", true),
        ("file,backtack-revision", true),
        ("backtack-*", true),
        ("*", true),
        ("**-*i?n", true),
        ("?acktack-revision", true),
        ("*,!backtack-*", false),
        ("!file,*", true),
        ("!file", false),
        ("backtack", false),
        ("backtack-revision?", false),
        ("Backtack-Revision", false),
        ("", false),
    ];
    for (patterns, good) in patterns {
        let told = who(&format!("NameSpaces=\"{patterns}\""), "2026-11-20");
        assert_eq!(told.is_ok(), good, "{patterns}: {told:?}");
        assert!(good || told.unwrap_err() == "maren may not sign for the namespace \"backtack-revision\"");
    }
    let early = Err("maren may not sign as early as 2026-11-20".to_string());
    let late = Err("maren may no longer sign on 2026-11-20".to_string());
    let times = [
        ("valid-after=\"20261120\"", Ok("maren".to_string())),
        ("valid-after=\"20261120Z\"", Ok("maren".to_string())),
        ("valid-after=\"202611200000\"", Ok("maren".to_string())),
        ("valid-after=\"20261120000001\"", early.clone()),
        ("valid-after=\"20261121\"", early),
        ("valid-before=\"20261121\"", Ok("maren".to_string())),
        ("valid-before=\"20261120\"", late.clone()),
        ("valid-before=\"20261120235959Z\"", late),
        ("valid-after=\"20260101\",valid-before=\"20270101\",namespaces=\"*\"", Ok("maren".to_string())),
    ];
    for (options, told) in times {
        assert_eq!(who(options, "2026-11-20"), told, "{options}");
    }
    let undated = who("valid-after=\"20261120\"", "");
    assert_eq!(undated.unwrap_err(), "maren may sign for a time, and the revision has no date");
}

#[test]
fn what_a_list_must_not_say_is_named_with_its_line() {
    let one = public(1);
    let base = one.strip_prefix("ssh-ed25519 ").unwrap();
    let cases = [
        (String::new(), "it lists no key"),
        ("# nobody\n".into(), "it lists no key"),
        ("maren".into(), "line 1: \"\" is neither an option nor a kind of key"),
        (format!("\n# x\nmaren {base}"), "line 3: \"AAAAC3NzaC1lZDI1NTE5AAAA"),
        (format!("maren cert-authority {one}"), "line 1: certificates are not read (cert-authority)"),
        (format!("maren no-pty {one}"), "line 1: \"no-pty\" is neither an option nor a kind of key"),
        (format!("maren valid-after=20261120 {one}"), "line 1: the value of valid-after does not stand in quotes"),
        (format!("maren valid-after=\"2026\" {one}"), "line 1: \"2026\" is no time such as 20261120"),
        (format!("maren valid-after=\"20260230\" {one}"), "line 1: \"20260230\" is no time"),
        (format!("maren valid-after=\"202602282400\" {one}"), "line 1: \"202602282400\" is no time"),
        (format!("maren namespaces=\"a {one}"), "line 1: a quote is not closed"),
        (format!("maren namespaces=\"a\\b\" {one}"), "line 1: the value of namespaces does not stand in quotes"),
        (format!("maren namespaces=\"a\",namespaces=\"b\" {one}"), "line 1: namespaces stands there twice"),
        (format!("maren namespaces=\"a\", {one}"), "line 1: \"\" is neither an option nor a kind of key"),
        (
            format!("maren valid-after=\"20261120\",valid-before=\"20261120\" {one}"),
            "line 1: valid-before is not after valid-after",
        ),
        (format!("\"maren oake\" {one}"), "line 1: names in quotes are not read"),
        ("maren ssh-ed25519".into(), "line 1: it has no key"),
        ("maren ssh-ed25519 AAAA!".into(), "line 1: its key is not base64"),
        ("maren ssh-ed25519 AAAA".into(), "line 1: its key is cut off or was changed"),
        (format!("maren ssh-rsa {base}"), "line 1: its key is of kind ssh-ed25519, not ssh-rsa"),
        (format!("maren ssh-dss {base}"), "line 1: \"ssh-dss\" is neither an option nor a kind of key"),
        (format!("maren namespaces=\"a\" ssh-dss {base}"), "line 1: \"ssh-dss\" is no kind of key"),
        (format!("maren {one}\nmaren {}", &one[..one.len() - 8]), "line 2: its key is no ssh-ed25519 key"),
    ];
    for (text, said) in cases {
        let why = Signers::read(&text).unwrap_err();
        assert!(why.starts_with(said) && !why.contains('\n'), "{text}: {why}");
    }
}
