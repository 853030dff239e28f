//! Rule: an edge and the line it is sewn onto differ in length.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::length;
use crate::model::Attach;
use crate::model::assembly::Edging;
use crate::words::{say, words};

use super::{limits, text};

/// An edge sewn onto a line of another length.
pub const RULE: Rule = Rule {
    code: "attachment-lengths-differ",
    family: "sewing",
    severity: Severity::Should,
    summary: "an edge and the line it is sewn onto differ in length",
    explanation: "What is sewn onto a line drawn on another piece follows that line from end to end. An edge that is \
                  longer puckers, one that is shorter pulls the fabric below it together, and either moves what was to \
                  stand at the line. Up to 0.5 mm or 0.5 % (the greater) is taken up without notice.",
    failing: "[attach.beak]\nedge = \"BEAK:a-b\"  # 52.0 mm\non = \"HEAD:@beak\"  # 48.0 mm",
    passing: "[attach.beak]\nedge = \"BEAK:a-b\"  # 48.0 mm\non = \"HEAD:@beak\"  # 48.0 mm",
    source: "common practice: 0.5 mm or 0.5 %",
};

words! {
    MESSAGE "attachment-lengths-differ.message" = "{id}{size}: {edge} is {length} long and the line it is sewn onto is {line}";
    LONG "attachment-lengths-differ.long" = "{length} long";
    HELP "attachment-lengths-differ.help" = "redraw the line or the edge so that both are equally long";
}

/// Reports each attachment once, with every size in which it differs.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for edging in context.assembly.edgings.iter().filter(|edging| edging.joins) {
        let Some(attach) = context.model.attaches.get(&edging.id) else { continue };
        let sizes = context.model.sizes.iter().map(|size| size.entry.id.value.as_str());
        let uneven = sizes.filter_map(|size| Some((size, lengths(context, edging, size)?)));
        let uneven = uneven.filter(|(_, (edge, line))| (edge - line).abs() > limits::equal(edge.max(*line)));
        let (sizes, lengths): (Vec<&str>, Vec<(f64, f64)>) = uneven.unzip();
        if let Some(lengths) = lengths.first().filter(|_| told.insert(edging.id.as_str())) {
            findings.push(finding(context, edging, attach, &sizes, *lengths));
        }
    }
}

/// Length of the edge and of the line, mm; none where one is not known.
fn lengths(context: &Context<'_>, edging: &Edging, size: &str) -> Option<(f64, f64)> {
    let assembly = context.assembly;
    let (at, id) = edging.line.as_ref()?;
    let outline = assembly.outlines.get(&assembly.instances.get(*at)?.piece, size).ok()?;
    let line = outline.lines.iter().find(|line| line.id == *id)?;
    Some((assembly.lengths.sum(&assembly.instances, size, &edging.side.runs)?, length(&line.path)))
}

fn finding(
    context: &Context<'_>,
    edging: &Edging,
    attach: &Attach,
    sizes: &[&str],
    (edge, line): (f64, f64),
) -> Finding {
    let message = say!(
        MESSAGE,
        id = &edging.id,
        size = text::in_sizes(context, sizes),
        edge = text::chain(context, &edging.side.runs, false),
        length = text::mm(edge),
        line = text::mm(line)
    );
    let finding = Finding::new(&RULE, message).at(edging.side.span, say!(LONG, length = text::mm(edge)));
    let finding = match &attach.on {
        Some(on) => finding.at(on.span, say!(LONG, length = text::mm(line))),
        None => finding,
    };
    finding.help(HELP)
}
