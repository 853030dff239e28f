//! How to read a package: how edges are written, what signs and blanks mean, which statement goes before which.

use crate::words::{Language, Languages, Phrase, Word, say, sheet as sentences, words};

use super::data::{Callout, Guide, Sheet};
use super::package::Head;
use super::signs;
use super::view::View;

words! {
    SENTENCE "guide.sentence" = "{text}.";
    COPY "guide.copy" = "Copy l of piece SIDE as it is drawn, copy r its mirror image. In a part that is made left and right: wing.left/WING";
    EDGE "guide.edge" = "The edge of SIDE from point n through m to c, in this direction, on the sew line";
    IMAGE "guide.image" = "The point that mirrors c across the middle of a piece that is drawn as a half";
    LINE "guide.line" = "An inner line or a mark of HEAD that has the name face";
    BESIDE "guide.beside" = "Several edges, one after the other";
    LETTER "guide.letter" = "A seam on the sheet of seam matching; A' is the same seam with left and right exchanged, A2 its second stretch";
    CHANGED "guide.changed" = "Changed since the last sealed revision";
    CRITICAL "guide.critical" = "A critical point: a reading outside its limits rejects the product";
    BAR "guide.bar" = "What has a bar beside it is outside its limits, or stops a release";
    BLANK "guide.blank" = "A dashed box is filled in by hand";
    ESTIMATE "guide.estimate" = "An estimate; how it was made is beside it";
    DASH "guide.dash" = "Nothing, or not made";
    LIMITS "guide.limits" = "Limits: the least and the most that pass, both included";
    DIGEST "guide.digest" = "The digest in the foot is that of the files this package was made from. Two pages with one digest are of one specification";
}

/// How an edge or a copy is written, and what that means.
const CODES: [(&str, Word); 6] = [
    ("SIDE.l", COPY),
    ("SIDE:n-m-c", EDGE),
    ("c~", IMAGE),
    ("HEAD:@face", LINE),
    ("A:n-m + B:m-k", BESIDE),
    ("A, A', A2", LETTER),
];
/// Signs in texts and tables.
const SIGNS: [(&str, Word); 5] = [("△", CHANGED), ("▲", CRITICAL), ("≈", ESTIMATE), ("–", DASH), ("152–166", LIMITS)];

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let explained = |list: &[(&str, Word)]| -> Vec<Callout> {
        list.iter().map(|(number, word)| Callout { number: (*number).to_string(), text: sentence(*word) }).collect()
    };
    vec![Sheet::Guide(Guide {
        head: Head { title: sentences::GUIDE_TITLE.into(), name: sentences::GUIDE.into(), lead: Phrase::none() },
        codes: explained(&CODES),
        signs: explained(&SIGNS),
        lines: signs::of(view),
        blank: sentence(BLANK),
        bar: sentence(BAR),
        digest: sentence(DIGEST),
        precedence: precedence(),
        deciding: deciding(view.model.style.languages),
    })]
}

fn sentence(word: Word) -> Phrase {
    say!(SENTENCE, text = Phrase::from(word).capital())
}

fn precedence() -> Vec<Phrase> {
    let order = [
        sentences::PRECEDENCE_1,
        sentences::PRECEDENCE_2,
        sentences::PRECEDENCE_3,
        sentences::PRECEDENCE_4,
        sentences::PRECEDENCE_5,
    ];
    order.into_iter().map(sentence).collect()
}

/// Which of two languages decides: the first, where it is English, in which everything is written.
fn deciding(languages: Languages) -> Phrase {
    let english = languages.second.is_some() && languages.first == Language::English;
    if english { sentences::PRECEDENCE_LANGUAGE.into() } else { Phrase::none() }
}
