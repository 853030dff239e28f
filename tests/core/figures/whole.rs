//! Whole examples: the reference of the file, sums, and one golden.

use std::collections::BTreeSet;

use backtack_core::compute::{self, Figure, Figures};
use backtack_core::model::Assembly;
use backtack_core::orders::figures::{self as orders, Estimate, Laid, LayLengths, Spreading};
use backtack_core::orders::plan::{Length, Mix};
use backtack_core::read;

use super::{CUSHION, made};

fn example(name: &str) -> Figures {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name);
    let loaded = crate::folder(&folder).unwrap();
    crate::checked(&loaded).figures
}

/// Everything that the examples leave out.
fn rarities() -> Figures {
    let text = CUSHION
        .replace("600 g ±30 g", "600 g")
        .replace("filling = \"fibre\"", "filling = \"soft\"")
        .replace("[colourway.sand]", "[role.soft]\n[role.lost]\n[colourway.sand]\nsoft = \"fibre/sand\"")
        .replace("allowance = \"10 mm\"", "allowance = \"10 mm\"\nblock = { width = \"500 mm\", height = \"500 mm\" }")
        .replace("grain = \"sw-nw\"", "grain = \"sw-nw\"\ncorners = { nw = \"fold back sw-nw\" }")
        .replace("thread = \"thread\" }", "thread = \"thread\" }\nease = { side = \"b\", up_to = \"3 %\" }");
    let more = "[stuffing.more]\npart = \"cover\"\nfilling = \"lost\"\n[piece.UNKNOWN]\noutline = \"by factory\"\n\
                material = \"main\"\nallowance = \"5 mm\"\n[edge-finish.rim]\nby = \"overlocked\"\non = \"PANEL.top:p-q\"\n\
                [step.sign]\ndo = \"embroider\"\nthreads = [{ thread = \"lost\", length = \"1 m\" }]\n";
    // Felt whose faces are equal, and a scale that reads a step.
    let even = "[fabric.even]\nfaces = \"equal\"\n[piece.EVEN]\nmaterial = \"even\"\nallowance = \"5 mm\"\noutline = { shape = \
                \"rectangle\", width = \"100 mm\", height = \"50 mm\" }\n";
    let more = more.replace("filling = \"lost\"", "filling = \"lost\"\nread-to = \"1 g\"");
    // A dart that is marked, and a seam with notches.
    let notched = "[piece.FLAP]\nmaterial = \"main\"\nallowance = \"5 mm\"\nnotches = [\"a-b 40 mm\"]\noutline = { shape = \
                   \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"100 mm\", \"0 mm\"], [\"c\", \"100 mm\", \
                   \"50 mm\"], [\"d\", \"60 mm\", \"50 mm\"], [\"p\", \"50 mm\", \"30 mm\"], [\"e\", \"40 mm\", \"50 mm\"], \
                   [\"f\", \"0 mm\", \"50 mm\"]] }\n[piece.FLOP]\nmaterial = \"main\"\nallowance = \"5 mm\"\nnotches = [\"sw-se \
                   60 mm\"]\noutline = { shape = \"rectangle\", width = \"100 mm\", height = \"50 mm\" }\n[seam.dart]\na = \
                   \"FLAP:d-p\"\nb = \"FLAP:e-p\"\n[seam.flap]\na = \"FLAP:a-b\"\nb = \"FLOP:se-sw\"\n";
    made(&format!("{text}{more}{even}{notched}")).0
}

/// A round with everything that can be found on one, and every ledger.
fn sampled() -> Figures {
    let style = CUSHION.replace("[colour.sand]", "[colour.sand]\nlab = [\"60\", \"5\", \"20\"]\nlimit = \"1.5\"");
    let samples = r#"
[sample.a]
pieces = 2
readings = { W = { left = ["460 mm", "461 mm"], right = ["45 mm", ""] } }
masses = { finished = ["900 g", "901 g"], shell = ["14 g", ""], stuffings = { inside = ["600 g", "601 g"] } }
colours = { main = [["60", "5", "21"], []] }
checks = [{ text = "a", result = "pass", note = "b" }]
grades = [{ test = "staining", of = "main", grade = "4", required = "4" }]
[sample.b]
pieces = 2
measured = 2026-11-20
readings = { W = ["460 mm", "461 mm"] }
[comment.a]
about = "style"
state = "correct in bulk"
[approval.a]
of = "canvas/sand"
submissions = [{ verdict = "approved", lab = ["60", "5", "22"] }]
sealed = { tag = "1", sets = ["a"], signatories = ["b"], deviations = ["c"] }
[concession.a]
lifts = "no-view"
"#;
    let loaded = read::texts(&[("style.toml", &style), ("samples/a.toml", samples)]);
    assert_eq!(loaded.findings.iter().count(), 0, "{:#?}", loaded.findings);
    crate::checked(&loaded).figures
}

/// Every path of a JSON value down to numbers, texts, flags and figures that are not known.
fn paths(value: &serde_json::Value, at: &str, into: &mut BTreeSet<String>) {
    use serde_json::Value;
    let below = |key: &str| if at.is_empty() { key.to_string() } else { format!("{at}.{key}") };
    match value {
        Value::Object(map) if !map.contains_key("not-known-yet") && !map.contains_key("withheld") => {
            map.iter().for_each(|(key, value)| paths(value, &below(&key.replace('.', "_")), into));
        }
        Value::Array(list) => list.iter().for_each(|value| paths(value, &below("[]"), into)),
        _ => {
            into.insert(at.to_string());
        }
    }
}

/// Face to face: two products come of each pair of plies. On a table of 6 m, with splices of 50 mm.
struct Pairs<'a>(Estimate<'a>);

impl LayLengths for Pairs<'_> {
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading {
        let (table, splice) = (Some(6_000_000), (of.article != "felt").then_some(50_000));
        Spreading { step: 2, multiple: 2, sets: 2, table, splice, ..self.0.spreading(of) }
    }

    fn length(&mut self, of: &Laid<'_>, mix: &Mix) -> Result<Length, backtack_core::words::Phrase> {
        self.0.length(of, mix)
    }

    fn lay(&mut self, _: &Laid<'_>, _: &Mix) -> Option<i64> {
        None
    }

    fn is_estimate(&self) -> bool {
        true
    }
}

/// Orders with their plans: of an example, and what it leaves out: no ply count that divides, a price, no plan.
fn planned() -> Vec<Figures> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/floor-cushion");
    let example = crate::folder(&folder).unwrap();
    let text = |shape: &str| {
        format!(
            "[style]\nid = \"X\"\nname = \"Mat\"\n[fabric.felt]\nmass = \"300 g/m2\"\nwidth = \"1500 mm\"\ncuttable-width = \
             \"1450 mm\"\nefficiency = \"80 %\"\nroll-length = \"25 m\"\nprice = \"4.20 EUR/m\"\n[piece.MAT]\noutline = \
             {shape}\nmaterial = \"felt\"\nallowance = \"10 mm\"\n[piece.LOST]\noutline = {shape}\nallowance = \"1 mm\"\n\
             [piece.LOST.cut.shell]\ncount = 1\n[cutting.press]\nmethod = \"die\"\nproducts = 4\nshortest-ply = \"600 mm\"\nreserve = \"1 m\"\n[piece.STRIP]\noutline = {{ shape = \
             \"rectangle\", width = \"60 mm\", height = \"4 mm\" }}\nmaterial = \"felt\"\nallowance = \"0.5 mm\"\n"
        )
    };
    let order = "[order.one]\ncut-extra = \"0 %\"\n[order.one.line.a]\nquantity = 25\n";
    let of = |shape| read::texts(&[("style.toml", &text(shape)), ("orders/one.toml", order)]);
    let styles = [example, of("{ shape = \"circle\", diameter = \"300 mm\" }"), of("\"by factory\"")];
    let plan = |loaded: &read::Loaded| {
        let mut figures = compute::compute(&loaded.model, &Assembly::of(&loaded.model)).figures;
        let known = figures.clone();
        let mut pairs = Pairs(Estimate { model: &loaded.model, figures: &known });
        orders::plan(&loaded.model, &mut figures, &mut pairs);
        figures
    };
    styles.iter().map(plan).collect()
}

#[test]
fn every_field_is_documented_and_every_documented_field_occurs() {
    let mut found = BTreeSet::new();
    let all = [example("juggling-ball"), example("floor-cushion"), rarities(), sampled()].into_iter().chain(planned());
    for figures in all {
        paths(&serde_json::from_str(&figures.json()).unwrap(), "", &mut found);
    }
    let fits = |path: &str, pattern: &str| {
        let (path, pattern): (Vec<&str>, Vec<&str>) = (path.split('.').collect(), pattern.split('.').collect());
        path.len() == pattern.len() && path.iter().zip(&pattern).all(|(one, other)| *other == "*" || one == other)
    };
    let fields: Vec<_> = compute::fields::all().collect();
    let unknown: Vec<&String> =
        found.iter().filter(|path| !fields.iter().any(|field| fits(path, field.path))).collect();
    assert!(unknown.is_empty(), "not documented: {unknown:#?}");
    // Seen where spreads are worked by hand.
    let elsewhere = "lays.[].surplus.*";
    let paths = fields.iter().map(|field| field.path).filter(|path| *path != elsewhere);
    let unseen: Vec<&str> = paths.filter(|pattern| !found.iter().any(|path| fits(path, pattern))).collect();
    assert!(unseen.is_empty(), "documented, but nowhere: {unseen:#?}");
}

/// Unrounded sums may differ from the sum of rounded lines by half a millionth a line.
fn sums_to(lines: impl IntoIterator<Item = f64>, total: f64, what: &str) {
    let lines: Vec<f64> = lines.into_iter().collect();
    let sum: f64 = lines.iter().sum();
    assert!((sum - total).abs() <= 0.5e-6 * (lines.len() as f64 + 1.0) + 1e-9, "{what}: {sum} and {total}");
}

#[test]
fn totals_are_the_sums_of_their_lines() {
    for figures in [example("floor-cushion"), example("juggling-ball")] {
        for (size, colourway) in
            figures.sizes.iter().flat_map(|size| figures.colourways.iter().map(move |colourway| (size, colourway)))
        {
            let mass = &figures.mass[size][colourway];
            let targets = |packing: bool| {
                let lines = mass.lines.iter().filter(move |line| packing || !line.packing);
                lines.map(|line| line.mass.target.get().unwrap())
            };
            sums_to(targets(false), mass.computed.get().unwrap(), "product");
            sums_to(targets(true), mass.packed.target.get().unwrap(), "packed");
            let thread = &figures.thread[size][colourway];
            for total in &thread.totals {
                let own = thread.lines.iter().filter(|line| line.bought == Figure::Known(total.bought.clone()));
                let stated = thread.stated.iter().filter(|one| one.bought == Figure::Known(total.bought.clone()));
                let all = own.map(|line| line.net.get().unwrap()).chain(stated.map(|one| one.length.get().unwrap()));
                sums_to(all, total.net.get().unwrap(), "thread");
            }
            let stuffings = &figures.filling[size][colourway].stuffings;
            let total = figures.filling[size][colourway].total.target.get().unwrap();
            sums_to(stuffings.iter().map(|stuffing| stuffing.all.target.get().unwrap()), total, "filling");
            // Fabric, the other way round: from the areas of the pieces and how often each is cut.
            for need in &figures.fabric[size][colourway] {
                let cuts = figures.counts.cuts.iter();
                let own = cuts.filter(|cut| cut.material.as_ref().is_some_and(|name| need.materials.contains(name)));
                let areas = own.flat_map(|cut| {
                    let area = figures.pieces[&cut.piece][size].cuts[&cut.cut].material_area.get().unwrap();
                    std::iter::repeat_n(area, *cut.total.known().unwrap() as usize)
                });
                sums_to(areas, need.area.get().unwrap(), "area of fabric");
            }
        }
        let pieces: u64 = figures.counts.cuts.iter().filter_map(|cut| cut.total.known()).sum();
        assert_eq!(figures.counts.pieces, Figure::Known(pieces));
    }
}

#[test]
fn figures_of_the_juggling_ball() {
    insta::assert_snapshot!("juggling-ball-figures", example("juggling-ball").json());
}
