//! The document of an order of one line, and of one of sixty lines with dozens of lays: what is on its pages, and that nothing
//! lies over anything else.

use backtack::render::guard::SECONDS;
use backtack::render::lint::lint;
use backtack::render::page::Page;
use backtack_core::pipeline::{self, Source};

use crate::folder::Scratch;

const COLOURS: [&str; 5] = ["chalk", "clay", "moss", "slate", "soot"];
const SIZES: [&str; 4] = ["S", "M", "L", "XL"];
const PLACES: [&str; 3] = ["EU", "GB", "NO"];

/// A felt mat of two halves in four sizes and five colours, each colour in its colourway.
fn style() -> String {
    let by_size = "{ S = \"300 mm\", M = \"340 mm\", L = \"380 mm\", XL = \"420 mm\" }";
    let colours: String = COLOURS
        .iter()
        .map(|one| format!("[colour.{one}]\nreference = \"card\"\n[colourway.in-{one}]\ntop = \"felt/{one}\"\n"))
        .collect();
    format!(
        "[style]\nid = \"X-1\"\nname = \"Mat\"\nsizes = {SIZES:?}\ndestinations = {PLACES:?}\n[revision]\nid = \"A\"\n[role.top]\n\
         {colours}[fabric.felt]\nname = \"Felt\"\nmass = \"300 g/m2\"\nwidth = \"1500 mm\"\ncuttable-width = \"1450 mm\"\n\
         plies = 8\nroll-length = \"25 m\"\ncolours = {COLOURS:?}\n[cutting.room]\nproducts = 6\n[piece.MAT]\ncopies = 2\nmaterial = \"top\"\nallowance = \"10 mm\"\n\
         outline = {{ shape = \"rectangle\", width = {by_size}, height = \"200 mm\" }}\n"
    )
}

/// Every size in every colour for every place; the last line has a key that is none, which stops the order.
fn sixty() -> String {
    let mut text = String::from("[order.sixty]\nnumber = \"B-60\"\ncut-extra = \"2 %\"\nover = \"3 %\"\n");
    for place in PLACES {
        for colour in COLOURS {
            for size in SIZES {
                text += &format!(
                    "[order.sixty.line.{}-{colour}-{}]\nsize = \"{size}\"\ncolourway = \"in-{colour}\"\ndestination = \"{place}\"\n\
                     quantity = 64\n",
                    place.to_lowercase(),
                    size.to_lowercase()
                );
            }
        }
    }
    text + "shade = \"red\"\n"
}

/// The pages of an order's document, its lays found.
fn pages(style: &str, id: &str, order: &str) -> (Vec<Page>, usize) {
    let scratch = Scratch::new();
    scratch.write("mat/style.toml", style);
    scratch.write(&format!("mat/orders/{id}.toml"), order);
    let built = scratch.run(&["build", "mat", "--order", id]);
    assert!(built.out.contains(&format!("order-{id}.pdf")), "{built:?}");
    let loaded = pipeline::read(&Source::Folder(&scratch.path("mat")), &Default::default()).unwrap();
    let checked = pipeline::check(&loaded, &Default::default(), false);
    let edition = pipeline::order(&loaded, &checked, id).unwrap();
    let plan = edition.seen().figures.orders[id].fabrics[0].plan.known().unwrap();
    assert!(!plan.estimate, "the lays are found");
    let lays = plan.lays.len();
    (backtack::render_order(&edition, SECONDS).unwrap().document.pages(), lays)
}

/// Heads of tables are on every page of a sheet that goes on.
fn headed(pages: &[Page], sheet: &str, head: &str) -> usize {
    let mine: Vec<&Page> = pages.iter().filter(|page| page.sheet == sheet).collect();
    assert!(!mine.is_empty(), "no page of {sheet}");
    for (n, page) in mine.iter().enumerate() {
        assert!(page.runs().any(|run| run.text.contains(head)), "no {head} on page {n} of {sheet}");
    }
    mine.len()
}

#[test]
fn sixty_lines_hold_together() {
    let (pages, lays) = pages(&style(), "sixty", &sixty());
    assert!(lays >= 28, "{lays} lays");
    assert_eq!(lint(&pages), []);
    for page in &pages {
        let all: String = page.runs().map(|run| run.text.as_str()).collect();
        assert!(all.contains("Not released:") && all.contains("B-60"), "{all}");
    }
    assert!(headed(&pages, "spreading", "Roll no.") > 1);
    headed(&pages, "bundles", "Bundle");
    headed(&pages, "fabric", "How it is worked out");
    let all: String = pages[0].runs().map(|run| run.text.as_str()).collect();
    assert!(all.contains("do not cut") && all.contains("shade"), "{all}");
}

#[test]
fn one_line_holds_together() {
    let order = "[order.one]\n[order.one.line.a]\nsize = \"M\"\ncolourway = \"in-moss\"\nquantity = 1\n";
    let (pages, lays) = pages(&style(), "one", order);
    assert_eq!((lays, lint(&pages)), (1, vec![]));
    assert!(pages.len() <= 6, "{} pages", pages.len());
    let of = |sheet: &str| pages.iter().filter(|page| page.sheet == sheet).count();
    assert_eq!((of("plan"), of("bundles")), (1, 1));
    // What follows it on its page is the sheet of that page.
    assert!(pages.iter().any(|page| page.runs().any(|run| run.text.contains("Spreading record"))));
}
