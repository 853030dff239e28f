//! Rule: a seam joins the right side of one piece to the wrong side of another.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Piece;
use crate::model::assembly::{Instance, Resolved, Reverse, Run, Side};
use crate::source::{Edit, Help, quoted};
use crate::words::{Phrase, say, words};

use super::{cause, limits, text};

/// A piece that ends up with its wrong side out.
pub const RULE: Rule = Rule {
    code: "inside-out-seam",
    family: "sewing",
    severity: Severity::Must,
    summary: "a seam joins the right side of one piece to the wrong side of another",
    explanation: "Walk along a seam with the right side of both pieces towards you: one piece lies to the left and the \
                  other to the right. So the two sides of a seam run oppositely round their pieces. Where they do not, \
                  one piece is inside out: a copy that should be mirrored is not, or a side is written backwards.",
    failing: "[piece.SIDE]\ncopies = [\"l\", \"r\"]\n[seam.crown]\na = \"SIDE.l:n-c\"\nb = \"SIDE.r:n-c\"",
    passing: "[piece.SIDE]\ncopies = [\"l\", \"r mirrored\"]\n[seam.crown]\na = \"SIDE.l:n-c\"\nb = \"SIDE.r:n-c\"",
    source: "common practice; the two sides of an edge of an oriented surface run oppositely round their faces",
};

words! {
    WHOLE_USE "inside-out-seam.whole-use" = "{part}.{usage} is sewn inside out: every piece of it";
    MIRRORED_HERE "inside-out-seam.mirrored-here" = "mirrored here";
    NOT_MIRRORED_HERE "inside-out-seam.not-mirrored-here" = "not mirrored here";
    WRITE_USES "inside-out-seam.write-uses" = "write uses = {names}";
    COPY "inside-out-seam.copy" = "{name} is sewn inside out: {seams} shows it with its wrong side out";
    COPY_BY_SEVERAL "inside-out-seam.copy-by-several" = "{name} is sewn inside out: {seams} show it with its wrong side out";
    IMAGE_OTHER_WAY "inside-out-seam.image-other-way" = "the mirror image of this seam would have {name} the other way round";
    OTHER_WAY "inside-out-seam.other-way" = "this seam would have {name} the other way round";
    WRITE_ONE "inside-out-seam.write-one" = "write copies = [\"m mirrored\"] in [piece.{id}]";
    OR_COPIES "inside-out-seam.or-copies" = "as it is caught by its root, rather {copies}";
    WRITE_COPIES "inside-out-seam.write-copies" = "write copies = {list} in [piece.{id}]";
    NAME_COPIES "inside-out-seam.name-copies" = "name the copies and mirror this one: for two, copies = [\"l\", \"r mirrored\"] in [piece.{id}], then {id}.l and {id}.r in the seams";
    SYMMETRIC "inside-out-seam.symmetric" = "{name} is sewn inside out: in {ids} it runs the same way round as the other side";
    SAME_WAY "inside-out-seam.same-way" = "the same way round as {runs}";
    OTHER_SIDE "inside-out-seam.other-side" = "the other side";
    WRITE "inside-out-seam.write" = "in {joint} write {key} = \"{runs}\"";
    BACKWARDS "inside-out-seam.backwards" = "{joint} sews {b} inside out: it runs the same way round as {a}";
    PARTLY_BACKWARDS "inside-out-seam.partly-backwards" = "{runs} is not the same way round throughout: {odd} is walked backwards in {joint}";
    TURNED "inside-out-seam.turned" = "turned";
    TAKE_OUT "inside-out-seam.take-out" = "take `mirrored = true` out and write the second seam by itself";
}

/// Points nearer than this are one, where a shape is asked whether it is its own mirror image, in mm.
const SAME: f64 = 0.05;

/// Reports each cause once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let assembly = context.assembly;
    if assembly.sewing.inside_out.is_empty() {
        return;
    }
    let mut turned = cause::turned(context);
    let uses = whole_uses(context, &mut turned);
    for (part, usage) in &uses {
        if let Some(finding) = whole_use(context, part, usage) {
            findings.push(finding);
        }
    }
    let cured = |run: &Run| -> bool {
        let one = &assembly.instances[run.instance];
        turned.contains(&run.instance) || uses.contains(&(one.part.clone(), one.usage.clone()))
    };
    let mut left = Vec::new();
    let mut of_instance: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    for n in &assembly.sewing.inside_out {
        let joint = &assembly.joints[*n];
        let runs = || joint.a.runs.iter().chain(&joint.b.runs);
        for run in runs().filter(|run| turned.contains(&run.instance)) {
            of_instance.entry(run.instance).or_default().insert(*n);
        }
        let right = |run: &Run, flip: bool| (run.counter_clockwise(&assembly.instances) != cured(run)) != flip;
        let first = joint.a.runs.first().map(|run| right(run, false));
        let sound = joint.a.runs.iter().all(|run| Some(right(run, false)) == first)
            && joint.b.runs.iter().all(|run| Some(right(run, true)) == first);
        if !sound {
            left.push(joint);
        }
    }
    pieces(context, &of_instance, findings);
    single(context, &left, findings);
}

/// Uses of parts of which every piece is inside out, taken out of the set: the use is at fault, not its pieces.
fn whole_uses(context: &Context<'_>, turned: &mut BTreeSet<usize>) -> BTreeSet<(String, String)> {
    let mut all: BTreeMap<(String, String), (usize, usize)> = BTreeMap::new();
    for (n, one) in context.assembly.instances.iter().enumerate().filter(|(_, one)| !one.usage.is_empty()) {
        let count = all.entry((one.part.clone(), one.usage.clone())).or_default();
        count.0 += 1;
        count.1 += usize::from(turned.contains(&n));
    }
    all.retain(|_, (total, inside_out)| *inside_out > 0 && total == inside_out);
    turned.retain(|n| {
        let one = &context.assembly.instances[*n];
        !all.contains_key(&(one.part.clone(), one.usage.clone()))
    });
    all.into_keys().collect()
}

fn whole_use(context: &Context<'_>, part: &str, usage: &str) -> Option<Finding> {
    let declared = context.model.parts.get(part)?;
    let written = declared.uses.iter().find(|one| one.name == usage)?;
    let names: Vec<(String, bool)> =
        declared.uses.iter().map(|one| (one.name.clone(), one.mirrored != (one.name == usage))).collect();
    let message = say!(WHOLE_USE, part, usage);
    Some(
        Finding::new(&RULE, message)
            .at(written.span, if written.mirrored { MIRRORED_HERE } else { NOT_MIRRORED_HERE })
            .help(say!(WRITE_USES, names = text::named(&names))),
    )
}

/// One finding for each piece and copy that is inside out, with all its seams.
fn pieces(context: &Context<'_>, of_instance: &BTreeMap<usize, BTreeSet<usize>>, findings: &mut Findings) {
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for (n, joints) in of_instance {
        let one = &context.assembly.instances[*n];
        if !told.insert((&one.piece, &one.copy)) {
            continue;
        }
        let joints: Vec<&Resolved> = joints.iter().map(|n| &context.assembly.joints[*n]).collect();
        let images = images(context, one);
        findings.push(match images {
            Some(images) => renamed(context, *n, &joints, &images),
            None => copied(context, *n, &joints),
        });
    }
}

/// The images of a piece's points, if the piece is its own mirror image, so that mirroring it would change nothing.
fn images(context: &Context<'_>, one: &Instance) -> Option<BTreeMap<String, String>> {
    let outline = context.assembly.outlines.any(&one.piece)?;
    let known = &outline.axis_images;
    let whole = outline.points.iter().all(|point| known.contains_key(&point.id));
    if whole { Some(known.clone()) } else { outline.point_images(SAME) }
}

/// A piece with a left and a right: it has to be mirrored, or must not be.
fn copied(context: &Context<'_>, at: usize, joints: &[&Resolved]) -> Finding {
    let one = &context.assembly.instances[at];
    let name = text::instance(context, at, false);
    let ids: BTreeSet<&str> = joints.iter().map(|joint| joint.joint.as_str()).collect();
    let seams: Vec<String> = ids.iter().map(|id| (*id).to_string()).collect();
    let word = if seams.len() == 1 { COPY } else { COPY_BY_SEVERAL };
    let message = say!(word, name = &name, seams = text::list(&seams));
    let mut finding = Finding::new(&RULE, message);
    if let Some(piece) = context.model.pieces.get(&one.piece) {
        let copy = piece.copies.iter().find(|copy| copy.name == one.copy);
        let span = copy.map_or(piece.entry.span(), |copy| copy.span);
        let state = if copy.is_some_and(|copy| copy.mirrored) { MIRRORED_HERE } else { NOT_MIRRORED_HERE };
        finding = finding.at(span, state);
        finding = match joints.first() {
            Some(joint) => {
                let side = if joint.a.runs.iter().any(|run| run.instance == at) { &joint.a } else { &joint.b };
                let word = if joint.image == Reverse::Mirrored { IMAGE_OTHER_WAY } else { OTHER_WAY };
                finding.at(side.span, say!(word, name))
            }
            None => finding,
        };
        finding = written_backwards(context, at, joints).into_iter().fold(finding, Finding::help);
        finding = finding.help(copies(piece, one));
    }
    finding
}

/// The edge of a piece walked the other way, where it then fits the other side edge by edge, and does not as it is written.
fn written_backwards(context: &Context<'_>, at: usize, joints: &[&Resolved]) -> Option<Help> {
    let [joint] = once(joints)[..] else { return None };
    let on_a = joint.a.runs.iter().any(|run| run.instance == at);
    let (key, side, other) = if on_a { ("a", &joint.a, &joint.b) } else { ("b", &joint.b, &joint.a) };
    let turned = turned(side);
    let fits = |runs: &[Run]| {
        runs.len() == other.runs.len() && runs.iter().zip(&other.runs).all(|(a, b)| alike(context, a, b))
    };
    if side.runs.iter().any(|run| run.instance != at) || !fits(&turned) || fits(&side.runs) {
        return None;
    }
    let runs = text::chain(context, &turned, !joint.usage.is_empty());
    let edit = (joint.image == Reverse::Written).then(|| Edit::replace(side.span, quoted(&runs)));
    Some(Help::with(say!(WRITE, joint = &joint.joint, key, runs), edit))
}

/// Whether two edges are equally long in every size; never if a length is not known.
fn alike(context: &Context<'_>, one: &Run, other: &Run) -> bool {
    let assembly = context.assembly;
    let length = |run: &Run, size: &str| assembly.lengths.sum(&assembly.instances, size, std::slice::from_ref(run));
    context.model.sizes.iter().map(|size| size.entry.id.value.as_str()).all(|size| {
        length(one, size).zip(length(other, size)).is_some_and(|(a, b)| (a - b).abs() <= limits::equal(a.max(b)))
    })
}

/// The text that mirrors a copy, or no longer does.
fn copies(piece: &Piece, one: &Instance) -> Phrase {
    let id = &one.piece;
    let named = |name: &str| name.chars().next().is_some_and(|first| first.is_ascii_alphabetic());
    let list = || -> Vec<(String, bool)> {
        piece.copies.iter().map(|copy| (copy.name.clone(), copy.mirrored != (copy.name == one.copy))).collect()
    };
    match piece.copies.as_slice() {
        [only] if only.name.is_empty() => say!(WRITE_ONE, id),
        copies if copies.iter().all(|copy| named(&copy.name)) => {
            say!(WRITE_COPIES, list = text::named(&list()), id)
        }
        _ => say!(NAME_COPIES, id),
    }
}

/// A piece that is its own mirror image: its seams take the opposite edges instead, or, if there is just one seam, run
/// along the edge the other way.
fn renamed(context: &Context<'_>, at: usize, joints: &[&Resolved], images: &BTreeMap<String, String>) -> Finding {
    let name = text::instance(context, at, false);
    let written = once(joints);
    let ids: Vec<String> = written.iter().map(|joint| joint.joint.clone()).collect();
    let one = written.len() == 1;
    let message = say!(SYMMETRIC, name, ids = text::list(&ids));
    let mut finding = Finding::new(&RULE, message);
    for joint in written {
        let on_a = joint.a.runs.iter().any(|run| run.instance == at);
        let (key, side, other) = if on_a { ("a", &joint.a, &joint.b) } else { ("b", &joint.b, &joint.a) };
        let implied = !joint.usage.is_empty();
        let runs = if one && !is_taken(context, side, at) { turned(side) } else { mirrored(context, side, at, images) };
        let label = say!(SAME_WAY, runs = text::chain(context, &other.runs, implied));
        finding = finding.at(side.span, label);
        if one {
            finding = finding.at(other.span, OTHER_SIDE);
        }
        let runs = text::chain(context, &runs, implied);
        let edit = (joint.image == Reverse::Written).then(|| Edit::replace(side.span, quoted(&runs)));
        finding = finding.help(Help::with(say!(WRITE, joint = &joint.joint, key, runs), edit));
    }
    limb(context, at).into_iter().fold(finding, Finding::help)
}

/// The copies of a piece of which a seam catches two plies, with this one mirrored: so the two meet at the root as sewn.
fn limb(context: &Context<'_>, at: usize) -> Option<Phrase> {
    let one = &context.assembly.instances[at];
    let piece = context.model.pieces.get(&one.piece)?;
    let caught = context
        .assembly
        .joints
        .iter()
        .any(|joint| joint.caught().flat_map(|side| &side.runs).any(|run| run.instance == at));
    let pair = caught && piece.copies.len() > 1 && piece.copies.iter().all(|copy| !copy.mirrored);
    pair.then(|| say!(OR_COPIES, copies = copies(piece, one)))
}

/// Whether another seam sews the same edges of an instance: its side means the opposite ones.
fn is_taken(context: &Context<'_>, side: &Side, at: usize) -> bool {
    let accounts = &context.assembly.sewing.accounts;
    let own = side.runs.iter().filter(|run| run.instance == at);
    own.filter_map(|run| accounts.get(&(run.instance, run.run))).any(|account| account.joints.len() > 1)
}

/// One resolved joint for each written one: as written where that is among them.
fn once<'a>(joints: &[&'a Resolved]) -> Vec<&'a Resolved> {
    let mut by: BTreeMap<&str, &Resolved> = BTreeMap::new();
    for joint in joints {
        let kept = by.entry(&joint.joint).or_insert(joint);
        if joint.image == Reverse::Written && kept.image != Reverse::Written {
            *kept = joint;
        }
    }
    by.into_values().collect()
}

/// A side walked the other way.
fn turned(side: &Side) -> Vec<Run> {
    side.runs.iter().rev().map(|run| run.turned()).collect()
}

/// A side with the runs of one instance exchanged for their mirror images.
fn mirrored(context: &Context<'_>, side: &Side, at: usize, images: &BTreeMap<String, String>) -> Vec<Run> {
    let assembly = context.assembly;
    let image = |run: &Run| {
        let (from, to) = run.ends(&assembly.outlines, &assembly.instances)?;
        let outline = assembly.outlines.any(&assembly.instances[at].piece)?;
        let found = outline.run_between(images.get(from)?, images.get(to)?).ok()?;
        Some(Run { instance: at, run: found.index, forward: found.forward })
    };
    side.runs.iter().map(|run| if run.instance == at { image(run).unwrap_or(run.turned()) } else { *run }).collect()
}

/// Seams that no turning of pieces puts right: one side is written backwards, or part of it.
fn single(context: &Context<'_>, joints: &[&Resolved], findings: &mut Findings) {
    for joint in once(joints) {
        let instances = &context.assembly.instances;
        let implied = !joint.usage.is_empty();
        let Some(sense) = joint.a.runs.first().map(|run| run.counter_clockwise(instances)) else { continue };
        let (odd, key, side, wanted) = match joint.a.runs.iter().all(|run| run.counter_clockwise(instances) == sense) {
            true => (joint.b.runs.iter(), "b", &joint.b, !sense),
            false => (joint.a.runs.iter(), "a", &joint.a, sense),
        };
        let odd: Vec<Run> = odd.filter(|run| run.counter_clockwise(instances) != wanted).copied().collect();
        let whole = odd.len() == side.runs.len();
        let fixed = if whole { turned(side) } else { patched(side, &odd) };
        let (a, b) = (text::chain(context, &joint.a.runs, implied), text::chain(context, &joint.b.runs, implied));
        let name = text::joint(joint);
        let message = match whole {
            true => say!(BACKWARDS, joint = name, b, a),
            false => say!(
                PARTLY_BACKWARDS,
                runs = text::chain(context, &side.runs, implied),
                odd = text::chain(context, &odd, implied),
                joint = name
            ),
        };
        let other = if key == "a" { &joint.b } else { &joint.a };
        let fixed = text::chain(context, &fixed, implied);
        let edit = Edit::replace(side.span, quoted(&fixed));
        let help = Help::with(say!(WRITE, joint = &joint.joint, key, runs = fixed), edit);
        let finding = Finding::new(&RULE, message).at(side.span, TURNED).at(other.span, OTHER_SIDE);
        findings.push(match joint.image {
            Reverse::Written => finding.help(help),
            Reverse::Mirrored => finding.help(TAKE_OUT),
        });
    }
}

/// A side with each row of odd runs turned in its place.
fn patched(side: &Side, odd: &[Run]) -> Vec<Run> {
    let mut all = Vec::new();
    let mut row: Vec<Run> = Vec::new();
    for run in &side.runs {
        if odd.contains(run) {
            row.push(run.turned());
        } else {
            all.extend(row.drain(..).rev());
            all.push(*run);
        }
    }
    all.extend(row.drain(..).rev());
    all
}
