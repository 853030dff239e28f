//! What the sheets tell the sewing line of a seam: which way each layer faces, where a caught edge lies, what is a fold,
//! what is drawn at all, and how much is eased.

use std::collections::BTreeSet;
use std::path::Path;

use backtack_core::compute::{Facing, Figures, Number};
use backtack_core::read::{self, Loaded};
use backtack_core::rows::data::{JoinRow, Sheet, Step};
use backtack_core::words::{Language, Languages};

struct Printed {
    figures: Figures,
    sheets: Vec<Sheet>,
}

impl Printed {
    fn of(loaded: &Loaded) -> Printed {
        let checked = crate::checked(loaded);
        let sheets = crate::sheets(loaded, &checked);
        Printed { figures: checked.figures, sheets }
    }

    fn puffin() -> Printed {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
        Printed::of(&crate::folder(&folder).unwrap())
    }

    fn toy() -> Printed {
        Printed::of(&read::texts(&[("style.toml", include_str!("../two_part_toy/toy.toml"))]))
    }

    /// The step whose title begins like this.
    fn step(&self, title: &str) -> &Step {
        let stages = self.sheets.iter().flat_map(|sheet| match sheet {
            Sheet::Construction(one) => one.stages.as_slice(),
            _ => &[],
        });
        let mut steps = stages.flat_map(|stage| &stage.steps);
        steps.find(|step| step.title.english().contains(title)).unwrap_or_else(|| panic!("no step {title}"))
    }

    /// The allowance that follows for a step from its stage and itself.
    fn allowance(&self, title: &str) -> String {
        let stages = self.sheets.iter().flat_map(|sheet| match sheet {
            Sheet::Construction(one) => one.stages.as_slice(),
            _ => &[],
        });
        let holds = |step: &&Step| step.title.english().contains(title);
        let found = stages.flat_map(|stage| stage.steps.iter().map(move |step| (stage, step)));
        let (stage, step) = found.into_iter().find(|(_, step)| holds(step)).unwrap();
        let mut facts = step.differs.iter().chain(&stage.same);
        let found = facts.find(|fact| fact.label.english() == "Seam allowance");
        found.map_or(String::new(), |fact| fact.value.phrase().english())
    }

    /// Every row of the table of seams.
    fn joins(&self) -> Vec<&JoinRow> {
        let tables = self.sheets.iter().flat_map(|sheet| match sheet {
            Sheet::Matching(one) => one.tables.as_slice(),
            _ => &[],
        });
        tables.flat_map(|table| &table.rows).collect()
    }

    fn join(&self, letter: &str) -> &JoinRow {
        self.joins().into_iter().find(|row| row.letter == letter).unwrap_or_else(|| panic!("no seam {letter}"))
    }
}

/// The texts of the plies of a step, in needle order, without their edges.
fn plies(step: &Step) -> Vec<String> {
    step.plies.iter().map(|ply| ply.text.english().lines().next().unwrap_or_default().to_string()).collect()
}

#[test]
fn a_step_says_its_edges_in_plain_words_and_their_codes_at_the_plies() {
    let puffin = Printed::puffin();
    let strip = puffin.step("Strip over the head");
    let said = "Strip over the head: f to x to g\nto Head side, left: f to x1, x2 to g\nalso mirrored";
    assert_eq!(strip.text.english(), said);
    let codes: Vec<String> = strip.plies.iter().map(|ply| ply.codes.english()).collect();
    assert_eq!(codes, ["CROWN:f-x-g", "HEAD.l:f-x1, x2-g"]);
    let said = |title: &str| {
        let step = puffin.step(title);
        [step.text.english(), step.codes.english()]
    };
    let face = said("Face onto the head");
    assert_eq!(face[0], "Face, left: m to k to l to m onto Head side, left: the line face\nalso mirrored");
    assert_eq!(face[1], "face.left/FACE:m-k-l-m\nHEAD.l:@face");
    assert_eq!(said("Crease behind the eye"), ["along Face: the line crease", "FACE:@crease"]);
    // What is sewn for every use of a part names none.
    let wing = puffin.step("Wing, round seam").text.english();
    assert_eq!(wing, "Wing, inner layer: r to e to s\nto Wing, outer layer: r to e to s");
    let dart = puffin.step("Dart in the crown");
    assert_eq!(dart.plies[0].codes.english(), "HEAD.l:x1-p\nHEAD.l:x2-p");
}

/// A second language that tells of one ply only would have the other left out.
#[test]
fn a_second_language_tells_of_both_plies_of_a_step() {
    let both = Languages::both(Language::English, Language::SimplifiedChinese);
    let puffin = Printed::puffin();
    let said = |title: &str| puffin.step(title).text.second(both).unwrap_or_default();
    let strip = said("Strip over the head");
    assert_eq!(strip, "Strip over the head: f 至 x 至 g\n接 Head side, 左: f 至 x1, x2 至 g\n左右对调，再做一次");
    let wing = said("Wing, round seam");
    assert_eq!(wing, "Wing, inner layer: r 至 e 至 s\n接 Wing, outer layer: r 至 e 至 s");
    for sheet in &puffin.sheets {
        let Sheet::Construction(one) = sheet else { continue };
        for step in one.stages.iter().flat_map(|stage| &stage.steps) {
            let second = step.text.second(both).unwrap_or_default();
            assert!(!second.starts_with("接 "), "{}: {second}", step.title.english());
        }
    }
}

#[test]
fn the_plies_of_a_turned_limb_face_outward() {
    let puffin = Printed::puffin();
    let outward = [Facing::Down, Facing::Up, Facing::Down, Facing::Up];
    for seam in ["belly_round", "base_front", "base_back"] {
        assert_eq!(puffin.figures.seams[seam].facing, outward, "{seam}");
    }
    let wings = plies(puffin.step("with the wings"));
    assert!(wings[1].starts_with("Wing, inner layer") && wings[1].ends_with("pile up"), "{wings:?}");
    assert!(wings[2].starts_with("Wing, outer layer") && wings[2].ends_with("pile down"), "{wings:?}");
}

/// One ply by itself has two ways to lie; the sheet names it and says no more.
#[test]
fn a_layer_whose_facing_does_not_follow_says_none() {
    let toy = Printed::toy();
    assert_eq!(toy.figures.seams["dart"].facing, [Facing::Down, Facing::NotKnown, Facing::Up]);
    let texts = plies(toy.step("dart"));
    assert!(!texts[1].contains("up") && !texts[1].contains("down"), "{texts:?}");
}

#[test]
fn a_limb_that_is_not_turned_says_no_facing() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
    let mut files = Vec::new();
    for name in ["style", "materials", "pieces", "seams", "measurements", "parties"] {
        let text = std::fs::read_to_string(folder.join(format!("{name}.toml"))).unwrap();
        files.push((
            format!("{name}.toml"),
            text.replace("\"wing_round\", \"turn_wing\",", "\"wing_round\",").into_bytes(),
        ));
    }
    for size in ["S", "L"] {
        let name = format!("outlines/{size}.svg");
        files.push((name.clone(), std::fs::read(folder.join(&name)).unwrap()));
    }
    let list: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    let figures = crate::checked(&read::files(&list)).figures;
    let facing = |seam: &str| figures.seams[seam].facing[1..3].to_vec();
    assert_eq!(facing("belly_round"), [Facing::NotKnown, Facing::NotKnown]);
    assert_eq!(facing("base_front"), [Facing::Up, Facing::Down]);
}

/// A caught edge bears the number of the edge of side a that it lies on, mirrored seams with their mirror images.
#[test]
fn caught_edges_bear_the_number_of_the_stretch_they_lie_on() {
    let puffin = Printed::puffin();
    let between = |letter: &str| puffin.join(letter).between.english();
    assert_eq!(between("T"), "between them: T3 wing.left/WINGIN r–s; T3 wing.left/WING r–s, along T3 SIDE.l w1–w2");
    assert_eq!(
        between("T′"),
        "between them: T′3 wing.right/WINGIN r–s; T′3 wing.right/WING r–s, along T′3 SIDE.r w1–w2"
    );
    assert_eq!(between("U"), "between them: U2 foot.left/FOOT r–s; U2 foot.left/SOLE r–s, along U2 BELLY j–i");
    assert_eq!(between("U′"), "between them: U′2 foot.right/FOOT r–s; U′2 foot.right/SOLE r–s, along U′2 BELLY j~–i~");
    let tail = between("V");
    assert!(tail.contains("V2 TAIL r~–d, V3 TAIL d–r; V2 UNDER r–d, V3 UNDER d–r~"), "{tail}");
    assert!(tail.contains("along V2 SIDE.l k–z, V3 SIDE.r z–k"), "{tail}");
}

/// Two tabs and a label beside each other, and piping along all of the seam: each has its place, its length and its letter.
#[test]
fn what_is_caught_in_one_seam_has_a_place_each() {
    let tab = |id: &str, wide: u32| {
        format!(
            "[part.{id}]\nform = \"flat\"\n[piece.{id}]\npart = \"{id}\"\nmaterial = \"felt\"\nallowance = \"6 mm\"\nraw = \
             [\"ne-se-sw-nw\"]\noutline = {{ shape = \"rectangle\", width = \"{wide} mm\", height = \"20 mm\" }}\n"
        )
    };
    let panel = "[piece.P]\npart = \"p\"\nmaterial = \"felt\"\nallowance = \"6 mm\"\ncopies = [\"f\", \"b mirrored\"]\noutline = { \
                 shape = \"rectangle\", width = \"200 mm\", height = \"90 mm\", points = { e = \"nw-ne 30 mm\", g = \"nw-ne 70 mm\", h = \
                 \"nw-ne 90 mm\", k = \"nw-ne 150 mm\" } }\nraw = [\"ne-se-sw-nw\"]\n";
    let seam = "[seam.top]\na = \"P.f:nw-e-g-h-k-ne\"\nb = \"P.b:nw-e-g-h-k-ne\"\nbetween = [{ edge = [\"A:nw-ne\", \"B:nw-ne\"], on \
                = \"P.f:e-g\" }, { edge = \"C:nw-ne\", on = \"P.f:h-k\" }, { trim = \"tag\", on = \"P.f:g-h\" }, { trim = \"cord\" }]\n\
                [work]\norder = [\"top\"]\n";
    let style = format!(
        "[style]\nsizes = \"one\"\n[fabric.felt]\nname = \"Felt\"\n[trim.tag]\nname = \"Tag\"\n[trim.cord]\nname = \
         \"Cord\"\n[part.p]\nform = \"flat\"\n{panel}{}{}{}{seam}",
        tab("A", 40),
        tab("B", 40),
        tab("C", 60)
    );
    let made = Printed::of(&read::texts(&[("style.toml", &style)]));
    let caught = &made.figures.seams["top"].sizes["one"].caught;
    let lengths: Vec<f64> = caught.iter().map(|one| one.length.known().unwrap().get()).collect();
    for (found, wanted) in lengths.iter().zip([40.0, 40.0, 60.0, 20.0, 200.0]) {
        assert!((found - wanted).abs() < 0.002, "{lengths:?}");
    }
    assert_eq!(lengths.len(), 5);
    assert_eq!(
        made.join("A").between.english(),
        "between them: A2 A nw–ne; A2 B nw–ne, along A2 P.f e–g; A4 C nw–ne, along A4 P.f h–k; Tag, along A3 P.f g–h; Cord"
    );
    let said = made.step("top").note.english();
    for line in ["as ply 2 and 3 lies along", "as ply 4 lies along", "as ply 5 lies along"] {
        assert!(said.contains(line), "{said}");
    }
}

#[test]
fn a_marked_dart_is_a_fold_without_allowance() {
    let puffin = Printed::puffin();
    for (seam, title) in [("dart_crown", "Dart in the crown"), ("dart_neck", "Dart in the neck")] {
        assert!(puffin.figures.seams[seam].fold);
        let step = puffin.step(title);
        assert_eq!(plies(step), ["Head side, Black plush, folded, pile inside"]);
        assert_eq!((puffin.allowance(title).as_str(), step.stack.is_some()), ("none", true), "{title}");
    }
    assert!(!puffin.figures.seams["front_head"].fold);
    // Cut out, the same dart has two edges with an allowance.
    let toy = include_str!("../two_part_toy/toy.toml");
    let cut = Printed::of(&read::texts(&[("style.toml", &toy.replace("darts = \"marked\"", "darts = \"cut\""))]));
    assert!(Printed::toy().figures.seams["dart"].fold && !cut.figures.seams["dart"].fold);
    assert_eq!(plies(cut.step("dart")).len(), 3);
    assert_eq!(cut.allowance("dart"), "5 mm");
}

/// How an opening is closed, and what is finished together after a seam, is told in words.
#[test]
fn a_section_is_drawn_only_where_it_is_known() {
    let puffin = Printed::puffin();
    let mouth = puffin.step("Mouth of the pellet bag");
    assert!(mouth.stack.is_none() && mouth.plies.is_empty());
    assert!(mouth.text.english().contains("not drawn: see the note"), "{}", mouth.text);
    assert!(puffin.step("Pellet bag, round seam").stack.is_some());
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/floor-cushion");
    let cushion = Printed::of(&crate::folder(&folder).unwrap());
    // Before its seam the edge is one ply; after it both plies are there.
    assert!(cushion.step("Neaten the zip edge of the upper strip").stack.is_some());
    let both = cushion.step("Neaten the top seam");
    assert!(both.stack.is_none() && both.text.english().contains("see the note"), "{}", both.text);
}

#[test]
fn ease_is_what_there_is_beside_what_is_allowed() {
    let puffin = Printed::puffin();
    let note = |title: &str| puffin.step(title).note.english();
    let wing = note("Wing, round seam");
    assert!(wing.contains("Ease WING:r-e-s: S 2.7 mm (1.2 %), L 3.9 mm (1.2 %); at most 1.5 %."), "{wing}");
    let strip = note("Strip over the head");
    assert!(strip.contains("Ease HEAD.l:f-x1, x2-g: S 2.7 mm (1.5 %), L 3.6 mm (1.5 %); at most 2 %."), "{strip}");
}

/// Stretches by the number of their edge, each end by its own name; a notch has no distance that is of one size only. What is
/// even, whole and has nothing caught is not listed.
#[test]
fn stretches_are_named_for_every_size() {
    let puffin = Printed::puffin();
    let rows = puffin.joins();
    let said: Vec<String> = rows.iter().map(|row| row.stretches.english()).collect();
    for stretch in [
        "N1 f – x: S 96.2 to 97.6, L 125.0 to 126.9; N2 x – g: S 86.6 to 87.9, L 112.6 to 114.3",
        "T4 w2 – notch 1: S 33.4, L 43.1; T4 notch 1 – b: S 45.8, L 62.2",
        "T3 w1 – w2: S 36.0, L 51.1",
    ] {
        assert!(said.iter().any(|one| one.contains(stretch)), "{stretch} of {said:?}");
    }
    assert!(said.iter().all(|one| !one.contains(" mm") && !one.contains("T1") && !one.contains("S1")), "{said:?}");
}

/// Every seam, opening and attachment to a line is in the table of each example once, with its letter, name and the lengths
/// of its figures in every size.
#[test]
fn every_seam_is_in_the_table_once_with_the_lengths_of_its_figures() {
    for example in ["puffin", "floor-cushion", "juggling-ball"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(example);
        let loaded = crate::folder(&folder).unwrap();
        let printed = Printed::of(&loaded);
        let rows = printed.joins();
        let letters: BTreeSet<&str> = rows.iter().map(|row| row.letter.as_str()).collect();
        assert_eq!(letters.len(), rows.len(), "{example}: a letter twice");
        assert!(!printed.figures.seams.is_empty());
        for (id, seam) in &printed.figures.seams {
            let joint = loaded.model.joints.get(id).map(|one| &one.entry);
            let entry = joint.or(loaded.model.attaches.get(id).map(|one| &one.entry)).unwrap();
            let own = |row: &&&JoinRow| row.title.english() == entry.title() && !row.letter.ends_with('′');
            let found: Vec<&&JoinRow> = rows.iter().filter(own).collect();
            assert_eq!(found.len(), 1, "{example}: {id}");
            let sizes = loaded.model.sizes.iter().map(|size| &seam.sizes[&size.entry.id.value]);
            for (printed, size) in found[0].lengths.iter().zip(sizes) {
                let written = |number: &Number| format!("{:.1}", number.get());
                let [a, b] = [&size.a, &size.b].map(|length| written(length.known().unwrap()));
                let [shown_a, shown_b] =
                    [&printed.a, &printed.b].map(|cell| cell.phrase().english().replace('\u{a0}', ""));
                assert_eq!((shown_a, shown_b), (a, b), "{example}: {id}");
                let apart = size.difference.known().unwrap().get().abs() >= 0.05;
                assert_eq!(printed.difference.is_empty(), !apart, "{example}: {id}: {}", printed.difference);
            }
        }
    }
}

/// By hand: the strip is 2.7 mm shorter than the head, of whose edge of 182.8 mm that is 1.5 %.
#[test]
fn a_difference_stands_in_mm_and_percent() {
    let puffin = Printed::puffin();
    let said: Vec<String> = puffin.join("N").lengths.iter().map(|one| one.difference.english()).collect();
    assert_eq!(said, ["2.7 (1.5 %)", "3.6 (1.5 %)"]);
    assert_eq!(puffin.join("N").also, "N′");
    assert_eq!(
        (puffin.join("A").title.english().as_str(), puffin.join("X").title.english().as_str()),
        ("Face onto the head", "Beak onto the head")
    );
}
