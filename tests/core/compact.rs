//! Sheets that say much on a page: lays at one scale, dies and what followed a row a thing, readings of many pieces, views.

use std::collections::BTreeSet;
use std::path::Path;

use backtack_core::pipeline::Earlier;
use backtack_core::read;
use backtack_core::rows::data::{Bill, Changes, Marker, Samples, Sheet, Views};
use backtack_core::rows::package::{CARDS_HEIGHT, PAPER, ROW};

/// The sheets of one kind of the puffin.
macro_rules! of_puffin {
    ($name:ident, $kind:ident) => {
        fn $name() -> Vec<$kind> {
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
            let loaded = crate::folder(&folder).unwrap();
            let sheets = crate::sheets::sheets(&loaded, &crate::checked(&loaded), &Earlier::default());
            sheets
                .into_iter()
                .filter_map(|sheet| if let Sheet::$kind(one) = sheet { Some(one) } else { None })
                .collect()
        }
    };
}

of_puffin!(markers, Marker);
of_puffin!(views, Views);

/// Sheets of a small style, of what is said of its samples, since a revision.
fn sheets(style: &str, samples: &str, before: Option<&str>) -> Vec<Sheet> {
    let loaded = read::texts(&[("style.toml", style), ("samples/one.toml", samples)]);
    let found: Vec<String> = loaded.findings.iter().map(|finding| finding.message.english()).collect();
    assert!(found.is_empty(), "{found:#?}");
    let last = before.map(|text| read::texts(&[("style.toml", text)]));
    crate::sheets::sheets(&loaded, &crate::checked(&loaded), &Earlier { past: Vec::new(), last })
}

fn bill(sheets: &[Sheet]) -> &Bill {
    sheets.iter().find_map(|sheet| if let Sheet::Bill(one) = sheet { Some(one) } else { None }).unwrap()
}

/// All lays of the puffin are drawn at one scale on three pages, each once, inside its card and its page, with the names of its
/// pieces; the dies of a cut are one row with both sizes.
#[test]
fn lays_are_drawn_at_one_scale_on_few_pages() {
    let [sheet] = &markers()[..] else { panic!("one sheet") };
    assert!(sheet.pages.len() <= 3, "{} pages", sheet.pages.len());
    let cards: Vec<_> = sheet.pages.iter().flat_map(|page| &page.cards).collect();
    let scales: BTreeSet<&str> = cards.iter().map(|one| one.card.scale.as_str()).collect();
    let titles: BTreeSet<String> = cards.iter().map(|one| one.card.title.english()).collect();
    assert_eq!((cards.len(), titles.len(), scales.len()), (14, 14, 1), "{titles:?}");
    for one in &cards {
        let scene = &one.card.drawing.as_ref().unwrap().scene;
        assert!(scene.width <= one.card.width && one.at[0] + one.card.width <= ROW, "{}", one.card.title.english());
        assert!(one.at[1] + one.card.top + scene.height <= CARDS_HEIGHT + PAPER.notice, "{}", one.card.title.english());
        assert!(one.card.legend.english().starts_with("1 "), "{}", one.card.legend.english());
    }
    let dies: Vec<String> = sheet.dies.iter().map(|die| format!("{} {}", die.piece, die.cut.english())).collect();
    assert_eq!(dies, ["BILL shell", "FACE shell, its block", "FACE shell", "FOOT shell", "SOLE shell", "TIP shell"]);
    assert!(
        sheet
            .dies
            .iter()
            .all(|die| die.by.len() == sheet.sizes.len() && die.by.iter().flatten().all(|cell| !cell.is_blank()))
    );
}

/// What is the same for all fabrics is said once, what differs has a column, and each fabric fills all of them.
#[test]
fn what_all_fabrics_share_is_said_once() {
    let [sheet] = &markers()[..] else { panic!("one sheet") };
    let shared: Vec<String> = sheet.shared.iter().map(|fact| fact.label.english()).collect();
    let columns: Vec<String> = sheet.columns.iter().map(|label| label.english()).collect();
    assert!(
        shared.contains(&"Spread".to_string()) && !columns.contains(&"Spread".to_string()),
        "{shared:?} {columns:?}"
    );
    assert!(columns.contains(&"Width laid".to_string()) && columns.contains(&"Cut by".to_string()), "{columns:?}");
    for group in &sheet.groups {
        assert_eq!(group.cells.len(), columns.len(), "{}", group.title.english());
    }
}

#[test]
fn up_to_six_views_are_on_one_sheet() {
    let [sheet] = &views()[..] else { panic!("one sheet") };
    assert_eq!(sheet.views.len(), 5);
    let numbers: Vec<String> = (1..=sheet.callouts.len()).map(|number| number.to_string()).collect();
    assert_eq!(sheet.callouts.iter().map(|one| one.number.clone()).collect::<Vec<_>>(), numbers);
}

/// An article that comes in no colour names none; a use that followed from a change is marked, one that did not is not.
#[test]
fn uses_that_followed_are_marked_and_no_colour_is_invented() {
    let style = crate::sheets::STYLE;
    let before = style.replace("id = \"B\"", "id = \"A\"").replace("width = \"300 mm\"", "width = \"250 mm\"");
    let sheets = sheets(style, "", Some(&before));
    let row = |name: &str| {
        let mut all = bill(&sheets).groups.iter().flat_map(|group| &group.articles);
        let article = all.find(|one| one.item.english().ends_with(name)).unwrap();
        let texts =
            |cells: &[backtack_core::rows::Cell]| cells.iter().map(|cell| cell.phrase().english()).collect::<Vec<_>>();
        (texts(&article.rows[0].colours), texts(&article.rows[0].uses))
    };
    let (colours, uses) = row("Felt");
    assert_eq!(colours, ["Moss", "Clay"]);
    assert!(uses.iter().all(|text| text.starts_with("△ ")), "{uses:?}");
    assert_eq!(row("Tag"), (vec![String::new(); 2], vec!["1".to_string(); 2]));
}

/// All sizes and colourways of one figure that followed are in its row.
#[test]
fn what_followed_is_a_row_a_figure() {
    let style = crate::sheets::STYLE;
    let before = style
        .replace("id = \"B\"", "id = \"A\"")
        .replace("L = \"800 g ±40 g\"", "L = \"700 g ±40 g\"")
        .replace("S = \"43 g ±5 %\"", "S = \"40 g ±5 %\"");
    let sheets = sheets(style, "", Some(&before));
    let changes: &Changes =
        sheets.iter().find_map(|sheet| if let Sheet::Changes(one) = sheet { Some(one) } else { None }).unwrap();
    let names: Vec<String> = changes.followed.iter().map(|row| row.what.english()).collect();
    assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{names:?}");
    let fibre = changes.followed.iter().find(|row| row.what.english() == "Filling fibre").unwrap();
    let values: Vec<String> = fibre.values.iter().map(|one| one.english().replace('\u{a0}', " ")).collect();
    assert_eq!(values, ["S 40.0 g → 43.0 g (+3.0)", "L 700.0 g → 800.0 g (+100.0)"]);
}

/// A sample of seven pieces shows five readings beside the limits and two in a table of their own, and draws all seven.
#[test]
fn readings_of_many_pieces_are_all_printed() {
    let sample = "[sample.one]\nkind = \"counter sample\"\nof = \"B\"\nsize = \"S\"\ncolourway = \"moss\"\npieces = 7\n\
                  measured = 2026-11-01\n[sample.one.readings]\n\
                  A = [\"200 mm\", \"201 mm\", \"202 mm\", \"203 mm\", \"204 mm\", \"199 mm\", \"198 mm\"]\n";
    let sheets = sheets(crate::sheets::STYLE, sample, None);
    let sheet: &Samples =
        sheets.iter().find_map(|sheet| if let Sheet::Samples(one) = sheet { Some(one) } else { None }).unwrap();
    let row = sheet.rows.iter().find(|row| row.number == "A").unwrap();
    let first: Vec<String> = row.readings.iter().map(|one| one.text.phrase().english()).collect();
    let [more] = &sheet.more[..] else { panic!("one table") };
    let rest = more.rows.iter().find(|(number, ..)| number == "A").unwrap();
    let rest: Vec<String> = rest.2.iter().map(|one| one.text.phrase().english()).collect();
    assert_eq!((first.join(" "), rest.join(" ")), ("200 201 202 203 204".into(), "199 198".into()));
    assert_eq!((sheet.pieces.join(" "), more.pieces.join(" ")), ("1 2 3 4 5".into(), "6 7".into()));
    let marks = |fill| {
        use backtack_core::scene::Item;
        let items = &row.chart.as_ref().unwrap().scene.items;
        items.iter().filter(|item| matches!(item, Item::Path(path) if path.fill == fill)).count()
    };
    assert_eq!(marks(backtack_core::scene::Fill::Paper), 7);
    assert!(sheet.rows.iter().filter(|row| row.number == "E").all(|row| row.chart.is_none()), "nothing was read");
}
