//! Files made to do harm: each is refused within the limits, on a small stack, without a panic.

use super::{STYLE, dot, found, page};

/// What is found in a drawing that is read on a stack of 256 KB.
fn judged(svg: String) -> Vec<String> {
    let small = std::thread::Builder::new().stack_size(256 << 10);
    small.spawn(move || found(&svg)).unwrap().join().unwrap()
}

#[track_caller]
fn broken(svg: String) {
    assert!(judged(svg).contains(&"must broken-drawing".to_string()));
}

#[track_caller]
fn refused(svg: String) {
    assert!(judged(svg).contains(&"must refused-content".to_string()));
}

/// What is found in a folder whose drawing holds these bytes, as many as said.
fn on_disk(name: &str, bytes: &[u8], length: u64) -> Vec<String> {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("style.toml"), STYLE).unwrap();
    std::fs::write(folder.join("side.svg"), bytes).unwrap();
    let file = std::fs::OpenOptions::new().write(true).open(folder.join("side.svg")).unwrap();
    file.set_len(length).unwrap();
    let loaded = crate::folder(&folder).unwrap();
    std::fs::remove_dir_all(&folder).unwrap();
    assert!(loaded.model.drawings.is_empty());
    loaded.findings.iter().filter(|one| one.rule.code != "unused-item").map(|one| one.rule.code.to_string()).collect()
}

#[test]
fn a_hundred_megabytes() {
    broken(page(&" ".repeat(100 << 20)));
    let codes = on_disk("hundred-megabytes", page("").as_bytes(), 100 << 20);
    assert!(codes.contains(&"unreadable-file".to_string()), "{codes:?}");
}

#[test]
fn bytes_that_are_no_text() {
    for (name, bytes) in [
        ("binary", vec![0_u8, 159, 146, 150, 255, 254, 0, 0]),
        ("sixteen-bit", page("").encode_utf16().flat_map(u16::to_le_bytes).collect()),
        (
            "sixteen-bit-marked",
            [0xff, 0xfe].into_iter().chain(page("").encode_utf16().flat_map(u16::to_le_bytes)).collect(),
        ),
        ("zipped", b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03".to_vec()),
    ] {
        let codes = on_disk(name, &bytes, bytes.len() as u64);
        assert!(codes.iter().any(|code| code == "unreadable-file" || code == "broken-drawing"), "{name}: {codes:?}");
    }
    broken("\0".repeat(1000));
    broken(page("\u{1}"));
    broken(String::new());
}

#[test]
fn a_million_elements() {
    broken(page(&"<g/>".repeat(1_000_000)));
    broken(page(&"<!---->".repeat(1_000_000)));
}

#[test]
fn twenty_thousand_levels() {
    broken(page(&format!("{}{}", "<g>".repeat(20_000), "</g>".repeat(20_000))));
    broken(page(&"<g>".repeat(20_000)));
    broken(page(&format!("<defs>{}{}</defs>", "<g>".repeat(20_000), "<g>".repeat(20_000))));
}

#[test]
fn entities() {
    let lines: String = (1..10).map(|n| format!("<!ENTITY e{n} \"{}\">", format!("&e{};", n - 1).repeat(10))).collect();
    refused(format!("<!DOCTYPE svg [<!ENTITY e0 \"x\">{lines}]>{}", page("<desc>&e9;</desc>")));
    refused(format!("<!DOCTYPE svg SYSTEM \"x.dtd\" [ <!ENTITY % a SYSTEM \"file:///etc/passwd\"> %a; ]>{}", page("")));
    broken(page("<desc>&unknown;</desc>"));
}

#[test]
fn uses_of_uses() {
    let step = |n: usize| format!("<g id=\"u{n}\">{}</g>", format!("<use href=\"#u{}\"/>", n - 1).repeat(40));
    let levels: String = (1..8).map(step).collect();
    broken(page(&format!("<defs><rect id=\"u0\" width=\"1\" height=\"1\"/>{levels}</defs><use href=\"#u7\"/>")));
    broken(page("<g id=\"a\"><use href=\"#b\"/></g><g id=\"b\"><use href=\"#a\"/></g>"));
    broken(page("<use id=\"a\" href=\"#a\"/>"));
    broken(page("<g id=\"a\"><g><use href=\"#a\"/><use href=\"#a\"/></g></g>"));
    let chain: String = (1..20_000).map(|n| format!("<use id=\"c{n}\" href=\"#c{}\"/>", n - 1)).collect();
    broken(page(&format!("<rect id=\"c0\" width=\"9\" height=\"9\"/>{chain}")));
}

#[test]
fn numbers_that_lead_nowhere() {
    for data in [
        "M 1e308 0 L 1 1 L 2 0 Z",
        "M 0 0 l 1e308 1e308 l 1e308 1e308 z",
        "M NaN 0 L 1 1 L 2 0 Z",
        "M inf 0 L 1 1 L 2 0 Z",
        "M 0 0 A 1e300 1e-300 30 0 1 10 10 L 1e307 -1e307 Z",
        "M 0 0 L 1e999 1 L 2 0 Z",
        "L 1 1",
    ] {
        let codes = judged(page(&format!("<path id=\"SIDE\" d=\"{data}\"/>")));
        assert!(codes.iter().any(|one| one.starts_with("must")), "{data}: {codes:?}");
    }
    broken(page("<g transform=\"scale(1e200) scale(1e200)\"><rect id=\"SIDE\" width=\"9\" height=\"9\"/></g>"));
    broken(page("<g transform=\"matrix(NaN 0 0 1 0 0)\"><rect id=\"SIDE\" width=\"9\" height=\"9\"/></g>"));
    broken(page("<circle id=\"SIDE\" cx=\"1e40\" cy=\"0\" r=\"1e40\"/>"));
    for size in [
        "viewBox=\"0 0 0 0\"",
        "viewBox=\"0 0 -1 NaN\"",
        "width=\"NaNmm\" viewBox=\"0 0 1 1\"",
        "width=\"1e308mm\" height=\"1e308mm\" viewBox=\"0 0 1e-300 1e-300\"",
    ] {
        let rect = "<rect id=\"SIDE\" width=\"9\" height=\"9\"/>";
        broken(format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {size}>{rect}</svg>"));
    }
}

/// Flat and folded transformations leave no shape, or none that can be sewn.
#[test]
fn transformations_that_flatten() {
    for map in ["scale(0)", "scale(1 0)", "matrix(1 1 1 1 0 0)", "skewX(90)", "scale(1e-12)"] {
        let dots = dot("a", 0.0, 0.0) + &dot("b", 50.0, 0.0) + &dot("c", 50.0, 50.0);
        let shape = format!("<g transform=\"{map}\"><rect id=\"SIDE\" width=\"50\" height=\"50\"/>{dots}</g>");
        let codes = judged(page(&shape));
        assert!(codes.iter().any(|one| one.starts_with("must")), "{map}: {codes:?}");
    }
}

#[test]
fn many_attributes_classes_and_rules() {
    let attributes: String = (0..100_000).map(|n| format!(" a{n}=\"\"")).collect();
    broken(page(&format!("<g{attributes}/>")));
    // Many rules over many elements: only so many are kept.
    let rules: String = (0..20_000).map(|n| format!(".c{n} > .d{n} {{display:none;transform:scale(2)}}\n")).collect();
    let classes: String = (0..2_000).map(|n| format!("c{n} ")).collect();
    let shapes = format!("<g class=\"{classes}\"/>").repeat(100);
    judged(page(&format!("<style>{rules}</style>{shapes}")));
    judged(page(&format!("<g style=\"{}\"/>", "display:none;".repeat(100_000))));
    judged(page(&format!("<g transform=\"{}\"/>", "rotate(1)".repeat(100_000))));
}

/// A path of a hundred thousand lines is read; that it crosses itself is found within the time of any other.
#[test]
fn paths_without_end() {
    let steps = "l 3 1 -2.9 1".repeat(50_000);
    let codes = judged(page(&format!("<path id=\"SIDE\" d=\"M 0 0 {steps} Z\"/>{}", dot("a", 0.0, 0.0))));
    assert!(codes.iter().any(|one| one.starts_with("must")), "{codes:?}");
    let curves = "c 900 900 -900 900 1 1".repeat(50_000);
    let dots = dot("a", 0.0, 0.0) + &dot("b", 1.0, 1.0) + &dot("c", 2.0, 2.0);
    let codes = judged(page(&format!("<path id=\"SIDE\" d=\"M 0 0 {curves} Z\"/>{dots}")));
    assert!(codes.iter().any(|one| one.starts_with("must")), "{codes:?}");
}
