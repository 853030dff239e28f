//! Rule: a piece does not say how much fabric lies outside its sew line.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Origin;
use crate::model::kind;
use crate::source::{Edit, Help};
use crate::words::{say, words};

use super::is_by_factory;

/// A cut without a seam allowance.
pub const RULE: Rule = Rule {
    code: "allowance-missing",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece does not say how much fabric lies outside its sew line",
    explanation: "The sew line is where it is stitched, the cut line where it is cut. Between them lies the allowance. \
                  If it is not stated, one factory adds 5 mm and the next takes the outline for the cut line, and the \
                  product comes out smaller.",
    failing: "[piece.TOP]\nmaterial = \"outer\"",
    passing: "[piece.TOP]\nmaterial = \"outer\"\nallowance = \"10 mm\"",
    source: "common practice",
};

words! {
    LAYER "allowance-missing.layer" = "the {name} of piece {id}";
    NONE "allowance-missing.none" = "{what} has no seam allowance";
    HOW_MUCH "allowance-missing.how-much" = "how much outside the sew line?";
    ADD_ALLOWANCE "allowance-missing.add-allowance" = "add allowance = \"10 mm\", or what it is; \"0 mm\" where nothing is added";
    NONE_LEFT "allowance-missing.none-left" = "{what} has no seam allowance on {left}";
    SOME_EDGES "allowance-missing.some-edges" = "some edges are left out";
    ADD_ALLOWANCE_ALL "allowance-missing.add-allowance-all" = "add the allowance of all other edges: all = \"10 mm\"";
}

/// Reports cuts without an allowance, and edges that one given edge by edge leaves out.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, piece) in &model.pieces {
        if is_by_factory(piece) || model.was_refused("piece", id, "allowance") || model.was_refused("piece", id, "cut")
        {
            continue;
        }
        for (name, cut) in piece.cuts.iter().filter(|(_, cut)| cut.inside.is_none() && cut.allowance.all.is_none()) {
            let plain = name == "shell" && piece.cuts.len() == 1;
            let what = if plain { kind::named("piece", id) } else { say!(LAYER, name, id) };
            let whole = if plain { piece.entry.span() } else { cut.entry.span() };
            let place = cut.allowance.span.unwrap_or(whole);
            let left = uncovered(context, id, name);
            let finding = if left.as_ref().is_some_and(Vec::is_empty) {
                continue;
            } else if cut.allowance.edges.is_empty() {
                Finding::new(&RULE, say!(NONE, what))
                    .at(place, HOW_MUCH)
                    .help(Help::with(ADD_ALLOWANCE, Edit::line(place, "allowance = \"10 mm\"")))
            } else {
                let Some(left) = left else { continue };
                Finding::new(&RULE, say!(NONE_LEFT, what, left = left.join(", ")))
                    .at(place, SOME_EDGES)
                    .help(ADD_ALLOWANCE_ALL)
            };
            findings.push(finding);
        }
    }
}

/// Edges for which no allowance is given; `None` where the outline is not known.
fn uncovered(context: &Context<'_>, piece: &str, cut: &str) -> Option<Vec<String>> {
    let edges = context.assembly.edges.sizes(piece).next()?;
    let runs = edges.ends().into_iter().zip(edges.cuts.get(cut)?);
    let open = runs.filter(|(_, edge)| edge.origin == Origin::Missing);
    Some(open.map(|((from, to), _)| format!("{from}-{to}")).collect())
}
