//! Sealed revisions: what is changed is found, whatever it is; what is hostile is refused.

mod archives;
mod bare;
mod issued;
mod made;
mod pdfs;
mod signatures;

use backtack_core::diag::{Finding, Findings, Severity};
use backtack_core::revision::chain::{Link, next, ordered};
use backtack_core::revision::manifest::{Inner, Outer};
use backtack_core::revision::seal::{Own, sealed, verified};
use backtack_core::revision::{Digest, keyed, release};
use backtack_core::rules;

use made::{FINDINGS, own_files, parts, revision, title};

/// Numbers that look random and are the same every time (a linear congruential generator; Knuth, TAOCP 2, 3.3.4, line 26).
pub struct Numbers(pub u64);

impl Numbers {
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % limit
    }
}

fn why(bytes: &[u8]) -> String {
    verified(bytes).err().map_or_else(|| "it holds".into(), |fault| fault.to_string())
}

#[test]
fn a_sealed_revision_holds_and_says_what_it_is() {
    let (bytes, digest) = revision("B", "2026-11-20", None);
    let sealed = verified(&bytes).unwrap();
    assert_eq!((sealed.digest, sealed.outer.before), (digest, None));
    assert_eq!(sealed.inner.title, Some(title("B", "2026-11-20")));
    assert_eq!(sealed.files, own_files());
    assert_eq!(sealed.findings, FINDINGS.as_bytes());
    // Three things are the own edition's alone or otherwise: findings, figures, the private file, the commented one.
    assert_eq!((sealed.inner.own.len(), sealed.inner.files.len()), (4, 2));
    assert_eq!(bytes, revision("B", "2026-11-20", None).0, "the same every time");
}

/// RFC 4231, test cases 1 and 2. A key shorter than a block is filled up with zeros (RFC 2104, 2).
#[test]
fn salted_digests_are_hmac() {
    let key = |bytes: &[u8]| -> [u8; 32] { std::array::from_fn(|at| bytes.get(at).copied().unwrap_or(0)) };
    let one = keyed(&key(&[0x0b; 20]), &[b"Hi ", b"There"]);
    assert_eq!(one.hex(), "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7");
    let two = keyed(&key(b"Jefe"), &[b"what do ya want for nothing?"]);
    assert_eq!(two.hex(), "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
    assert_eq!(Digest::parse(&two.hex()), Some(two));
    assert!(Digest::parse(&two.hex().to_uppercase()).is_none() && Digest::parse(&two.hex()[1..]).is_none());
}

#[test]
fn none_of_ten_thousand_changes_of_a_byte_is_missed() {
    let (bytes, _) = revision("B", "2026-11-20", None);
    let mut numbers = Numbers(1);
    for _ in 0..10_000 {
        let (at, change) = (numbers.below(bytes.len()), numbers.below(255) as u8 + 1);
        let mut changed = bytes.clone();
        changed[at] ^= change;
        assert!(verified(&changed).is_err(), "byte {at} changed by {change}");
    }
}

#[test]
fn every_byte_counts_and_so_does_the_length() {
    let (bytes, _) = revision("B", "2026-11-20", None);
    for at in 0..bytes.len() {
        let mut changed = bytes.clone();
        changed[at] ^= 1 << (at % 8);
        assert!(verified(&changed).is_err(), "byte {at}");
        assert!(verified(&bytes[..at]).is_err(), "cut off at {at}");
        changed[at] ^= 1 << (at % 8);
        changed.insert(at, changed[at]);
        assert!(verified(&changed).is_err(), "byte {at} twice");
        changed.drain(at..at + 2);
        assert!(verified(&changed).is_err(), "byte {at} left out");
    }
    assert!(verified(&[bytes.as_slice(), b"\0"].concat()).is_err());
}

#[test]
fn what_was_changed_is_named() {
    let (bytes, _) = revision("B", "2026-11-20", None);
    let text = |from: &str, to: &str| {
        let at = bytes.windows(from.len()).position(|part| part == from.as_bytes()).unwrap();
        let mut changed = bytes.clone();
        changed[at..at + to.len()].copy_from_slice(to.as_bytes());
        changed
    };
    assert!(why(&text("# 4711", "# 4811")).starts_with("files/private/cost.toml does not match its checksum"));
    assert_eq!(why(&bytes[..bytes.len() - 5]), format!("it is cut off at byte {}", bytes.len() - 5));
    assert!(why(&bytes[..200]).starts_with("from byte 0 on it is cut off or was changed"), "{}", why(&bytes[..200]));
    assert_eq!(why(b"PDF"), "it is no archive of backtack");
}

/// Forged with everything that a program can put right again: the archive is as it should be, a manifest is not.
#[test]
fn what_was_made_anew_is_named() {
    let made = parts(title("B", "2026-11-20"));
    let salt = backtack_core::revision::seal::salt(&made::SECRET, "B");
    let again = |inner: &Inner, files: &[(&str, &[u8])], pdf: &[u8]| {
        let own = Own { findings: FINDINGS, figures: "{\"mass\": 1, \"cost\": 4713}\n", files };
        why(&sealed(inner, None, &salt, &own, pdf).unwrap().0)
    };
    let (inner, files, pdf) = (&made.inner, own_files(), made.pdf());
    assert_eq!(again(inner, &files, &pdf), "it holds");
    let mut forged = files.clone();
    forged[0].1 = b"[piece.B]\n";
    assert_eq!(again(inner, &forged, &pdf), "files/pieces.toml is not the one that was sealed");
    assert_eq!(again(inner, &files[..2], &pdf), "1 of the sealed files are missing");
    let more = [files.clone(), vec![("z.toml", b"1".as_slice())]].concat();
    assert_eq!(again(inner, &more, &pdf), "files/z.toml is not the one that was sealed");
    let other = parts(title("C", "2026-11-20"));
    assert_eq!(again(inner, &files, &other.pdf()), "the manifest attached to package.pdf is not the inner manifest");
    let bare = Inner { title: None, ..inner.clone() };
    assert_eq!(again(&bare, &files, &pdf), "the inner manifest is not that of a sealed revision");
    assert!(again(inner, &files, b"%PDF-1.7").starts_with("package.pdf: it is cut off"));
}

#[test]
fn manifests_are_read_as_they_are_written_and_not_otherwise() {
    let inner = parts(title("B", "2026-11-20")).inner;
    assert_eq!(Inner::parse(&inner.text()), Ok(inner.clone()));
    let outer = Outer { revision: "B".into(), inner: Digest([1; 32]), pdf: Digest([2; 32]), before: None };
    assert_eq!(Outer::parse(&outer.text()), Ok(outer.clone()));
    for (from, to, said) in [
        ("date 2026-11-20\n", "", "line 6 does not say `date`"),
        (
            "date 2026-11-20",
            "date 2026-11-31",
            "line 6: \"2026-11-31\" is no date; write year, month and day: 2026-11-20",
        ),
        ("by Maren Oake", "by  Maren Oake", "line 7: it begins or ends with white space"),
        ("folder \n", "folder \nfolder \n", "line 10 does not say `figures`"),
        (
            "manifest 1",
            "manifest 2",
            "it begins with \"backtack manifest 2\"; this version reads \"backtack manifest 1\"",
        ),
    ] {
        assert_eq!(Inner::parse(&inner.text().replace(from, to)).unwrap_err().to_string(), said, "{from}");
    }
    assert!(Inner::parse(&format!("{}\n", inner.text())).is_err());
    assert!(Inner::parse(&inner.text().to_uppercase()).is_err());
}

/// What was sealed once opens for ever: the bag that `new` starts, sealed with the first version that could.
#[test]
fn a_sealed_file_of_an_earlier_version_holds() {
    let sealed = verified(include_bytes!("../sealed/bag.sealed")).unwrap();
    assert_eq!(sealed.digest.hex(), include_str!("../sealed/bag.digest").trim());
    assert_eq!(sealed.inner.title.as_ref().map(|title| title.reason.as_str()), Some("First samples"));
    let loaded = crate::closure(&sealed.inner.folder, sealed.files.iter().copied());
    assert!(sealed.files.len() == 8 && loaded.broken.is_empty() && loaded.model.pieces.contains_key("PANEL"));
}

/// Links of revisions by their names and dates, each after the one before.
fn links(all: &[(&str, &str)]) -> Vec<Link> {
    let mut before = None;
    let link = |(name, date): &(&str, &str)| {
        let (bytes, digest) = revision(name, date, before);
        before = Some(digest);
        Link::of(name, &verified(&bytes).unwrap())
    };
    all.iter().map(link).collect()
}

const THREE: [(&str, &str); 3] = [("A", "2026-01-01"), ("B", "2026-02-01"), ("C", "2026-02-01")];

#[test]
fn a_chain_is_followed_from_its_first_revision_to_its_newest() {
    let mut all = links(&THREE);
    let head = all[2].digest;
    all.reverse();
    let names: Vec<&str> = ordered(&all, Some(head)).unwrap().iter().map(|link| link.revision.as_str()).collect();
    assert_eq!(names, ["A", "B", "C"]);
    assert!(ordered(&[], None).unwrap().is_empty());
}

#[test]
fn faults_of_a_chain_are_named() {
    let all = links(&THREE);
    let head = all[2].digest;
    let fault = |links: &[Link], head| ordered(links, head).unwrap_err().to_string();
    // Dropped.
    let lost = [all[0].clone(), all[2].clone()];
    assert_eq!(
        fault(&lost, None),
        "the revision before C is missing or was replaced: C does not follow A, the last one that can be followed"
    );
    assert_eq!(fault(&all[1..], None), "the revision before B is missing, and so is the first one");
    // The newest left out is found from outside only.
    assert_eq!(ordered(&all[..2], None).map(|chain| chain.len()), Ok(2));
    assert!(fault(&all[..2], Some(head)).starts_with("the newest revision here, B, is not the one with the digest "));
    assert_eq!(fault(&all, Some(all[1].digest)), "revision B is older than the newest here, C");
    // So does the digest of the manifest, which the confirmation sheet prints.
    assert_eq!(ordered(&all, Some(all[2].manifest)).map(|chain| chain.len()), Ok(3));
    assert!(fault(&all[..2], Some(all[2].manifest)).starts_with("the newest revision here, B, is not the one"));
    assert!(fault(&[], Some(head)).starts_with("there is no revision"));
    // Swapped.
    let mut swapped = all.clone();
    (swapped[1].file, swapped[2].file) = ("C".into(), "B".into());
    assert_eq!(fault(&swapped, None), "C holds revision B: it was renamed or swapped");
    // Forged: sealed again with everything put right, so that it is another revision.
    let (bytes, _) = revision("B", "2026-02-02", Some(all[0].digest));
    let forged = Link::of("B", &verified(&bytes).unwrap());
    let replaced = [all[0].clone(), forged.clone(), all[2].clone()];
    assert!(fault(&replaced, None).contains("C does not follow B"), "{}", fault(&replaced, None));
    let beside = [all.clone(), vec![Link { file: "D".into(), revision: "D".into(), ..forged }]].concat();
    assert!(fault(&beside, None).starts_with("revisions B and D follow the same revision"));
    let two = [all[0].clone(), links(&[("Z", "2026-01-01")])[0].clone()];
    assert!(fault(&two, None).starts_with("revisions A and Z both say that none is before them"));
    // Not to be made by `seal`, but by hand.
    let back = links(&[("A", "2026-02-01"), ("B", "2026-01-31")]);
    assert_eq!(fault(&back, None), "revision B of 2026-01-31 follows A of 2026-02-01");
    let mut other = all;
    other[2].style = "PB-007".into();
    assert_eq!(fault(&other, None), "revision B is of style HF-118, revision C of PB-007");
}

#[test]
fn a_next_revision_has_a_new_name_and_no_earlier_date() {
    let all = links(&THREE);
    let chain = ordered(&all, None).unwrap();
    let day = |text: &str| text.parse().unwrap();
    assert_eq!(next(&chain, "D", "HF-118", day("2026-02-01")), Ok(()));
    let fault = |name, style, date| next(&chain, name, style, day(date)).unwrap_err().to_string();
    assert_eq!(fault("b", "HF-118", "2026-03-01"), "revision B was sealed on 2026-02-01; a name is never used again");
    assert_eq!(fault("D", "HF-118", "2026-01-31"), "2026-01-31 is before 2026-02-01, the day revision C was sealed");
    assert_eq!(fault("D", "PB-007", "2026-03-01"), "the sealed revisions are of style HF-118, not PB-007");
    assert_eq!(next(&[], "A", "PB-007", day("2026-03-01")), Ok(()));
}

/// The severities of a specification can be higher for a seal, never lower: no rule is silenced.
#[test]
fn no_severity_of_a_specification_lets_a_must_pass() {
    for rule in rules::all().into_iter().filter(|rule| rule.severity == Severity::Must) {
        let mut raw = Findings::default();
        raw.push(Finding::new(rule, "it"));
        for level in [None, Some(Severity::Note), Some(Severity::Should), Some(Severity::Must)] {
            let levels = [(rule.code.to_string(), level)].into();
            let firm = release::firm(raw.clone(), &levels);
            assert_eq!(release::standing(&firm).len(), 1, "{} at {level:?}", rule.code);
        }
    }
    let rule = rules::all().into_iter().find(|rule| rule.severity == Severity::Note).unwrap();
    let mut raw = Findings::default();
    raw.push(Finding::new(rule, "it"));
    assert!(release::standing(&release::firm(raw.clone(), &Default::default())).is_empty());
    let raised = [(rule.code.to_string(), Some(Severity::Must))].into();
    assert_eq!(release::standing(&release::firm(raw.clone(), &raised)).len(), 1);
    // A rule that is a must here only because of the stage stays one.
    let mut staged = Findings::default();
    staged.push(Finding { severity: Severity::Must, ..Finding::new(rule, "it") });
    let off = [(rule.code.to_string(), None)].into();
    assert_eq!(release::standing(&release::firm(staged, &off)).len(), 1);
}
