//! What is said of each part: how often it is made, what it becomes, and the remark.

use crate::model::{Form, Part, Use};
use crate::words::{Phrase, Word, say, words};

use super::view::View;

words! {
    PART "parts.part" = "{part}: {said}.";
    MADE "parts.made" = "made {count} times";
    MADE_AS "parts.made-as" = "made as {names}";
    MIRRORED "parts.mirrored" = "{name} mirrored";
    STUFFED "parts.stuffed" = "stuffed";
    RING "parts.ring" = "a stuffed ring";
    COVER "parts.cover" = "a cover that opens";
    FLAT "parts.flat" = "flat, not closed";
}

/// A line for each part of which something is said.
pub fn notes(view: &View<'_>) -> Vec<Phrase> {
    let line = |part: &Part| {
        let form = part.form.as_ref().map_or_else(Phrase::none, |form| word(form.value).into());
        let facts = Phrase::list([uses(&part.uses), form]);
        let said = Phrase::row([facts, view.text(part.note.as_ref()).trim_end_matches('.').into()], "; ");
        (!said.is_empty()).then(|| say!(PART, part = part.entry.title(), said))
    };
    view.model.parts.values().filter_map(line).collect()
}

fn uses(uses: &[Use]) -> Phrase {
    let name = |one: &Use| match one.mirrored {
        true => say!(MIRRORED, name = &one.name),
        false => (&one.name).into(),
    };
    match uses {
        [] | [_] => Phrase::none(),
        all if all.iter().all(|one| one.name.is_empty()) => say!(MADE, count = all.len()),
        all => say!(MADE_AS, names = Phrase::list(all.iter().map(name))),
    }
}

fn word(form: Form) -> Word {
    match form {
        Form::Stuffed => STUFFED,
        Form::Ring => RING,
        Form::Cover => COVER,
        Form::Flat => FLAT,
    }
}
