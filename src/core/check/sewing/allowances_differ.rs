//! Rule: the two sides of a seam have different allowances.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Resolved, Run};
use crate::source::Span;
use crate::words::{say, words};

use super::pairs::matched;
use super::text;

/// Two edges with different allowances in one seam.
pub const RULE: Rule = Rule {
    code: "allowances-differ",
    family: "sewing",
    severity: Severity::Should,
    summary: "the two sides of a seam have different allowances",
    explanation: "Two layers are sewn with their cut edges level. If one allowance is wider, the machinist has to set \
                  the edge back by the difference along the whole seam, or the seam is sewn off its line. Where that \
                  is meant (a graded seam), silence this rule under [severity].",
    failing: "[piece.SIDE]\nallowance = { all = \"5 mm\", \"b-n\" = \"7 mm\" }\n[piece.GUS]\nallowance = \"5 \
              mm\"\n[seam.belly]\na = \"SIDE.l:b-n\"\nb = \"GUS:h-m-g\"",
    passing: "[piece.SIDE]\nallowance = { all = \"5 mm\", \"b-n\" = \"7 mm\" }\n[piece.GUS]\nallowance = { all = \"5 \
              mm\", \"h-m-g\" = \"7 mm\" }\n[seam.belly]\na = \"SIDE.l:b-n\"\nb = \"GUS:h-m-g\"",
    source: "common practice",
};

words! {
    MESSAGE "allowances-differ.message" = "{joint} sews {a} with an allowance of {one} to {b} with {other}";
    OTHER "allowances-differ.other" = "{other} on {b}";
    ONE "allowances-differ.one" = "{one} on {a}";
    SEWN_TOGETHER "allowances-differ.sewn-together" = "sewn together in {joint}";
    HELP "allowances-differ.help" = "write \"{path}\" = \"{one}\" in the allowance of [piece.{piece}], beside `all`; or make both sides alike";
    ALIKE "allowances-differ.alike" = "make both sides alike";
}

/// An allowance of one run: where it is written, mm.
type Stated = (Span, f64);

/// Reports each seam once for each two allowances that differ in it.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for joint in &context.assembly.joints {
        for ((a, b), (edges, one, other)) in differences(context, joint) {
            if told.insert((joint.joint.clone(), a, b)) {
                findings.push(finding(context, joint, &edges, (a, one), (b, other)));
            }
        }
    }
}

type Differences = BTreeMap<(Span, Span), ((Vec<Run>, Vec<Run>), f64, f64)>;

fn differences(context: &Context<'_>, joint: &Resolved) -> Differences {
    let mut all: Differences = BTreeMap::new();
    for size in context.model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
        for (a, b) in matched(context, joint, size) {
            let (Some(one), Some(other)) = (of(context, &a, size), of(context, &b, size)) else { continue };
            if (one.1 - other.1).abs() > 0.001 {
                let group = all.entry((one.0, other.0)).or_insert(((Vec::new(), Vec::new()), one.1, other.1));
                let push = |list: &mut Vec<Run>, run: Run| {
                    if !list.contains(&run) {
                        list.push(run);
                    }
                };
                push(&mut group.0.0, a);
                push(&mut group.0.1, b);
            }
        }
    }
    all
}

fn of(context: &Context<'_>, run: &Run, size: &str) -> Option<Stated> {
    context.assembly.allowance(context.model, run, size)?.known()
}

fn finding(
    context: &Context<'_>,
    joint: &Resolved,
    edges: &(Vec<Run>, Vec<Run>),
    one: (Span, f64),
    other: (Span, f64),
) -> Finding {
    let implied = !joint.usage.is_empty();
    let (a, b) = (text::chain(context, &edges.0, implied), text::chain(context, &edges.1, implied));
    let message = say!(MESSAGE, joint = &joint.joint, a = &a, one = text::mm(one.1), b = &b, other = text::mm(other.1));
    // An edge without an allowance is not what the other side is made like.
    let (like, runs) = if one.1 > 0.0 { (one.1, &edges.1) } else { (other.1, &edges.0) };
    let piece = runs.first().map_or("", |run| context.assembly.instances[run.instance].piece.as_str());
    let path = text::path(context, runs);
    let help = if like > 0.0 { say!(HELP, path, one = plain(like), piece) } else { ALIKE.into() };
    Finding::new(&RULE, message)
        .at(other.0, say!(OTHER, other = text::mm(other.1), b))
        .at(one.0, say!(ONE, one = text::mm(one.1), a))
        .at(joint.b.span, say!(SEWN_TOGETHER, joint = &joint.joint))
        .help(help)
}

/// A length as it is written in the file.
fn plain(mm: f64) -> String {
    let text = format!("{mm:.3}");
    format!("{} mm", text.trim_end_matches('0').trim_end_matches('.'))
}
