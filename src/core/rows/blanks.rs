//! The blanks that sheets leave for handwriting: one list for the confirmation, so that none is overlooked.

use crate::words::{Phrase, say, sheet as sentences, words};

use super::cell::Cell;
use super::data::{Bill, Blank, Comments, Filling, Sheet};
use super::package::Bound;

words! {
    BOUGHT "blanks.bought" = "use, price, minimum order and lead time; articles: {count}";
    PROPOSED "blanks.proposed" = "article or supplier: {articles}";
    MASSES "blanks.masses" = "masses: {things}";
    ANSWERS "blanks.answers" = "points to answer: {count}";
    READINGS "blanks.readings" = "readings, who measured, date, lot";
}

/// Puts the blanks of all sheets on the confirmation.
pub(super) fn listed(sheets: &mut [Bound]) {
    let mut all: Vec<Blank> = Vec::new();
    for bound in sheets.iter() {
        let (Some(what), kind) = (what(&bound.sheet), bound.sheet.kind()) else { continue };
        let page = format!("{{sheet:{kind}}}");
        // Sizes of the measurements that are a sheet each have the same blanks.
        if !all.iter().any(|one| one.page == page) {
            let several = matches!(bound.sheet, Sheet::Measurements(_));
            let name = if several { sentences::MEASUREMENTS.into() } else { bound.sheet.head().name.clone() };
            all.push(Blank { sheet: name, what, page });
        }
    }
    for bound in sheets {
        if let Sheet::Confirmation(sheet) = &mut bound.sheet {
            sheet.blanks.clone_from(&all);
        }
    }
}

/// What is to be filled in on a sheet, if anything.
fn what(sheet: &Sheet) -> Option<Phrase> {
    match sheet {
        Sheet::Bill(bill) => Some(bought(bill)),
        Sheet::Filling(filling) => masses(filling),
        Sheet::Comments(comments) => answers(open(comments)),
        Sheet::Questions(questions) => answers(questions.rows.len()),
        Sheet::Measurements(_) => Some(READINGS.into()),
        _ => None,
    }
}

fn bought(bill: &Bill) -> Phrase {
    let articles: Vec<_> = bill.groups.iter().flat_map(|group| &group.articles).collect();
    let empty = |cell: &Cell| cell.phrase().is_empty();
    let proposed = articles.iter().filter(|one| empty(&one.article) || empty(&one.supplier));
    let proposed: Vec<Phrase> = proposed.map(|one| one.item.clone()).collect();
    let mut all = vec![say!(BOUGHT, count = articles.len())];
    if !proposed.is_empty() {
        all.push(say!(PROPOSED, articles = Phrase::list(proposed)));
    }
    Phrase::row(all, "; ")
}

fn masses(filling: &Filling) -> Option<Phrase> {
    let rows = filling.rows.iter().chain(&filling.sums);
    let blank = rows.filter(|row| row.masses.iter().any(|mass| mass.target.phrase().is_empty()));
    let things: Vec<Phrase> = blank.map(|row| row.stuffing.clone()).collect();
    (!things.is_empty()).then(|| say!(MASSES, things = Phrase::list(things)))
}

fn open(comments: &Comments) -> usize {
    comments.rows.iter().filter(|row| row.answer.is_empty()).count()
}

fn answers(count: usize) -> Option<Phrase> {
    (count > 0).then(|| say!(ANSWERS, count))
}
