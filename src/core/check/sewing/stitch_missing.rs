//! Rule: a seam does not say its stitch type, density or thread.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};

use super::text;
use super::uses::{StitchPlace, stitches};

/// A seam whose stitch is not described in full.
pub const RULE: Rule = Rule {
    code: "stitch-missing",
    family: "sewing",
    severity: Severity::Should,
    summary: "a seam does not say its stitch type, density or thread",
    explanation: "Strength, look and the need of thread follow from stitch type, stitches per length and thread. They \
                  may be stated at the seam, as a shared [stitch], or once for all under [work].",
    failing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\nstitch = { type = \"301\", thread = \"tkt\" }",
    passing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\nstitch = { type = \"301\", density = \"4 st/cm\", \
              thread = \"tkt\" }",
    source: "common practice",
};

/// Reports what is missing, seams that miss the same together.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let places = stitches(context);
    let mut groups: BTreeMap<Vec<&str>, Vec<&StitchPlace<'_>>> = BTreeMap::new();
    for place in places.iter().filter(|place| place.needed) {
        let missing = missing(context, place);
        if !missing.is_empty() {
            groups.entry(missing).or_default().push(place);
        }
    }
    for (missing, places) in groups {
        let names: Vec<String> = places.iter().map(|place| format!("{} {}", place.what, place.id)).collect();
        let verb = if places.len() == 1 { "does" } else { "do" };
        let words: Vec<String> =
            missing.iter().map(|word| format!("stitch {word}").replace("stitch thread", "thread")).collect();
        let message = format!("{} {verb} not say the {}", text::list(&names), text::list(&words));
        let mut finding = Finding::new(&RULE, message);
        for place in places.iter().take(3) {
            finding = finding.at(place.stitch.span.unwrap_or(place.span), format!("no {}", missing.join(", no ")));
        }
        findings.push(finding.help(format!("write {}, there or once for all under [work]", example(&missing))));
    }
}

fn missing<'a>(context: &Context<'_>, place: &StitchPlace<'_>) -> Vec<&'a str> {
    let (own, shared) = (place.stitch, &context.model.work.stitch);
    let has = [
        ("type", own.kind.is_some() || shared.kind.is_some()),
        ("density", own.density.is_some() || shared.density.is_some()),
        ("thread", own.thread.is_some() || shared.thread.is_some()),
    ];
    has.into_iter().filter(|(_, has)| !has).map(|(word, _)| word).collect()
}

fn example(missing: &[&str]) -> String {
    let value = |word: &&str| match *word {
        "type" => "type = \"301\"",
        "density" => "density = \"4 st/cm\"",
        _ => "thread = \"..\"",
    };
    let values: Vec<&str> = missing.iter().map(value).collect();
    match missing.len() {
        3 => format!("stitch = {{ {} }}", values.join(", ")),
        _ => format!("{} in the stitch", values.join(", ")),
    }
}
