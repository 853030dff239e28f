//! What is laid: spreads worked by hand, plies, and lays that are kept.

use backtack_core::compute::{Figure, Task};
use backtack_core::cutting::figures::{Effort, PRODUCT, SIZES, Search, mix_text, search};
use backtack_core::geom::grid::GridPoint;
use backtack_core::lay::{Lock, lock};
use backtack_core::pipeline::Checked;
use backtack_core::read::{self, Loaded};

/// A flat bag of one triangle in two mirrored copies, one rectangle cut once, and a fusible inside the rectangle.
const STYLE: &str = r#"
[style]
id = "T-1"
[fabric.fur]
pile = "20 mm"
width = "1500 mm"
cuttable-width = "1000 mm"
shrinkage-across = "2 %"
ply = "8 mm"
[fabric.web]
width = "900 mm"
cuttable-width = "900 mm"
[part.bag]
form = "flat"
[piece.SIDE]
part = "bag"
copies = ["l", "r mirrored"]
material = "fur"
allowance = "0 mm"
pile = "a-b"
outline = { shape = "polygon", corners = [["a", "0 mm", "0 mm"], ["b", "120 mm", "0 mm"], ["c", "120 mm", "90 mm"]] }
[piece.FLAP]
part = "bag"
pile = "nw-sw"
outline = { shape = "rectangle", width = "100 mm", height = "50 mm", points = { k = "nw-ne 25 mm" } }
[piece.FLAP.cut.shell]
material = "fur"
allowance = "10 mm"
[piece.FLAP.cut.stiffener]
material = "web"
inside = "5 mm"
[piece.FACE]
part = "bag"
pile = "nw-sw"
outline = { shape = "rectangle", width = "60 mm", height = "40 mm" }
[piece.FACE.cut.shell]
material = "fur"
allowance = "0 mm"
block = { width = "90 mm", height = "70 mm" }
"#;

fn read(more: &str) -> Loaded {
    read::texts(&[("style.toml", &format!("{STYLE}{more}"))])
}

fn computed(loaded: &Loaded) -> Checked {
    crate::checked(loaded)
}

fn task<'c>(computed: &'c Checked, fabric: &str) -> &'c Task {
    computed.lays.tasks.iter().find(|task| task.bought.article == fabric).unwrap()
}

/// A piece as name, demand and corners in whole mm.
type Laid = (String, usize, Vec<(i64, i64)>);

/// Pieces of a task.
fn pieces(task: &Task) -> Vec<Laid> {
    let mm = |points: &[GridPoint]| {
        let low = (points.iter().map(|p| p.x).min().unwrap(), points.iter().map(|p| p.y).min().unwrap());
        let mut all: Vec<_> = points.iter().map(|p| ((p.x - low.0) / 1000, (p.y - low.1) / 1000)).collect();
        all.sort_unstable();
        all
    };
    let all = task.instance.pieces.iter();
    all.map(|piece| (piece.id.clone(), piece.demand, mm(&piece.outline.points))).collect()
}

/// One way, face up: left and right each by itself, the pile of all along the roll.
#[test]
fn one_way_places_left_and_right() {
    let loaded = read("[cutting.room]\nspread = \"one way\"\n");
    let computed = computed(&loaded);
    let fur = task(&computed, "fur");
    let n = usize::try_from(fur.mix["one"]).unwrap();
    assert!(n > 1, "more than one product is laid");
    let wanted = [
        // The block as a block: 70 mm of pile, 90 mm across.
        ("FACE", vec![(0, 0), (0, 90), (70, 0), (70, 90)]),
        // 100 × 50 with 10 mm round it, the pile along the roll.
        ("FLAP", vec![(0, 0), (0, 120), (70, 0), (70, 120)]),
        // The pile of the triangle runs from a to b: to the right, c above b.
        ("SIDE", vec![(0, 0), (120, 0), (120, 90)]),
        // Mirrored across the roll: the pile still runs right, c below b.
        ("SIDE′", vec![(0, 90), (120, 0), (120, 90)]),
    ];
    let wanted: Vec<_> = wanted.into_iter().map(|(id, corners)| (id.to_string(), n, corners)).collect();
    assert_eq!(pieces(fur), wanted);
    // 1000 mm less 2 %.
    assert_eq!(fur.instance.fabric.width, 980_000);
    assert_eq!(fur.layers, 1);
    assert!(fur.surplus.is_empty());
    // The fusible is cut 5 mm inside: its own shape on its own fabric.
    let web = pieces(task(&computed, "web"));
    assert!(
        matches!(web.as_slice(), [(_, _, corners)] if corners.last() == Some(&(90, 40)) || corners.last() == Some(&(40, 90)))
    );
}

/// Pairs of plies: one triangle gives left and right; a single that is no image of itself comes twice, and one of the two
/// is left over.
#[test]
fn face_to_face_lays_one_of_each_pair() {
    let loaded = read("[cutting.room]\nspread = \"face to face\"\n");
    let computed = computed(&loaded);
    let fur = task(&computed, "fur");
    let n = fur.mix["one"];
    let laid: Vec<(String, u64)> =
        fur.instance.pieces.iter().map(|piece| (piece.id.clone(), piece.demand as u64)).collect();
    let faces = n.div_ceil(2);
    assert_eq!(laid, [("FACE".into(), faces), ("FLAP".into(), n), ("SIDE".into(), n)]);
    assert_eq!(fur.layers, 2);
    assert_eq!(fur.surplus.get("FLAP"), Some(&n));
    assert_eq!(fur.surplus.get("FACE").copied().unwrap_or(0), 2 * faces - n);
    assert_eq!(fur.surplus.get("SIDE"), None);
    assert_eq!(fur.instance.fabric.width, 980_000);
}

/// Folded along its length: half the width, and each placed piece comes twice from one length.
#[test]
fn folded_fabric_is_half_as_wide() {
    let loaded = read("[cutting.room]\nspread = \"folded\"\n");
    let computed = computed(&loaded);
    let fur = task(&computed, "fur");
    assert_eq!((fur.instance.fabric.width, fur.layers), (490_000, 1));
}

/// What pairing leaves of a piece that is its own image is cut on the fold, as half of it: of one face the half of
/// 70 × 90, 70 × 45. The left and right triangles come of one, and the single flap, no image of itself, twice.
#[test]
fn folded_fabric_gives_a_single_piece_on_the_fold() {
    let more = "[cutting.room]\nspread = \"folded\"\ntable = \"10 mm\"\ngap = \"4 mm\"\n";
    let loaded = read(more);
    let one = computed(&loaded);
    let fur = task(&one, "fur");
    assert_eq!(fur.mix["one"], 1, "the table holds no more");
    let half = ("FACE½".to_string(), 1, vec![(0, 0), (0, 45), (70, 0), (70, 45)]);
    let found = pieces(fur);
    assert_eq!(found[0], half);
    assert_eq!(
        found.iter().map(|(id, count, _)| (id.as_str(), *count)).collect::<Vec<_>>(),
        [("FACE½", 1), ("FLAP", 1), ("SIDE", 1)]
    );
    assert_eq!(fur.surplus, [("FLAP".to_string(), 1)].into());
    let on_fold: Vec<bool> = fur.instance.pieces.iter().map(|piece| piece.fold).collect();
    assert_eq!(on_fold, [true, false, false]);
    // Kept and read again it is a lay, the half on the fold.
    let text = laid(&loaded).text();
    let kept = with(&format!("{STYLE}{more}"), &text);
    let again = computed(&kept);
    let lay = task(&again, "fur").lay.clone().expect("a lay with a piece on the fold");
    assert_eq!(lay.placed[0].at.y, 0);
    // A pair lies beside the fold; on a fabric of 120 mm, folded less than 60 mm wide, both lie on it.
    let pair = STYLE.replace("[piece.FACE]", "[piece.FACE]\ncopies = 2");
    let of = |style: &str| {
        let loaded = read::texts(&[("style.toml", &format!("{style}{more}"))]);
        let computed = computed(&loaded);
        let (id, count, _) = pieces(task(&computed, "fur"))[0].clone();
        (id, count)
    };
    assert_eq!(of(&pair), ("FACE".into(), 1));
    assert_eq!(of(&pair.replace("cuttable-width = \"1000 mm\"", "cuttable-width = \"120 mm\"")), ("FACE½".into(), 2));
}

/// 40 mm under the knife hold 5 plies of 8 mm, and 16 of 2.5 mm (worked example of the trade); the least limit holds.
#[test]
fn plies_follow_from_the_height() {
    let plies = |more: &str, style: &str| {
        let loaded = read::texts(&[("style.toml", &format!("{style}[cutting.room]\nheight = \"40 mm\"\n{more}"))]);
        task(&computed(&loaded), "fur").how.plies.clone()
    };
    assert_eq!(plies("", STYLE), Figure::Known(5));
    assert_eq!(plies("", &STYLE.replace("ply = \"8 mm\"", "ply = \"2.5 mm\"")), Figure::Known(16));
    assert_eq!(plies("plies = 3\n", STYLE), Figure::Known(3));
    let own = STYLE.replace("ply = \"8 mm\"", "ply = \"2.5 mm\"\nplies = \"10 pc\"");
    assert_eq!(plies("", &own), Figure::Known(10));
}

/// What is the factory's to make is not known yet, and never zero.
#[test]
fn shapes_of_the_factory_have_no_lay() {
    let style = STYLE.replace(
        "outline = { shape = \"rectangle\", width = \"60 mm\", height = \"40 mm\" }",
        "outline = \"by factory\"",
    );
    let style = style.replace("block = { width = \"90 mm\", height = \"70 mm\" }\n", "");
    let loaded = read::texts(&[("style.toml", &style)]);
    let computed = computed(&loaded);
    assert!(computed.lays.tasks.iter().all(|task| task.bought.article != "fur"));
    let need = &computed.figures.fabric["one"]["only"];
    let fur = need.iter().find(|need| need.bought.article == "fur").unwrap();
    assert!(matches!(fur.length, Figure::NotYet { .. }));
}

fn laid(loaded: &Loaded) -> Lock {
    let computed = computed(loaded);
    let tasks: Vec<&Task> = computed.lays.tasks.iter().collect();
    let mut lock = loaded.model.lock.clone();
    let how = Search { effort: Effort::Quick, again: false, longer: false, stop: &|| false, observe: &|_, _, _| {} };
    let (moved, refused) = search(&tasks, PRODUCT, &mut lock, &how);
    assert_eq!((moved.len(), refused.len()), (2, 0));
    lock
}

fn with(style: &str, lock: &str) -> Loaded {
    read::texts(&[("style.toml", style), (lock::FILE, lock)])
}

/// A kept lay serves the same pieces under other names and in another order of files, and nothing else.
#[test]
fn a_kept_lay_serves_what_it_was_made_for() {
    let lock = laid(&read(""));
    let text = lock.text();
    let found = |loaded: &Loaded| computed(loaded).lays.tasks.iter().filter(|task| task.lay.is_some()).count();
    assert_eq!(with(STYLE, &text).model.lock, lock, "written and read again");
    assert_eq!(found(&with(STYLE, &text)), 2);
    assert_eq!(found(&with(&STYLE.replace("[part.bag]", "# remark\n[part.bag]\nname = \"Bag\""), &text)), 2);
    assert_eq!(found(&with(&STYLE.replace("\"90 mm\"]", "\"91 mm\"]"), &text)), 1, "a changed piece");
    assert_eq!(found(&with(&STYLE.replace("cuttable-width = \"900 mm\"", "cuttable-width = \"890 mm\""), &text)), 1);
    let product = computed(&with(STYLE, &text)).figures.fabric["one"]["only"][0].clone();
    assert!(!product.estimate && product.length.get().unwrap() > 0.0);
}

/// A length or a place changed by hand is not taken: the entry fails the check of its lay.
#[test]
fn an_edited_entry_is_refused() {
    let text = laid(&read("")).text();
    let found = |text: &str| computed(&with(STYLE, text)).lays.tasks.iter().filter(|task| task.lay.is_some()).count();
    let line = text.lines().find(|line| line.starts_with("length")).unwrap();
    assert_eq!(found(&text.replacen(line, "length = \"100 mm\"", 1)), 1, "shorter than it can be");
    assert_eq!(found(&text.replacen(line, "length = \"9000 mm\"", 1)), 1, "longer than its pieces reach");
    let place = text.lines().find(|line| line.starts_with("  \"1.1 ")).unwrap();
    let moved = place.rsplit_once(' ').map(|(head, _)| format!("{head} 5000\",")).unwrap();
    assert_eq!(found(&text.replacen(place, &moved, 1)), 1, "off the fabric");
    let broken = with(STYLE, &text.replace("format = 1", "format = 7"));
    assert_eq!(broken.findings.iter().filter(|one| one.rule.code == "broken-lock").count(), 1);
    assert_eq!(found(&text.replace("format = 1", "format = 7")), 0, "another version");
}

/// What dies cut is struck in rows, with the free lay kept beside it; what a product needs comes from the rows.
#[test]
fn what_dies_cut_is_laid_in_rows() {
    let style = format!("{STYLE}[cutting.press]\nmethod = \"die\"\n");
    let loaded = read::texts(&[("style.toml", &style)]);
    let computed = computed(&loaded);
    let tasks = computed.lays.kept_as(PRODUCT);
    let mut lock = Lock::default();
    let how = Search { effort: Effort::Quick, again: false, longer: false, stop: &|| false, observe: &|_, _, _| {} };
    let (moved, refused) = search(&tasks, PRODUCT, &mut lock, &how);
    assert_eq!((moved.len(), refused.len(), lock.entries.len()), (4, 0, 4), "rows and free, for two fabrics");
    let again = self::computed(&with(&style, &lock.text()));
    assert!(again.lays.tasks.iter().all(Task::kept));
    let fur = again.figures.lays.iter().find(|lay| lay.fabric == "fur").unwrap();
    let struck = fur.struck.as_ref().unwrap();
    let strikes: u64 = struck.rows.iter().map(|row| row.strikes).sum();
    assert_eq!(strikes + struck.single, fur.pieces);
    // FLAP is 70 × 120 with the usual 4 mm between strikes; nothing else stands in its row.
    let flap = struck.rows.iter().find(|row| row.piece == "FLAP").unwrap();
    assert!((124.0..124.05).contains(&flap.pitch.get()), "{}", flap.pitch.get());
    let need = again.figures.fabric["one"]["only"].iter().find(|need| need.bought.article == "fur").unwrap();
    assert_eq!(need.length, fur.per_product);
    // The cut of one product: twice the triangle of 120 + 90 + 150, the flap with its allowance as it is drawn, the block.
    let products = fur.mix["one"] as f64;
    let flap = loaded.model.pieces.contains_key("FLAP").then_some(2.0 * (70.0 + 120.0)).unwrap();
    let worked = products * (2.0 * 360.0 + flap + 2.0 * (90.0 + 70.0));
    assert!((fur.path.get() - worked).abs() < 1e-6, "{} and {worked}", fur.path.get());
}

/// Two fabrics that share a title, one in each colourway, keep both their lays.
#[test]
fn two_fabrics_of_one_title_keep_both_lays() {
    let style = STYLE
        .replace("[fabric.fur]", "[role.body]\nname = \"Body\"\n[fabric.fur]")
        .replace("material = \"fur\"", "material = \"body\"")
        + "[fabric.felt]\nwidth = \"1200 mm\"\ncuttable-width = \"1100 mm\"\n[colourway.red]\nbody = \"fur\"\n[colourway.blue]\nbody = \"felt\"\n";
    let loaded = read::texts(&[("style.toml", &style)]);
    let computed = computed(&loaded);
    let tasks = computed.lays.kept_as(PRODUCT);
    let titles: Vec<&str> = tasks.iter().map(|task| task.instance.name.split(',').next().unwrap()).collect();
    assert_eq!(titles.iter().filter(|title| **title == "Body").count(), 2, "{titles:?}");
    let mut lock = Lock::default();
    let how = Search { effort: Effort::Quick, again: false, longer: false, stop: &|| false, observe: &|_, _, _| {} };
    search(&tasks, PRODUCT, &mut lock, &how);
    let again = self::computed(&with(&style, &lock.text()));
    assert!(again.lays.tasks.iter().all(Task::kept), "both are kept");
}

/// A mix of sizes that a `[cutting]` asks for is laid beside the lays of one product, and changes none of them.
#[test]
fn a_mix_of_sizes_is_laid_beside_the_products() {
    let sizes = "[size.L]\nscale = { along = \"1.25\", across = \"1.25\" }\n";
    let base = STYLE.replace("id = \"T-1\"", "id = \"T-1\"\nsizes = [\"S\", \"L\"]");
    let style = format!("{base}{sizes}[cutting.room]\nmix = {{ S = 2, L = 1 }}\n");
    let loaded = read::texts(&[("style.toml", &style)]);
    let wrong: Vec<String> = loaded.findings.iter().map(|one| one.message.english()).collect();
    let computed = computed(&loaded);
    let mixed: Vec<&Task> = computed.lays.kept_as(SIZES);
    assert!(!mixed.is_empty(), "{wrong:?}");
    for task in mixed {
        assert_eq!(mix_text(&task.mix), "L × 1, S × 2");
        let count = |piece: &str| task.instance.pieces.iter().find(|one| one.id == piece).map(|one| one.demand);
        if task.bought.article == "fur" {
            assert_eq!((count("FLAP S"), count("FLAP L")), (Some(2), Some(1)));
        }
    }
    let alone = read::texts(&[("style.toml", &format!("{base}{sizes}"))]);
    let keys = |computed: &Checked| -> Vec<String> {
        computed.lays.kept_as(PRODUCT).iter().map(|task| task.key.clone()).collect()
    };
    assert_eq!(keys(&computed), keys(&self::computed(&alone)));
    for wrong in ["{ S = 2 }", "{ S = 2, XL = 1 }", "{ S = 2, L = 0 }"] {
        let loaded = read::texts(&[("style.toml", &format!("{base}{sizes}[cutting.room]\nmix = {wrong}\n"))]);
        assert_eq!(loaded.findings.iter().filter(|one| one.rule.code == "bad-value").count(), 1, "{wrong}");
        assert!(self::computed(&loaded).lays.kept_as(SIZES).is_empty());
    }
}
