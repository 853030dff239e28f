//! The made-up cushion with strings that no honest user would type, and with very many rows.

use backtack_core::rows::data::{BillRow, Callout, Sheet};
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

/// The cushion with every string a user could have typed exchanged.
pub fn package() -> Package {
    with(STRINGS)
}

/// The cushion with these texts in turn wherever a user could have typed one.
pub fn with(texts: &[&str]) -> Package {
    let mut next = texts.iter().cycle();
    let mut put = |field: &mut String| {
        if let Some(text) = next.next() {
            (*text).clone_into(field);
        }
    };
    let mut out = cushion::package();
    let block = &mut out.title_block;
    for field in [&mut block.owner, &mut block.title, &mut block.supplement, &mut block.creator, &mut block.approver] {
        put(field);
    }
    for field in [&mut block.number, &mut block.style, &mut block.factory_style, &mut block.season, &mut block.stage] {
        put(field);
    }
    out.sheets.iter_mut().for_each(|sheet| spoil(sheet, &mut put));
    out
}

#[allow(clippy::too_many_lines, reason = "one arm a sheet")]
fn spoil(sheet: &mut Sheet, put: &mut impl FnMut(&mut String)) {
    match sheet {
        Sheet::Cover(cover) => {
            put(&mut cover.head.name);
            facts(&mut cover.facts, put);
            let phrases = cover.parties.iter_mut().flat_map(|row| [&mut row.role, &mut row.name, &mut row.address]);
            phrases.zip(STRINGS.iter().cycle()).for_each(|(phrase, text)| *phrase = (*text).into());
            cover.sizes.iter_mut().for_each(&mut *put);
            for row in &mut cover.colourways {
                put(&mut row.name);
                row.cells.iter_mut().for_each(&mut *put);
            }
        }
        Sheet::Questions(questions) => {
            for row in &mut questions.rows {
                [&mut row.text, &mut row.concerns].into_iter().for_each(&mut *put);
            }
        }
        Sheet::Changes(changes) => {
            changes.past.iter_mut().flatten().for_each(&mut *put);
            for row in changes.groups.iter_mut().flat_map(|group| &mut group.rows) {
                [&mut row.what, &mut row.before, &mut row.after].into_iter().for_each(&mut *put);
            }
            changes.answers.iter_mut().flatten().for_each(&mut *put);
            changes.unasked.iter_mut().for_each(&mut *put);
        }
        Sheet::Samples(samples) => {
            facts(&mut samples.facts, put);
            samples.rows.iter_mut().for_each(|row| put(&mut row.name));
            for row in &mut samples.beside {
                [&mut row.what, &mut row.found].into_iter().for_each(&mut *put);
            }
            samples.notes.iter_mut().for_each(&mut *put);
        }
        Sheet::Comments(comments) => {
            for row in &mut comments.rows {
                let fields = [&mut row.id, &mut row.about, &mut row.text, &mut row.by, &mut row.answer];
                fields.into_iter().for_each(&mut *put);
            }
            for row in &mut comments.approvals {
                put(&mut row.what);
                row.submissions.iter_mut().for_each(&mut *put);
            }
            comments.checklist.iter_mut().chain(&mut comments.concessions).for_each(&mut *put);
        }
        Sheet::Views(views) => {
            views.views.iter_mut().for_each(|view| put(&mut view.caption));
            callouts(&mut views.callouts, put);
        }
        Sheet::Bill(bill) => {
            bill.colourways.iter_mut().chain(&mut bill.sizes).for_each(&mut *put);
            for row in bill.groups.iter_mut().flat_map(|group| &mut group.rows) {
                [&mut row.item, &mut row.details, &mut row.article, &mut row.supplier].into_iter().for_each(&mut *put);
                row.colours.iter_mut().for_each(&mut *put);
            }
        }
        Sheet::Pieces(pieces) => {
            for row in &mut pieces.rows {
                let fields = [&mut row.code, &mut row.name, &mut row.material, &mut row.direction, &mut row.note];
                fields.into_iter().for_each(&mut *put);
            }
            pieces.totals.iter_mut().for_each(|total| put(&mut total.material));
            for card in pieces.drawings.iter_mut().flatten() {
                [&mut card.code, &mut card.name, &mut card.count].into_iter().for_each(&mut *put);
            }
        }
        Sheet::Matching(joins) => {
            for part in &mut joins.parts {
                [&mut part.title, &mut part.note].into_iter().for_each(&mut *put);
                for row in part.columns.iter_mut().flatten() {
                    [&mut row.title, &mut row.a, &mut row.b, &mut row.between].into_iter().for_each(&mut *put);
                }
            }
        }
        Sheet::Sizes(sizes) => {
            sizes.sizes.iter_mut().for_each(&mut *put);
            sizes.legend.iter_mut().for_each(|row| put(&mut row.text));
            for card in sizes.nests.iter_mut().flatten() {
                [&mut card.code, &mut card.name].into_iter().for_each(&mut *put);
                facts(&mut card.blocks, put);
            }
            for row in &mut sizes.rows {
                [&mut row.title, &mut row.stretch].into_iter().for_each(&mut *put);
            }
        }
        Sheet::Marker(lays) => {
            for group in &mut lays.groups {
                put(&mut group.title);
                facts(&mut group.facts, put);
                group.notes.iter_mut().for_each(&mut *put);
                for card in group.rows.iter_mut().flatten() {
                    put(&mut card.title);
                    facts(&mut card.facts, put);
                }
            }
        }
        Sheet::Plan(plan) => {
            facts(&mut plan.facts, put);
            for group in &mut plan.groups {
                [&mut group.title, &mut group.text].into_iter().for_each(&mut *put);
                group.rows.iter_mut().for_each(|row| put(&mut row.products));
            }
            plan.lines.iter_mut().flatten().for_each(&mut *put);
            plan.notes.iter_mut().for_each(&mut *put);
        }
        Sheet::Fabric(fabric) => {
            for chain in fabric.chains.iter_mut().flatten() {
                [&mut chain.title, &mut chain.text].into_iter().for_each(&mut *put);
                for step in &mut chain.steps {
                    [&mut step.step, &mut step.working].into_iter().for_each(&mut *put);
                }
            }
            fabric.notes.iter_mut().for_each(&mut *put);
        }
        Sheet::Construction(construction) => {
            for step in &mut construction.steps {
                let fields = [&mut step.title, &mut step.text, &mut step.stitch, &mut step.thread, &mut step.note];
                fields.into_iter().for_each(&mut *put);
                callouts(&mut step.plies, put);
            }
        }
        Sheet::Filling(filling) => {
            filling.sizes.iter_mut().for_each(&mut *put);
            for row in filling.rows.iter_mut().chain(&mut filling.sums) {
                [&mut row.stuffing, &mut row.material, &mut row.how].into_iter().for_each(&mut *put);
            }
            facts(&mut filling.facts, put);
        }
        Sheet::Measurements(measurements) => {
            measurements.sizes.iter_mut().for_each(&mut *put);
            for row in &mut measurements.rows {
                [&mut row.name, &mut row.how].into_iter().for_each(&mut *put);
            }
        }
        Sheet::Safety(safety) => {
            for row in &mut safety.rows {
                [&mut row.title, &mut row.text, &mut row.follows].into_iter().for_each(&mut *put);
            }
        }
        Sheet::Confirmation(confirmation) => {
            callouts(&mut confirmation.items, put);
            facts(&mut confirmation.required, put);
            confirmation.parties.iter_mut().for_each(&mut *put);
        }
    }
}

fn facts(list: &mut [Fact], put: &mut impl FnMut(&mut String)) {
    list.iter_mut().for_each(|fact| put(&mut fact.value));
}

fn callouts(list: &mut [Callout], put: &mut impl FnMut(&mut String)) {
    list.iter_mut().for_each(|callout| put(&mut callout.text));
}

/// The cushion with 200 rows in its bill and 60 points of measure.
pub fn long() -> Package {
    let mut out = cushion::package();
    for sheet in &mut out.sheets {
        match sheet {
            Sheet::Bill(bill) => {
                let rows = (1..=200).map(|n| BillRow {
                    number: n.to_string(),
                    item: format!("upper {n}"),
                    details: format!("lower {n}"),
                    article: format!("A-{n}"),
                    supplier: "Free".into(),
                    colours: vec!["red".into(), "blue".into()],
                    uses: vec!["1".into(), "1".into()],
                    unit: "pc".into(),
                    minimum: String::new(),
                    lead: String::new(),
                });
                bill.groups.truncate(1);
                bill.groups.iter_mut().for_each(|group| group.rows = rows.clone().collect());
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
    let sizes =
        |n: usize| ["XS", "S", "M", "L", "XL", "XXL"].into_iter().take(n).map(str::to_owned).collect::<Vec<_>>();
    for sheet in &mut out.sheets {
        match sheet {
            Sheet::Cover(cover) => {
                cover.sizes = sizes(6);
                let row = cover.colourways.first().cloned().into_iter();
                cover.colourways = row.cycle().take(5).collect();
                cover.colourways.iter_mut().for_each(|row| stretch(&mut row.cells, 6));
            }
            Sheet::Bill(bill) => {
                bill.sizes = sizes(3);
                bill.colourways = vec!["SAND".into(), "INK".into(), "MOSS".into()];
                for row in bill.groups.iter_mut().flat_map(|group| &mut group.rows) {
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
