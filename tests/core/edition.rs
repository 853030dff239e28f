//! What the factory gets: nothing that is meant for the own edition only, in whatever way it is written.

use backtack_core::read::{self, Loaded};
use backtack_core::revision;

const SECRET: &str = "4711";

fn loaded(files: &[(&str, &[u8])]) -> Loaded {
    let base: (&str, &[u8]) = ("style.toml", b"[style]\nid = \"A\"\nname = \"N\"\nsizes = [\"S\", \"L\"]\n");
    read::files(&[&[base], files].concat())
}

/// The text of one file in the factory's edition.
fn edition(loaded: &Loaded, name: &str) -> Option<String> {
    let files = backtack_core::editions::factory_edition(loaded);
    files.iter().find(|(path, _)| path == name).map(|(_, bytes)| String::from_utf8_lossy(bytes).into_owned())
}

/// Own values in every form the files can have, good and bad.
const WRITTEN: &[&str] = &[
    "[fabric.a]\nmass = { value = \"4711 g/m2\", audience = \"own\" }",
    "[fabric.a]\nmass = { audience = \"own\", binding = \"confirm\", value = \"4711 g/m2\" }",
    "[fabric.a]\nmass = { value = \"4711 furlong\", audience = \"own\" }",
    "[fabric.a]\nmass = { value = 4711, audience = \"own\" }",
    "[fabric.a]\nmass = { value = \"4711 g/m2\", audience = \"Own\" }",
    "[fabric.a]\nmass = { value = \"4711 g/m2\", audience = true }",
    "[fabric.a]\nmass = { S = { value = \"4711 g/m2\", audience = \"own\" }, L = \"300 g/m2\" }",
    "[fabric.a]\nmass = { S = \"300 g/m2\", XXL = { value = \"4711 g/m2\", audience = \"own\" } }",
    "[fabric.a]\nprice = { value = \"4711 EUR\", audience = \"own\" }",
    "[cloht.a]\nmass = { value = \"4711 g/m2\", audience = \"own\" }",
    "[fabric.a]\ncolours = [{ value = \"c4711\", audience = \"own\" }]",
    "[fabric.a.mass]\nvalue = \"4711 g/m2\"\naudience = \"own\"",
    "[fabric.a]\nmass.value = \"4711 g/m2\"\nmass.audience = \"own\"",
    "[fabric.a]\nmass.audience = \"own\"\nmass.value = { S = \"4711 g/m2\", else = \"1 g/m2\" }",
    "[fabric.a]\nname = \"one\"\n[fabric.a]\nmass = { value = \"4711 g/m2\", audience = \"own\" }",
    "[fabric.a\nmass = { value = \"4711 g/m2\", audience = \"own\" }",
    "[fabric.a]\nname = \"open\nmass = { value = \"4711 g/m2\", audience = \"own\" }",
    "[fabric.a]\nnote = { value = \"\"\"\n4711\n\"\"\", audience = \"own\" }",
    "[fabric.a]\nnote = { value = 'ž } # 4711', audience = 'own' } # ž",
];

#[test]
fn own_values_leave_the_edition_however_they_are_written() {
    for text in WRITTEN {
        assert!(text.contains(SECRET));
        let loaded = loaded(&[("more.toml", text.as_bytes())]);
        let given = edition(&loaded, "more.toml").unwrap();
        assert!(!given.contains(SECRET), "{text}\n-- gives --\n{given}");
        assert!(given.contains("ithheld"), "{text}\n-- gives --\n{given}");
    }
}

/// The edition can be read again, and says that a value is withheld, not that it is missing.
#[test]
fn the_edition_reads_as_withheld() {
    for text in [WRITTEN[0], WRITTEN[1], WRITTEN[11], WRITTEN[12]] {
        let loaded = loaded(&[("more.toml", text.as_bytes())]);
        let given = edition(&loaded, "more.toml").unwrap();
        let again = self::loaded(&[("more.toml", given.as_bytes())]);
        let codes: Vec<&str> = again.findings.iter().map(|finding| finding.rule.code).collect();
        assert!(codes.is_empty(), "{given}\n{codes:?}");
        let article = &again.model.articles["a"];
        assert!(format!("{article:?}").contains("Withheld(\"own edition\")"), "{given}\n{article:#?}");
        assert!(!format!("{article:?}").contains(SECRET));
    }
}

/// What is for everyone stays as it was written, to the byte; comments are for nobody else.
#[test]
fn everything_else_stays() {
    for text in [
        "[fabric.a]\nmass = { value = \"4711 g/m2\", audience = \"everyone\" }\r\n",
        "[fabric.a]\nmass = { value = \"4711 g/m2\", binding = \"confirm\" }\n",
        "[fabric.a\nmass = \"4711 g/m2\"\n",
    ] {
        let loaded = loaded(&[("more.toml", text.as_bytes()), ("p.bin", &[0, 255])]);
        assert_eq!(edition(&loaded, "more.toml").as_deref(), Some(text));
        assert_eq!(edition(&loaded, "style.toml").map(|text| text.lines().count()), Some(4));
    }
}

#[test]
fn files_below_private_and_files_that_are_no_text_are_left_out() {
    let private = ["private/more.toml", "deep/private/more.toml", "Private/more.toml", "private/deep/picture.png"];
    for name in private {
        let loaded = loaded(&[(name, b"[fabric.a]\nname = \"4711\"\n")]);
        assert_eq!(edition(&loaded, name), None, "{name}");
    }
    let latin = b"[fabric.a]\nname = \"caf\xe9\"\nmass = { value = \"4711 g/m2\", audience = \"own\" }\n";
    let given = edition(&loaded(&[("latin.toml", latin)]), "latin.toml").unwrap();
    assert!(!given.contains(SECRET) && given.starts_with("# Withheld"), "{given}");
    assert!(edition(&loaded(&[("privateer.toml", b"[fabric.a]\n")]), "privateer.toml").is_some());
}

/// A finding about an own value says only that it stands, whether its place or just its number gives the value away.
#[test]
fn findings_give_no_own_value_away() {
    let text = b"[fabric.a]\nmass = { value = \"10 z4711\", audience = \"own\" }\nwidht = \"1 m\"\n";
    let loaded = loaded(&[("more.toml", text), ("private/x.toml", b"[fabric.secret4711]\nname = 4711\n")]);
    let all = loaded.findings.clone();
    assert!(all.iter().any(|finding| format!("{finding:?}").contains(SECRET)));
    let files = backtack_core::editions::factory_edition(&loaded);
    let again = crate::closure("", files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())));
    let shown = backtack_core::editions::shown(&loaded, &all, &again.findings);
    assert!(!format!("{shown:?}").contains(SECRET), "{shown:#?}");
    assert!(shown.iter().any(|finding| finding.message.english().contains("widht")));
    let must = |list: &backtack_core::diag::Findings| list.count(backtack_core::diag::Severity::Must);
    assert_eq!(must(&shown), must(&all), "what is in the way of a release stays in the way");
    // A number computed from own values is in no place of its own.
    let none = backtack_core::editions::shown(&loaded, &all, &Default::default());
    assert!(!none.iter().any(|finding| finding.message.english().contains("widht")), "not borne out by the edition");
}

const ORDER: &str =
    "[order.spring]\npo = \"4711\"\ncut-extra = \"2 %\"\n[order.spring.line.a]\nsize = \"S\"\nquantity = 4711\n";

/// A style is sealed, an order is not part of it: neither what the factory gets nor its digest knows of one.
#[test]
fn orders_leave_nothing_in_the_edition() {
    let none = loaded(&[]);
    let broken = format!("{ORDER}[oops\n");
    let quoted =
        ORDER.replace("[order.spring]", "[ \"order\" . spring ]").replace("[order.spring.", "[\"order\".spring.");
    for (path, text) in [
        ("orders/spring.toml", ORDER),
        ("spring.toml", ORDER),
        ("orders/deep/spring.toml", "[order.spring\npo = \"4711\"\n"),
        ("spring.toml", "order = { spring = { po = \"4711\" } }\n"),
        ("spring.toml", broken.as_str()),
        ("spring.toml", quoted.as_str()),
    ] {
        let with = loaded(&[(path, text.as_bytes())]);
        assert!(with.closure.iter().any(|(name, _)| name == path));
        let (with_files, none_files) =
            (backtack_core::editions::factory_edition(&with), backtack_core::editions::factory_edition(&none));
        assert_eq!(with_files, none_files, "{text}");
        let digest = |files: &[(String, Vec<u8>)]| {
            revision::of_files(files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())))
        };
        assert_eq!(digest(&with_files), digest(&none_files));
        let shown = backtack_core::editions::shown(&with, &with.findings, &none.findings);
        assert!(!format!("{shown:?}").contains(SECRET), "{shown:#?}");
    }
    // The order of the work is none.
    let work = loaded(&[("work.toml", b"[work]\norder = [\"a\"]\n[oops\n")]);
    assert!(edition(&work, "work.toml").is_some());
}

/// What else stands with an order is missing in the edition, so that this is in the way of a release.
#[test]
fn an_order_beside_the_style_is_in_the_way() {
    let text = format!("[fabric.a]\nname = \"A\"\n{ORDER}");
    let loaded = loaded(&[("more.toml", text.as_bytes())]);
    assert_eq!(edition(&loaded, "more.toml"), None);
    let shown = backtack_core::editions::shown(&loaded, &loaded.findings, &Default::default());
    assert_eq!(shown.count(backtack_core::diag::Severity::Must), 1);
    assert!(!format!("{shown:?}").contains(SECRET), "{shown:#?}");
}

const SAID: &str = "[sample.one]\nsize = \"S\"\npieces = 4711\n[comment.c]\nabout = \"style\"\naction = \"must change\"\ntext = \
                    \"4711\"\n[approval.a]\nof = \"style\"\nnote = \"4711\"\n[concession.w]\nreason = \"4711\"\n";

/// What was said and measured of samples makes no new revision: neither the files nor the digest know of it.
#[test]
fn samples_leave_nothing_in_the_edition() {
    let none = loaded(&[]);
    let broken = format!("{SAID}[oops\n");
    for (path, text) in [
        ("samples/one.toml", SAID),
        ("one.toml", SAID),
        ("one.toml", broken.as_str()),
        ("samples/deep/one.toml", "[sample.one\nnote = \"4711\"\n"),
        ("one.toml", "comment = { c = { text = \"4711\" } }\n"),
    ] {
        let with = loaded(&[(path, text.as_bytes()), ("samples/one.png", b"4711")]);
        let (with_files, none_files) =
            (backtack_core::editions::factory_edition(&with), backtack_core::editions::factory_edition(&none));
        assert_eq!(with_files, none_files, "{path}: {text}");
    }
    let apart = |kind: &str| ["sample", "comment", "approval", "concession"].contains(&kind);
    let with = loaded(&[("one.toml", SAID.as_bytes())]);
    assert!(with.model.samples.samples.len() == 1 && with.model.samples.concessions.len() == 1);
    assert!(
        backtack_core::facts::statements(&with).items.iter().all(|item| !apart(item.kind)),
        "they are compared with nothing"
    );
    // A word that begins so is none of them.
    let other = loaded(&[("more.toml", b"[fabric.a]\nnote = \"sample\"\n[oops\n")]);
    assert!(edition(&other, "more.toml").is_some());
}

/// Comments go to the factory on sheets, so what is found about them is told; own values still are not.
#[test]
fn findings_about_samples_are_shown_unless_they_give_an_own_value_away() {
    let said = "[comment.c]\nabout = \"style\"\naction = \"must change\"\ntext = \"Lower\"\n[sample.one]\nsize = \"S\"\nreadings = { \
                H = [\"250 mm\"] }\n";
    let bulk = "[revision]\nstage = \"bulk\"\n[point-of-measure.H]\ncritical = true\nread-to = \"1 mm\"\ntarget = { value = \"200 mm ±4 \
                mm\", audience = \"own\" }\n";
    let with = loaded(&[("more.toml", bulk.as_bytes()), ("samples/one.toml", said.as_bytes())]);
    let all = crate::checked(&with).findings;
    let shown = backtack_core::editions::shown(&with, &all, &Default::default());
    let of = |code: &str| shown.iter().find(|one| one.rule.code == code).map(|one| one.message.english());
    assert!(of("open-comment").unwrap().contains("comment c on style"));
    assert!(
        all.iter()
            .any(|one| one.rule.code == "critical-point-out-of-tolerance"
                && one.message.english().contains("46 mm above"))
    );
    assert!(
        of("critical-point-out-of-tolerance").unwrap().contains("own edition"),
        "the limit could be worked out of it"
    );
}

#[test]
fn an_order_is_read_with_its_lines() {
    let text = b"[order.spring]\nnumber = \"7\"\npo = \"8\"\ndate = 2026-11-20\nrevision = \"B\"\ncut-extra = \"2 %\"\nover = \"3 %\"\n\
                 short = \"5 pc\"\nsurplus = \"ours\"\n[order.spring.line.a]\nsize = \"S\"\ncolourway = \"only\"\n\
                 destination = \"NO\"\ndate = \"2027-02-01\"\nquantity = 98765\nover = \"1 %\"\nsamples = 3\ntests = 5\n";
    let loaded = loaded(&[("orders/spring.toml", text)]);
    assert_eq!(loaded.findings.iter().count(), 0, "{:#?}", loaded.findings);
    let order = &loaded.model.orders["spring"];
    let line = &order.lines["a"];
    assert_eq!(order.cut_extra.as_ref().unwrap().known().unwrap().to_string(), "2 %");
    assert_eq!(order.over_of(line).unwrap().known().unwrap().to_string(), "1 %");
    assert_eq!(order.short_of(line).unwrap().known().unwrap().to_string(), "5 pc");
    assert_eq!(line.quantity.as_ref().unwrap().known(), Some(&98_765));
    assert_eq!(line.tests.as_ref().unwrap().known(), Some(&5));
    assert_eq!(line.destination.as_ref().unwrap().value.code, "NO");
}
