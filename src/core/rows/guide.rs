//! How to read a package: how edges are written, what signs and blanks mean, which statement goes before which.

use crate::model::Piece;
use crate::words::{Language, Languages, Phrase, Word, say, sheet as sentences, words};

use super::data::{Callout, Guide, Sheet};
use super::letters::Letters;
use super::package::Head;
use super::signs;
use super::view::View;

words! {
    SENTENCE "guide.sentence" = "{text}.";
    COPY "guide.copy" = "Copy {copy} of piece {piece}";
    IMAGES "guide.images" = "Copy {copy} of piece {piece} as it is drawn; copy {image} is its mirror image";
    IN_PART "guide.in-part" = "Piece {piece} in use {usage} of part {part}, which is made more than once";
    EDGE "guide.edge" = "The edge of {piece} from point {from} through {via} to {to}, in this direction, on the sew line";
    IMAGE "guide.image" = "The point that mirrors {point} across the middle of {piece}, of which a half is drawn";
    LINE "guide.line" = "An inner line or a mark of {piece} that has the name {line}";
    BESIDE "guide.beside" = "Two edges of {piece}, one after the other; each piece is named once";
    LETTER "guide.letter" = "A seam on the sheet of seam matching";
    STROKE "guide.stroke" = "The same seam with left and right exchanged";
    NUMBER "guide.number" = "The second edge in the row of edges of a seam";
    CHANGED "guide.changed" = "Changed since the last sealed revision";
    CRITICAL "guide.critical" = "A critical point: a reading outside its limits rejects the product";
    BAR "guide.bar" = "What has a bar beside it is outside its limits, or stops a release";
    BLANK "guide.blank" = "A dashed box is filled in by hand";
    ESTIMATE "guide.estimate" = "An estimate; how it was made is beside it";
    DASH "guide.dash" = "Nothing, or not made";
    LIMITS "guide.limits" = "Limits: the least and the most that pass, both included";
    DIGEST "guide.digest" = "The digest in the foot is that of the files this package was made from. Two pages with one digest are of one specification";
}

/// How edges, copies and seams are written, by the first examples in the product.
fn codes(view: &View<'_>) -> Vec<Callout> {
    let instances = &view.assembly.instances;
    let pieces = view.model.pieces.values();
    let image = |piece: &&Piece| piece.copies.iter().any(|copy| copy.mirrored);
    let several = || pieces.clone().filter(|piece| piece.copies.len() > 1);
    let copied = several().find(image).or_else(|| several().next()).and_then(copies);
    let in_part = instances
        .iter()
        .find(|one| !one.usage.is_empty())
        .map(|one| (one.text(), say!(IN_PART, piece = one.short(), usage = &one.usage, part = &one.part)));
    let outlines = || {
        pieces.clone().filter_map(|piece| {
            let id = piece.entry.id.value.as_str();
            Some((id, view.assembly.outlines.any(id)?))
        })
    };
    let edge = outlines().find_map(|(piece, outline)| match outline.points.as_slice() {
        [a, b, c, ..] => {
            let [from, via, to] = [&a.id, &b.id, &c.id];
            let beside = (format!("{piece} {from}–{via}, {via}–{to}"), say!(BESIDE, piece));
            Some([(format!("{piece}:{from}-{via}-{to}"), say!(EDGE, piece, from, via, to)), beside])
        }
        _ => None,
    });
    let image = outlines().find_map(|(piece, outline)| {
        let point = outline.points.iter().find_map(|one| one.id.strip_suffix('~'))?;
        Some((format!("{point}~"), say!(IMAGE, point, piece)))
    });
    let line = outlines().find_map(|(piece, outline)| {
        let line = outline.lines.iter().map(|one| &one.id).chain(outline.marks.iter().map(|one| &one.id)).next()?;
        Some((format!("{piece}:@{line}"), say!(LINE, piece, line)))
    });
    let all = copied.into_iter().chain(in_part).chain(edge.into_iter().flatten()).chain(image).chain(line);
    all.chain(seams(view)).map(|(code, text)| told(code, text)).collect()
}

/// A piece that is cut more than once: two copies, or one and its image.
fn copies(piece: &Piece) -> Option<(String, Phrase)> {
    let code = &piece.entry.id.value;
    let drawn = piece.copies.iter().find(|copy| !copy.mirrored)?;
    let text = match piece.copies.iter().find(|copy| copy.mirrored) {
        Some(image) => say!(IMAGES, copy = &drawn.name, piece = code, image = &image.name),
        None => say!(COPY, copy = &drawn.name, piece = code),
    };
    Some((format!("{code}.{}", drawn.name), text))
}

/// The letter of the first seam, with a stroke and a number where seams have them.
fn seams(view: &View<'_>) -> Vec<(String, Phrase)> {
    let letters = Letters::of(view);
    let joints = &view.assembly.joints;
    let first = joints.first().map(|joint| (letters.plain(&joint.joint).to_string(), LETTER.into()));
    let stroke = joints.iter().map(|joint| letters.seam(joint)).find(|letter| letter.ends_with('′'));
    let several = joints.iter().find(|joint| joint.a.runs.len() > 1);
    let number = several.map(|joint| (format!("{}2", letters.plain(&joint.joint)), NUMBER.into()));
    let all = first.into_iter().chain(stroke.map(|letter| (letter, STROKE.into()))).chain(number);
    all.filter(|(letter, _)| !letter.is_empty()).collect()
}

/// Signs in texts and tables, without those that have nothing to mark here.
fn signs_of(view: &View<'_>) -> Vec<Callout> {
    let measures = || view.model.measures.values();
    let critical = measures().any(|point| point.critical.as_ref().is_some_and(|flag| flag.value));
    let all = [
        (view.since.is_some(), "△", CHANGED),
        (critical, "▲", CRITICAL),
        (true, "≈", ESTIMATE),
        (true, "–", DASH),
        (measures().next().is_some(), "152–166", LIMITS),
    ];
    all.into_iter().filter(|(occurs, ..)| *occurs).map(|(_, sign, word)| told(sign.to_string(), word.into())).collect()
}

fn told(number: String, text: Phrase) -> Callout {
    Callout { number, text: say!(SENTENCE, text = text.capital()) }
}

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    vec![Sheet::Guide(Guide {
        head: Head { title: sentences::GUIDE_TITLE.into(), name: sentences::GUIDE.into(), lead: Phrase::none() },
        codes: codes(view),
        signs: signs_of(view),
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
