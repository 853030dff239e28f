//! Rule: a mark of a drawing is named nowhere, so that nobody knows what goes there.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Stated, Value};
use crate::source::nearest;
use crate::words::{say, words};

/// A mark without a use.
pub const RULE: Rule = Rule {
    code: "mark-not-named",
    family: "piece",
    severity: Severity::Note,
    summary: "a mark of a drawing is named nowhere, so that nobody knows what goes there",
    explanation: "A mark is where something goes: an eye, a label, embroidery. The cutting room marks it, and whoever works there \
                  reads in a step, a trim or a remark what for. A mark whose name occurs in none of them was misspelt, or is left \
                  over from an older drawing.",
    failing: "# the drawing has SIDE.mark.eey\n[trim.eye]\nplace = \"on the mark eye of both sides\"",
    passing: "# the drawing has SIDE.mark.eye\n[trim.eye]\nplace = \"on the mark eye of both sides\"\nuse = \"2 pc\"",
    source: "common practice",
};

words! {
    MESSAGE "mark-not-named.message" = "nothing names mark {mark} of piece {id}";
    HERE "mark-not-named.here" = "what goes here?";
    NEAR "mark-not-named.near" = "if {near} goes there, give the mark its name in the drawing";
    HELP "mark-not-named.help" = "say in the step or trim that goes there: note = \"on the mark {mark}\"; or take it out of the drawing";
}

/// Reports each mark once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let texts: Vec<String> = texts(model).into_iter().map(|text| text.to_lowercase()).collect();
    for (id, piece) in &model.pieces {
        let mut marks = BTreeMap::new();
        for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
            for (mark, drawn) in model.sketch(piece, size).into_iter().flat_map(|sketch| sketch.marks) {
                marks.entry(mark).or_insert(drawn.span);
            }
        }
        for (mark, span) in marks {
            let plain = plain(mark);
            if plain.is_empty() || texts.iter().any(|text| text.contains(&plain)) {
                continue;
            }
            let finding = Finding::new(&RULE, say!(MESSAGE, mark, id)).at(span, HERE);
            let near = nearest(&plain, texts.iter().flat_map(|text| marked(text))).or_else(|| {
                let things = model.named().filter(|(kind, _)| !matches!(kind.table, "piece" | "point-of-measure"));
                nearest(&plain, things.map(|(_, entry)| entry.id.value.as_str()))
            });
            findings.push(match near {
                Some(near) => finding.help(say!(NEAR, near)).help(say!(HELP, mark)),
                None => finding.help(say!(HELP, mark)),
            });
        }
    }
}

/// The name of a mark without its number and its side: `eye_l`, `eye2` and `Eye` are all `eye`.
fn plain(mark: &str) -> String {
    let counted = |c: char| c.is_ascii_digit() || c == '_' || c == '-' || c == '~';
    let name = mark.trim_end_matches(counted).to_lowercase();
    let side = |name: &str| {
        let (before, last) = name.rsplit_once(['_', '-'])?;
        matches!(last, "l" | "r" | "left" | "right").then(|| before.to_string())
    };
    side(&name).unwrap_or(name)
}

/// What a text calls a mark: the words that follow `mark`.
fn marked(text: &str) -> impl Iterator<Item = &str> {
    let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let after = words.windows(2).filter(|pair| pair[0] == "mark").map(|pair| pair[1]).collect::<Vec<_>>();
    after.into_iter()
}

/// Whatever says what goes where: ids, names, remarks, places.
fn texts(model: &Model) -> Vec<&str> {
    let mut all: Vec<&str> = Vec::new();
    for (kind, entry) in model.named() {
        if kind.table != "piece" {
            all.extend([entry.id.value.as_str(), entry.title()]);
        }
    }
    all.extend(model.steps.values().filter_map(|one| one.word.as_ref()).map(|word| word.value.as_str()));
    let notes = model.steps.values().map(|one| &one.note);
    let notes = notes
        .chain(model.topstitches.values().map(|one| &one.note))
        .chain(model.attaches.values().map(|one| &one.note));
    let notes =
        notes.chain(model.pieces.values().map(|one| &one.note)).chain(model.parts.values().map(|one| &one.note));
    all.extend(notes.filter_map(|note| note.as_ref().and_then(Stated::known)).map(String::as_str));
    for article in model.articles.values() {
        let written = ["place", "note", "type"].into_iter().filter_map(|key| article.text(key));
        all.extend(written.flat_map(Value::all).filter_map(Stated::known).map(String::as_str));
    }
    all
}
