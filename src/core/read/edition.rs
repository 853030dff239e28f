use crate::diag::Findings;
use crate::source::Span;

use super::{Loaded, is_private};

/// What stands in the factory's edition where the own edition has a value.
const WITHHELD: &str = "{ withheld = \"own edition\" }";

/// The files the factory gets: without those below `private/`, and with every value that is meant for the own edition
/// withheld in place. Comments and everything else stay as they are.
pub fn factory_edition(loaded: &Loaded) -> Vec<(String, Vec<u8>)> {
    let mut own: Vec<Span> = loaded.own.clone();
    own.sort();
    own.dedup();
    let shown = loaded.closure.iter().filter(|(path, _)| !is_private(path));
    shown.map(|(path, bytes)| (path.clone(), withheld(loaded, path, bytes, &own))).collect()
}

fn withheld(loaded: &Loaded, path: &str, bytes: &[u8], own: &[Span]) -> Vec<u8> {
    let file = loaded.sources.iter().find(|(_, file)| file.path == path);
    let Some((id, file)) = file else { return bytes.to_vec() };
    let mut text = file.text.clone();
    for span in own.iter().rev().filter(|span| span.file == id) {
        text.replace_range(span.start..span.end, WITHHELD);
    }
    if own.iter().any(|span| span.file == id) { text.into_bytes() } else { bytes.to_vec() }
}

/// The findings a factory may see: without those about values or files that only the own edition holds.
pub fn shown(loaded: &Loaded, findings: &Findings) -> Findings {
    let hidden = |span: Span| {
        let path = loaded.sources.file(span.file).map_or("", |file| file.path.as_str());
        is_private(path)
            || loaded.own.iter().any(|own| own.file == span.file && own.start < span.end && span.start < own.end)
    };
    let mut shown = Findings::default();
    let kept = findings.iter().filter(|finding| !finding.places.iter().any(|label| hidden(label.span)));
    kept.for_each(|finding| shown.push(finding.clone()));
    shown
}
