//! Signatures of sealed revisions as a user sees them, and beside `ssh-keygen` where that is installed.

use std::process::{Command, Stdio};

use backtack_core::revision::seal::verified;
use backtack_core::revision::signature::NAMESPACE;

use crate::folder::{Ran, Scratch};

const SEALED: &[u8] = include_bytes!("../sealed/bag.sealed");
const SIGNATURE: &str = include_str!("../sealed/bag.sig");
const SIGNERS: &str = include_str!("../sealed/signers");
const KEY: &str = include_str!("../sealed/bag.key").trim_ascii_end();
/// A key of the list that signed nothing: RFC 8032, 7.1, test 1.
const OTHER: &str = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3BxEa";
const WHO: &str = "maren@oake.example";

/// The sealed bag as revision A of a folder, its signature beside it, and two lists.
fn signed() -> Scratch {
    let scratch = Scratch::new();
    scratch.write("bag/revisions/A.sealed", SEALED);
    scratch.write("bag/revisions/A.sig", SIGNATURE);
    scratch.write("signers", SIGNERS);
    scratch.write("others", format!("jo@oake.example {OTHER}\n"));
    scratch
}

/// That something is wrong, told in one line.
fn fault(ran: &Ran, said: &str) {
    assert!(ran.code == 1 && ran.err.is_empty() && ran.out.lines().count() == 1, "{ran:?}");
    assert!(ran.out.contains(said), "{ran:?} does not say {said}");
}

#[test]
fn a_signature_beside_a_sealed_file_is_told() {
    let scratch = signed();
    for path in ["bag", "bag/revisions/A.sealed"] {
        let ran = scratch.run(&["verify", path]);
        let (said, meaning) = (format!("signed with the key {KEY}; no list says whose it is\n"), "a factory's chop");
        assert!(ran.code == 0 && ran.out.contains(&said) && ran.out.contains(meaning), "{ran:?}");
        let ran = scratch.run(&["verify", path, "--signers", "signers"]);
        assert!(ran.code == 0 && ran.out.contains(&format!("signed by {WHO} with the key {KEY}\n")), "{ran:?}");
        let unknown = format!("A.sig: the key {KEY} is not in the list of signers");
        fault(&scratch.run(&["verify", path, "--signers", "others"]), &unknown);
        scratch.write("bag/revisions/A.sig", SIGNATURE.replacen("U1NI", "U1NJ", 1));
        fault(&scratch.run(&["verify", path]), "A.sig: it holds no SSH signature");
        scratch.write("bag/revisions/A.sig", "");
        fault(&scratch.run(&["verify", path]), "A.sig: it is no signature");
        scratch.write("bag/revisions/A.sig", SIGNATURE);
    }
    // Named, wherever it is; the one beside the sealed file is not asked then.
    std::fs::rename(scratch.path("bag/revisions/A.sig"), scratch.path("elsewhere")).unwrap();
    let ran = scratch.run(&["verify", "bag/revisions/A.sealed", "--signature", "elsewhere", "--signers", "signers"]);
    assert!(ran.code == 0 && ran.out.contains(WHO), "{ran:?}");
    let ran = scratch.run(&["verify", "bag/revisions/A.sealed"]);
    assert!(ran.code == 0 && !ran.out.contains("sign"), "{ran:?}");
    let ran = scratch.run(&["verify", "bag", "--signers", "signers"]);
    assert!(ran.code == 0 && ran.out.contains("First samples\n  not signed\n"), "{ran:?}");
    scratch.write("bag/revisions/B.sig", SIGNATURE);
    fault(&scratch.run(&["verify", "bag"]), "B.sig: the sealed revision it belongs to is missing");
}

#[test]
fn what_cannot_be_asked_of_a_signature_is_one_line() {
    let scratch = signed();
    let sealed = "bag/revisions/A.sealed";
    let refused = |arguments: &[&str], why: &str| {
        scratch.run(&[&["verify"], arguments].concat()).refused(why);
    };
    refused(&[sealed, "--signature", "none"], "none: there is no such file");
    refused(&[sealed, "--signature", "bag"], "bag: it is a folder, not a file");
    refused(&[sealed, "--signers", "none"], "none: there is no such file");
    refused(&[sealed, "--signers", "bag/revisions/A.sig"], "A.sig: line 1: \"SSH\" is neither an option nor a kind");
    refused(&["bag", "--signature", "bag/revisions/A.sig"], "--signature goes with one sealed file");
    scratch.write("a.pdf", "%PDF-1.7");
    refused(&["a.pdf", "--signature", "bag/revisions/A.sig"], "what is signed is the sealed file");
    scratch.write("lone/A.sealed", SEALED);
    refused(&["lone/A.sealed", "--signers", "signers"], "no signature is beside it; name it with --signature");
    // Nothing of a list steers a terminal.
    scratch.write("evil", SIGNERS.replace(WHO, "\u{1b}[2Jmaren"));
    let ran = scratch.run(&["verify", sealed, "--signers", "evil"]);
    assert!(ran.code == 0 && !ran.out.contains('\u{1b}'), "{ran:?}");
}

/// `ssh-keygen` run in the folder, its input a file; none if it is not installed.
fn keygen(scratch: &Scratch, input: &str, arguments: &[&str]) -> Option<std::process::Output> {
    let input = std::fs::File::open(scratch.path(input)).unwrap();
    let mut command = Command::new("ssh-keygen");
    let ran = command.args(arguments).current_dir(scratch.path("")).stdin(Stdio::from(input)).output();
    match ran {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            #[expect(clippy::print_stderr, reason = "why a test was left out")]
            {
                eprintln!("skipped: ssh-keygen is not installed");
            }
            None
        }
        ran => Some(ran.unwrap()),
    }
}

fn done(output: &std::process::Output) -> bool {
    output.status.success()
}

/// What is made with OpenSSH is taken here, and what it refuses is refused here.
#[test]
fn ssh_keygen_and_this_program_agree() {
    let scratch = Scratch::new();
    scratch.write("A.sealed", SEALED);
    scratch.write("outer.txt", verified(SEALED).unwrap().outer_text);
    let run = |arguments: &[&str]| keygen(&scratch, "outer.txt", arguments);
    for (name, kind) in [("one", "ed25519"), ("two", "ed25519"), ("rsa", "rsa")] {
        let Some(made) = run(&["-q", "-t", kind, "-N", "", "-C", "", "-f", name]) else { return };
        assert!(done(&made), "{made:?}");
    }
    let public = |name: &str| String::from_utf8(scratch.read(&format!("{name}.pub"))).unwrap().trim().to_owned();
    let sign = |key: &str, namespace: &str, hash: &str| {
        let hash = format!("hashalg={hash}");
        let made = run(&["-Y", "sign", "-q", "-f", key, "-n", namespace, "-O", &hash]).unwrap();
        assert!(done(&made), "{made:?}");
        scratch.write("A.sig", made.stdout);
    };
    // The day of the sealed bag, at noon.
    let theirs = || {
        let time = "verify-time=20260115120000";
        let arguments = ["-Y", "verify", "-f", "list", "-I", WHO, "-n", NAMESPACE, "-s", "A.sig", "-O", time];
        done(&run(&arguments).unwrap())
    };
    let ours = || scratch.run(&["verify", "A.sealed", "--signature", "A.sig", "--signers", "list"]);
    let agree = |expected: bool, what: &str| {
        let ran = ours();
        assert_eq!((theirs(), ran.code == 0), (expected, expected), "{what}: {ran:?}");
    };
    scratch.write("list", format!("# x\n\n{WHO} {}\njo@oake.example {}\n", public("one"), public("two")));
    for hash in ["sha256", "sha512"] {
        sign("one", NAMESPACE, hash);
        agree(true, hash);
        let print = String::from_utf8(run(&["-l", "-f", "one.pub"]).unwrap().stdout).unwrap();
        let print = print.split(' ').nth(1).unwrap().to_owned();
        assert!(ours().out.contains(&format!("signed by {WHO} with the key {print}\n")), "{print}");
    }
    let good = scratch.read("A.sig");
    for at in (40..good.len() - 40).step_by(17) {
        let mut changed = good.clone();
        changed[at] = if changed[at] == b'A' { b'B' } else { b'A' };
        scratch.write("A.sig", changed);
        agree(false, &format!("byte {at}"));
    }
    sign("one", "file", "sha512");
    agree(false, "another namespace");
    scratch.write("list", format!("{WHO} {}\n", public("two")));
    sign("one", NAMESPACE, "sha512");
    agree(false, "a key that is not listed");
    for (options, good) in [
        ("namespaces=\"backtack-revision\"", true),
        ("namespaces=\"file,backtack-*\"", true),
        ("namespaces=\"file\"", false),
        ("namespaces=\"*,!backtack-revision\"", false),
        ("namespaces=\"*-r?vision\"", true),
        ("valid-after=\"20260115\"", true),
        ("valid-after=\"20260116\"", false),
        ("valid-before=\"20260116\"", true),
        ("valid-before=\"20260115\"", false),
        ("VALID-AFTER=\"202601150000\",valid-before=\"20260116000000Z\",namespaces=\"*\"", true),
        ("valid-after=\"20260110\",valid-before=\"20260110\"", false),
        ("valid-after=20260110", false),
        ("namespaces=\"a\",namespaces=\"*\"", false),
        ("wrong", false),
    ] {
        scratch.write("list", format!("{WHO} {options} {} a comment\n", public("one")));
        agree(good, options);
    }
    // What OpenSSH checks and this program does not is said, not passed over.
    scratch.write("list", format!("{WHO} {}\n", public("rsa")));
    sign("rsa", NAMESPACE, "sha512");
    assert!(theirs());
    fault(&ours(), "it was made with a key of kind ssh-rsa; only ssh-ed25519 is checked here");
}
