//! Sewing in the words of the file: instances, chains and orders as their author would write them.

use crate::check::Context;
use crate::model::assembly::{Resolved, Reverse, Run};
use crate::source::{Edit, Help};
use crate::words::{Phrase, say, words};

use super::sound::sound;

words! {
    IN_SIZE "sewing.text.in-size" = " in size {size}";
    IN_SIZES "sewing.text.in-sizes" = " in sizes {sizes} (measured in {first})";
    IMAGE_OF "sewing.text.image-of" = "the mirror image of {id}";
    PUT_BEFORE "sewing.text.put-before" = "put \"{step}\" before \"{other}\" in the order of work";
    PUT_BEHIND "sewing.text.put-behind" = "put \"{step}\" behind \"{other}\" in the order of work";
    WRITE "sewing.text.write" = "write {steps}";
    MORE "sewing.text.more" = "{shown} and {count} more";
}

/// Longest order of work that a help line writes out; a longer one is told by the step to move.
const WRITTEN_OUT: usize = 40;

/// An instance as it is written: with its use, unless the use goes without saying.
pub fn instance(context: &Context<'_>, at: usize, implied: bool) -> String {
    let one = &context.assembly.instances[at];
    if implied { one.short() } else { one.text() }
}

/// Runs as a chain: `SIDE.l:n-c, d-t-u`.
pub fn chain(context: &Context<'_>, runs: &[Run], implied: bool) -> String {
    let assembly = context.assembly;
    let mut out = String::new();
    let mut last: Option<(usize, &str)> = None;
    for run in runs {
        let Some((from, to)) = run.ends(&assembly.outlines, &assembly.instances) else { continue };
        match last {
            Some((at, end)) if at == run.instance && end == from => out.push_str(&format!("-{to}")),
            Some((at, _)) if at == run.instance => out.push_str(&format!(", {from}-{to}")),
            Some(_) => {
                out.push_str(&format!(", {}:{from}-{to}", instance(context, run.instance, implied)));
            }
            None => out.push_str(&format!("{}:{from}-{to}", instance(context, run.instance, implied))),
        }
        last = Some((run.instance, to));
    }
    out
}

/// Runs of one piece without its name: `n-c, d-t-u`.
pub fn path(context: &Context<'_>, runs: &[Run]) -> String {
    let whole = chain(context, runs, true);
    whole.split_once(':').map_or(String::new(), |(_, path)| path.to_string())
}

/// ` in size S`, where there is more than one.
pub fn in_size(context: &Context<'_>, size: &str) -> Phrase {
    if context.model.sizes.len() > 1 { say!(IN_SIZE, size) } else { Phrase::none() }
}

/// ` in sizes S, L (measured in S)`: every size in which something is wrong, and the first, of which the figures are.
pub fn in_sizes(context: &Context<'_>, sizes: &[&str]) -> Phrase {
    match sizes {
        [] => Phrase::none(),
        [size] => in_size(context, size),
        [first, ..] => say!(IN_SIZES, sizes = sizes.join(", "), first = *first),
    }
}

/// What is sewn by the mirror image of a joint.
pub fn image_of(id: &str) -> Phrase {
    say!(IMAGE_OF, id)
}

/// A joint by its id, as written or as its mirror image.
pub fn joint(joint: &Resolved) -> Phrase {
    match joint.image {
        Reverse::Mirrored => image_of(&joint.joint),
        Reverse::Written => Phrase::from(&joint.joint),
    }
}

/// The order of work as a line of the file.
pub fn order(steps: &[&str]) -> String {
    let quoted: Vec<String> = steps.iter().map(|step| format!("\"{step}\"")).collect();
    format!("order = [{}]", quoted.join(", "))
}

/// The help that moves `step` before `other` in the order of work, or puts it there.
pub fn moved_before<'a>(context: &Context<'a>, step: &'a str, other: &str) -> Help {
    let mut steps = without(context, step);
    let at = steps.iter().position(|one| *one == other).unwrap_or(steps.len());
    steps.insert(at, step);
    reordered(context, steps, || say!(PUT_BEFORE, step, other))
}

/// The help that moves `step` behind `other` in the order of work.
pub fn moved_behind<'a>(context: &Context<'a>, step: &'a str, other: &str) -> Help {
    let mut steps = without(context, step);
    let at = steps.iter().position(|one| *one == other).map_or(steps.len(), |at| at + 1);
    steps.insert(at, step);
    reordered(context, steps, || say!(PUT_BEHIND, step, other))
}

fn without<'a>(context: &Context<'a>, step: &str) -> Vec<&'a str> {
    let order = context.model.work.order.iter().map(|one| one.value.as_str());
    order.filter(|one| *one != step).collect()
}

/// The help that writes the order of work again, as an edit of it: put right wherever another rule would find it wrong. One that
/// is long is told in the words of `short`.
pub fn reordered<'a>(context: &Context<'a>, steps: Vec<&'a str>, short: impl Fn() -> Phrase) -> Help {
    let steps = sound(context, steps);
    let written = order(&steps);
    let list = written.trim_start_matches("order = ").to_string();
    let edit = context.model.work.list.map(|span| Edit::replace(span, list));
    let text = if steps.len() > WRITTEN_OUT { short() } else { say!(WRITE, steps = written) };
    Help::with(text, edit)
}

/// `a`, `a and b`, `a, b and c`; the rest counted from the seventh on.
pub fn list<'a, T>(names: &'a [T]) -> Phrase
where
    Phrase: From<&'a T>,
{
    const SHOWN: usize = 6;
    match names.get(..SHOWN) {
        Some(shown) if names.len() > SHOWN => say!(MORE, shown = Phrase::list(shown), count = names.len() - SHOWN),
        _ => Phrase::and(names),
    }
}

/// Copies or uses as a list: `["l", "r mirrored"]`.
pub fn named(names: &[(String, bool)]) -> String {
    let word = |(name, mirrored): &(String, bool)| format!("\"{name}{}\"", if *mirrored { " mirrored" } else { "" });
    format!("[{}]", names.iter().map(word).collect::<Vec<_>>().join(", "))
}

/// A length to a tenth of a millimetre.
pub fn mm(value: f64) -> String {
    crate::words::number::mm(value, 1)
}
