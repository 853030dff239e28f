//! The made-up cushion with strings that no honest user would type, and with very many rows.

use backtack_core::rows::data::{BillArticle, BillRow, Callout, Sheet};
use backtack_core::rows::package::{Fact, Package};

use crate::cushion;

/// Markup, HTML, formulas, right-to-left text, endless words, emoji, controls, combining marks.
const STRINGS: &[&str] = &[
    r##"#read("/etc/passwd") *b* _i_ $x^2$ <label> @ref // c /* d */ \ `raw` [x] #{1+1}"##,
    "<script>alert(1)</script> &amp; <img src=http://localhost/x>",
    "=SUM(A1:A9)",
    "שלום עולם مرحبا \u{202e}abc\u{2066}",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
    "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenxyz",
    "🧵🧸 thread 👩\u{200d}👩\u{200d}👧",
    "tab\there\u{feff}\u{2028}line\u{0}\u{7}\u{1b}[31mred\u{85}\u{ffff}\u{fffd}",
    "e\u{301}\u{301}\u{301} zalgo\u{489}",
    "面料止口毛向刀模排料唛架单耗损耗充棉口封样吊牌洗水唛箱唛验针面料止口毛向刀模排料",
    "first line\nsecond line\r\nthird line",
    "https://example.invalid/a/very/long/path/without/any/space?and=more&and=more",
];

/// Puts the next texts into these fields.
macro_rules! put {
    ($put:ident: $($field:expr),*) => { $($put.one(&mut $field);)* };
}
/// The cushion with every string a user could have typed exchanged.
pub fn package() -> Package {
    with(STRINGS)
}

/// The cushion with these texts in turn wherever a user could have typed one.
pub fn with(texts: &[&str]) -> Package {
    let mut put = Texts(texts.iter().cycle());
    let mut out = cushion::package();
    let block = &mut out.title_block;
    put!(put: block.owner, block.title);
    put!(put: block.number, block.style, block.stage);
    out.sheets.iter_mut().for_each(|bound| spoil(&mut bound.sheet, &mut put));
    let names: Vec<_> = out.sheets.iter().map(|bound| bound.sheet.head().name.clone()).collect();
    out.contents.rows.iter_mut().zip(names).for_each(|(row, name)| row.name = name);
    out
}

/// Texts in turn, without an end.
struct Texts<'a>(std::iter::Cycle<std::slice::Iter<'a, &'a str>>);

impl Texts<'_> {
    fn one<T: for<'t> From<&'t str>>(&mut self, field: &mut T) {
        if let Some(text) = self.0.next() {
            *field = T::from(*text);
        }
    }

    fn all<'f, T: for<'t> From<&'t str> + 'f>(&mut self, fields: impl IntoIterator<Item = &'f mut T>) {
        fields.into_iter().for_each(|field| self.one(field));
    }
}

#[allow(clippy::too_many_lines, reason = "one arm a sheet")]
fn spoil(sheet: &mut Sheet, put: &mut Texts<'_>) {
    match sheet {
        // Nothing on it is of a user.
        Sheet::Guide(_) => {}
        Sheet::Cover(cover) => {
            put.one(&mut cover.head.name);
            facts(&mut cover.facts, put);
            let phrases = cover.parties.iter_mut().flat_map(|row| [&mut row.role, &mut row.name, &mut row.address]);
            // Beside the others, so that these texts do not shift where the rest of them come to lie.
            phrases.zip(put.0.clone()).for_each(|(phrase, text)| *phrase = (*text).into());
            put.all(&mut cover.sizes);
            for row in &mut cover.colourways {
                put.one(&mut row.name);
                put.all(&mut row.cells);
            }
        }
        Sheet::Questions(questions) => {
            for row in &mut questions.rows {
                put!(put: row.text, row.concerns);
            }
        }
        Sheet::Changes(changes) => {
            put.all(changes.past.iter_mut().flatten());
            for row in changes.groups.iter_mut().flat_map(|group| &mut group.rows) {
                put!(put: row.what, row.before, row.after);
            }
            put.all(changes.answers.iter_mut().flatten());
            put.all(&mut changes.unasked);
        }
        Sheet::Samples(samples) => {
            facts(&mut samples.facts, put);
            samples.rows.iter_mut().for_each(|row| put.one(&mut row.name));
            for row in &mut samples.beside {
                put!(put: row.what, row.found);
            }
            put.all(&mut samples.notes);
        }
        Sheet::Comments(comments) => {
            for row in &mut comments.rows {
                put!(put: row.id, row.about, row.text, row.by, row.answer);
            }
            for row in &mut comments.approvals {
                put.one(&mut row.what);
                put.all(&mut row.submissions);
            }
            put.all(comments.checklist.iter_mut().chain(&mut comments.concessions));
        }
        Sheet::Views(views) => {
            views.views.iter_mut().for_each(|view| put.one(&mut view.caption));
            callouts(&mut views.callouts, put);
        }
        Sheet::Bill(bill) => {
            put.all(bill.colourways.iter_mut().chain(&mut bill.sizes));
            for article in bill.groups.iter_mut().flat_map(|group| &mut group.articles) {
                put!(put: article.item, article.details, article.article, article.supplier);
                article.rows.iter_mut().for_each(|row| put.all(&mut row.colours));
            }
            // Beside the others, as on the cover.
            let asked = bill.groups.iter_mut().flat_map(|group| &mut group.articles).map(|article| &mut article.asked);
            let colours =
                bill.colours.iter_mut().flat_map(|row| [&mut row.name, &mut row.reference, &mut row.articles]);
            asked.chain(colours).zip(put.0.clone()).for_each(|(phrase, text)| *phrase = (*text).into());
        }
        Sheet::Pieces(pieces) => {
            for row in &mut pieces.rows {
                put!(put: row.code, row.name, row.material, row.note);
            }
            pieces.totals.iter_mut().for_each(|total| put.one(&mut total.material));
            for card in pieces.drawings.iter_mut().flat_map(|page| &mut page.cards).map(|one| &mut one.card) {
                put!(put: card.code, card.name, card.count);
            }
        }
        Sheet::Matching(joins) => {
            put.all(&mut joins.notes);
            for table in &mut joins.tables {
                put.all(&mut table.sizes);
                for row in &mut table.rows {
                    put!(put: row.title, row.a, row.b, row.between, row.stretches);
                }
            }
        }
        Sheet::Marker(lays) => {
            for group in &mut lays.groups {
                put.one(&mut group.title);
                put.all(&mut group.cells);
                put.all(&mut group.notes);
            }
            for card in lays.pages.iter_mut().flat_map(|page| &mut page.cards).map(|one| &mut one.card) {
                put.one(&mut card.title);
                card.facts.iter_mut().for_each(|line| facts(line, put));
            }
        }
        Sheet::Plan(plan) => {
            put.all(&mut plan.status.stops);
            put.all(&mut plan.status.made_to);
            facts(&mut plan.facts, put);
            for group in &mut plan.groups {
                put!(put: group.title, group.text);
                group.rows.iter_mut().for_each(|row| put.one(&mut row.products));
            }
            put.all(plan.lines.iter_mut().flatten());
            put.all(&mut plan.notes);
        }
        Sheet::Fabric(fabric) => {
            put.all(fabric.list.rows.iter_mut().flatten());
            for chain in &mut fabric.chains {
                put!(put: chain.title, chain.text);
                for step in &mut chain.steps {
                    put!(put: step.step, step.working);
                }
            }
            put.all(&mut fabric.notes);
        }
        Sheet::Bundles(bundles) => {
            for group in &mut bundles.groups {
                put!(put: group.title, group.pieces);
                put.all(group.rows.iter_mut().flatten());
            }
        }
        Sheet::Strikes(strikes) => put.all(strikes.rows.iter_mut().flatten()),
        Sheet::Spreading(spreading) => {
            for group in &mut spreading.groups {
                put.one(&mut group.title);
                put.all(group.rows.iter_mut().flatten());
            }
        }
        Sheet::Construction(construction) => {
            for stage in &mut construction.stages {
                put!(put: stage.title);
                facts(&mut stage.same, put);
                for step in &mut stage.steps {
                    put!(put: step.title, step.text, step.codes, step.note, step.check, step.never);
                    facts(&mut step.differs, put);
                    facts(&mut step.means, put);
                    for ply in &mut step.plies {
                        put!(put: ply.text, ply.codes);
                    }
                }
            }
        }
        Sheet::Filling(filling) => {
            put.all(&mut filling.sizes);
            for row in filling.rows.iter_mut().chain(&mut filling.sums) {
                put!(put: row.stuffing, row.material, row.how);
            }
            facts(&mut filling.facts, put);
        }
        Sheet::Measurements(measurements) => {
            put.all(&mut measurements.sizes);
            for row in &mut measurements.rows {
                put!(put: row.name, row.how);
            }
        }
        Sheet::Safety(safety) => {
            for row in safety.columns.iter_mut().flatten() {
                put!(put: row.title, row.text, row.follows);
            }
        }
        Sheet::Confirmation(confirmation) => {
            callouts(&mut confirmation.items, put);
            confirmation.required.iter_mut().for_each(|one| put.one(&mut one.value));
            put.all(&mut confirmation.parties);
        }
    }
}

fn facts(list: &mut [Fact], put: &mut Texts<'_>) {
    list.iter_mut().for_each(|fact| put.one(&mut fact.value));
}

fn callouts(list: &mut [Callout], put: &mut Texts<'_>) {
    list.iter_mut().for_each(|callout| put.one(&mut callout.text));
}

/// The cushion with 200 rows in its bill and 60 points of measure.
pub fn long() -> Package {
    let mut out = cushion::package();
    for bound in &mut out.sheets {
        match &mut bound.sheet {
            Sheet::Bill(bill) => {
                let row = BillRow {
                    place: "seams".into(),
                    colours: vec!["red".into(), "blue".into()],
                    uses: vec!["1".into(), "1".into()],
                    unit: "pc".into(),
                };
                let articles = (1..=200).map(|n| BillArticle {
                    number: n.to_string(),
                    item: format!("upper {n}").into(),
                    details: format!("lower {n}").into(),
                    article: format!("A-{n}").into(),
                    supplier: "Free".into(),
                    asked: "".into(),
                    rows: vec![row.clone()],
                });
                bill.groups.truncate(1);
                bill.groups.iter_mut().for_each(|group| group.articles = articles.clone().collect());
            }
            Sheet::Measurements(sheet) => {
                let first = sheet.rows.first().cloned().into_iter();
                sheet.rows = first.cycle().take(60).collect();
            }
            _ => {}
        }
    }
    out
}

/// The cushion with as many columns as each sheet takes.
pub fn wide() -> Package {
    let mut out = cushion::package();
    for bound in &mut out.sheets {
        match &mut bound.sheet {
            Sheet::Cover(cover) => {
                cover.sizes = sizes(6);
                let row = cover.colourways.first().cloned().into_iter();
                cover.colourways = row.cycle().take(5).collect();
                cover.colourways.iter_mut().for_each(|row| stretch(&mut row.cells, 6));
            }
            Sheet::Bill(bill) => {
                bill.sizes = sizes(3);
                bill.colourways = vec!["SAND".into(), "INK".into(), "MOSS".into()];
                let articles = bill.groups.iter_mut().flat_map(|group| &mut group.articles);
                for row in articles.flat_map(|article| &mut article.rows) {
                    stretch(&mut row.colours, 3);
                    stretch(&mut row.uses, 3);
                }
            }
            Sheet::Filling(filling) => {
                filling.sizes = sizes(3);
                filling.rows.iter_mut().chain(&mut filling.sums).for_each(|row| stretch(&mut row.masses, 3));
            }
            Sheet::Measurements(sheet) => {
                sheet.sizes = sizes(2);
                sheet.blanks.truncate(3);
                sheet.rows.iter_mut().for_each(|row| stretch(&mut row.limits, 2));
            }
            _ => {}
        }
    }
    out
}

fn stretch<T: Clone>(list: &mut Vec<T>, length: usize) {
    let cycle = list.clone().into_iter().cycle();
    *list = cycle.take(length).collect();
}

fn sizes<T: for<'t> From<&'t str>>(n: usize) -> Vec<T> {
    ["XS", "S", "M", "L", "XL", "XXL"].into_iter().take(n).map(T::from).collect()
}
