//! Sewn surfaces whose counts follow from Euler's polyhedron formula: points − edges + faces is 2 for a ball and 0 for a
//! ring; each hole takes one off. Points and edges are counted by hand beside each check.

use backtack_core::diag::Findings;
use backtack_core::model::Assembly;
use backtack_core::model::assembly::{Shell, TroubleKind};
use proptest::prelude::*;

use crate::toy::sewing;

const WORK: &str = "stitch = { type = \"301\", density = \"4 st/cm\", thread = \"core\" }\n";

/// Assembles tables, with seams written `(id, a, b)`, sewn in that order; what they make is turned in the end.
fn sewn(tables: &str, seams: &[(&str, &str, &str)]) -> (Assembly, Findings, String) {
    let mut text = tables.to_string();
    for (id, a, b) in seams {
        text.push_str(&format!("\n[seam.{id}]\na = \"{a}\"\nb = \"{b}\"\n"));
    }
    let order: Vec<String> = seams.iter().map(|(id, _, _)| *id).chain(["turn"]).map(|id| format!("\"{id}\"")).collect();
    text.push_str(&format!(
        "\n[step.turn]\ndo = \"turn\"\n[thread.core]\n[work]\norder = [{}]\n{WORK}",
        order.join(", ")
    ));
    sewing(&text)
}

fn counts(shell: &Shell) -> (usize, usize, usize) {
    (shell.vertices, shell.edges, shell.faces.len())
}

fn codes(findings: &Findings) -> Vec<&str> {
    findings.iter().map(|finding| finding.rule.code).collect()
}

fn rectangle(piece: &str, width: u32, height: u32, rest: &str) -> String {
    format!(
        "[piece.{piece}]\npart = \"body\"\nallowance = \"10 mm\"\noutline = {{ shape = \"rectangle\", width = \"{width} \
         mm\", height = \"{height} mm\" }}\n{rest}\n"
    )
}

#[test]
fn a_box_closes_with_a_strip_against_chains_of_edges() {
    let tables = format!(
        "[part.body]\nform = \"stuffed\"\n{}{}",
        rectangle("PANEL", 300, 200, "copies = [\"top\", \"base\"]"),
        rectangle("STRIP", 1000, 50, "")
    );
    let seams = [
        ("end", "STRIP:nw-sw", "STRIP:ne-se"),
        ("upper", "PANEL.top:nw-ne-se-sw-nw", "STRIP:ne-nw"),
        ("lower", "PANEL.base:nw-ne-se-sw-nw", "STRIP:sw-se"),
    ];
    let (assembly, findings, printed) = sewn(&tables, &seams);
    assert!(findings.is_empty(), "{printed}");
    // Four corners above and below; four edges above and below and the seam of the strip.
    assert_eq!(assembly.sewing.shells.iter().map(counts).collect::<Vec<_>>(), [(8, 9, 3)]);
}

#[test]
fn gores_close_at_both_tips() {
    let tables = "[part.body]\nform = \"stuffed\"\n[piece.G]\npart = \"body\"\ncopies = 6\nallowance = \"5 mm\"\noutline = \
                  { shape = \"gore\", count = 6, diameter = \"100 mm\" }\n";
    let side = |n: usize, way: &str| format!("G.{}:n-{way}-s", n % 6 + 1);
    let texts: Vec<(String, String, String)> =
        (0..6).map(|n| (format!("s{n}"), side(n, "e"), side(n + 1, "w"))).collect();
    let seams: Vec<(&str, &str, &str)> = texts.iter().map(|(id, a, b)| (id.as_str(), a.as_str(), b.as_str())).collect();
    let (assembly, findings, printed) = sewn(tables, &seams);
    assert!(findings.is_empty(), "{printed}");
    // Two tips and six middles of seams; two edges a seam.
    assert_eq!(assembly.sewing.shells.iter().map(counts).collect::<Vec<_>>(), [(8, 12, 6)]);
    // One seam forgotten: one finding, although two copies have an open edge.
    let (_, findings, printed) = sewn(tables, &seams[..5]);
    assert_eq!(codes(&findings), ["edge-not-sewn"], "{printed}");
    // One seam turned end for end leaves every piece the right way out, but ties the tips together.
    let (assembly, findings, printed) = sewn(tables, &[&[("s0", "G.1:s-e-n", "G.2:n-w-s")], &seams[1..]].concat());
    assert_eq!(codes(&findings), ["inside-out-seam"], "{printed}");
    assert_eq!(assembly.sewing.inside_out.len(), 1);
}

#[test]
fn a_ring_is_a_ring_only_where_it_says_so() {
    let part = |form: &str| format!("[part.body]\nform = \"{form}\"\n{}", rectangle("R", 300, 100, ""));
    let seams = [("along", "R:nw-ne", "R:sw-se"), ("ends", "R:nw-sw", "R:ne-se")];
    let (assembly, findings, printed) = sewn(&part("ring"), &seams);
    assert!(findings.is_empty(), "{printed}");
    // One point, the two seams, one piece: the torus of a square with opposite sides joined.
    assert_eq!(assembly.sewing.shells.iter().map(counts).collect::<Vec<_>>(), [(1, 2, 1)]);
    let (_, findings, printed) = sewn(&part("stuffed"), &seams);
    assert_eq!(codes(&findings), ["hole-in-shell"], "{printed}");
    assert!(printed.contains("1 points − 2 edges + 1 pieces = 0, not 2"), "{printed}");
}

#[test]
fn a_tube_has_two_holes() {
    let part = |form: &str| {
        let piece = rectangle("R", 300, 100, "raw = [\"nw-sw\", \"ne-se\"]");
        format!("[part.body]\nform = \"{form}\"\n{piece}")
    };
    let seams = [("along", "R:nw-ne", "R:sw-se")];
    let (assembly, findings, printed) = sewn(&part("flat"), &seams);
    assert!(findings.is_empty(), "{printed}");
    let [tube] = assembly.sewing.shells.as_slice() else { panic!("one shell") };
    // Two points, the seam and two raw edges.
    assert_eq!((counts(tube), tube.euler(), tube.holes.len()), ((2, 3, 1), 0, 2));
    let (_, findings, printed) = sewn(&part("stuffed"), &seams);
    assert_eq!(codes(&findings), ["hole-in-shell"], "{printed}");
    assert!(
        printed.contains("2 holes along R:ne-se and R:nw-sw") || printed.contains("2 holes along R:nw-sw and R:se-ne")
    );
}

const HAND: &str = "[part.hand]\nform = \"stuffed\"\nuses = [\"left\", \"right mirrored\"]\n[piece.P]\npart = \
                    \"hand\"\ncopies = [\"f\", \"b mirrored\"]\nallowance = \"5 mm\"\noutline = { shape = \"polygon\", \
                    corners = [[\"x\", \"0 mm\", \"0 mm\"], [\"y\", \"90 mm\", \"10 mm\"], [\"z\", \"20 mm\", \"70 \
                    mm\"]] }\n";

#[test]
fn a_part_used_twice_is_sewn_by_seams_written_once() {
    let (assembly, findings, printed) = sewn(HAND, &[("round", "P.f:x-y-z-x", "P.b:x-y-z-x")]);
    assert!(findings.is_empty(), "{printed}");
    let names: Vec<(String, bool)> = assembly.instances.iter().map(|one| (one.text(), one.mirrored)).collect();
    let expected = [
        ("hand.left/P.b", true),
        ("hand.left/P.f", false),
        // A mirrored copy in a mirrored use is as drawn.
        ("hand.right/P.b", false),
        ("hand.right/P.f", true),
    ];
    assert_eq!(names, expected.map(|(name, mirrored)| (name.to_string(), mirrored)));
    assert_eq!(assembly.joints.len(), 2);
    assert_eq!(assembly.sewing.shells.iter().map(counts).collect::<Vec<_>>(), [(3, 3, 2), (3, 3, 2)]);
}

#[test]
fn every_use_mirrors_within_itself() {
    // A limb of two sides and a sole, in two uses. The mirror image of the left use's seam is its own other side, not
    // the right use's.
    let tables = "[part.leg]\nuses = [\"left\", \"right mirrored\"]\nform = \"flat\"\n[piece.LEG]\npart = \"leg\"\ncopies \
                  = [\"l\", \"r mirrored\"]\nallowance = \"5 mm\"\nraw = [\"q-s\"]\noutline = { shape = \"polygon\", \
                  corners = [[\"p\", \"0 mm\", \"0 mm\"], [\"q\", \"60 mm\", \"0 mm\"], [\"s\", \"50 mm\", \"80 mm\"], \
                  [\"t\", \"0 mm\", \"80 mm\"]] }\n[piece.SOLE]\npart = \"leg\"\nallowance = \"5 mm\"\noutline = { shape \
                  = \"rectangle\", width = \"80 mm\", height = \"60 mm\", points = { a = \"nw-ne 50 %\", b = \"sw-se \
                  50 %\" } }\nraw = [\"nw-a-ne\", \"sw-b-se\"]\n[seam.front]\na = \"LEG.l:p-t\"\nb = \
                  \"LEG.r:p-t\"\n[seam.sole]\na = \"LEG.l:p-q\"\nb = \"SOLE:sw-nw\"\nmirrored = \
                  true\n[thread.core]\n[work]\norder = [\"front\", \"sole\"]\n";
    let (assembly, _, printed) = sewing(&format!("{tables}{WORK}"));
    assert!(assembly.troubles.is_empty(), "{:#?}", assembly.troubles);
    let soles: Vec<_> = assembly.joints.iter().filter(|joint| joint.joint == "sole").collect();
    assert_eq!(soles.len(), 4);
    for joint in soles {
        let usage = |at: usize| assembly.instances[at].usage.clone();
        assert_eq!(usage(joint.a.runs[0].instance), usage(joint.b.runs[0].instance), "{printed}");
    }
    let most = assembly.sewing.accounts.values().map(|account| account.joints.len()).max();
    assert_eq!(most, Some(1));
}

#[test]
fn a_seam_that_is_its_own_image_is_sewn_once() {
    let tables = format!(
        "[part.body]\nform = \"flat\"\n{}{}[seam.top]\na = \"F:nw-ne\"\nb = \"B:ne-nw\"\nmirrored = \
         true\n[thread.core]\n[work]\norder = [\"top\"]\n{WORK}",
        rectangle("F", 100, 100, "raw = [\"nw-sw-se-ne\"]"),
        rectangle("B", 100, 100, "raw = [\"nw-sw-se-ne\"]")
    );
    let (assembly, findings, printed) = sewing(&tables);
    assert_eq!(assembly.joints.len(), 1);
    assert_eq!(assembly.troubles.iter().map(|one| one.kind).collect::<Vec<_>>(), [TroubleKind::Mirror]);
    assert!(findings.is_empty(), "{printed}");
}

#[test]
fn a_point_without_a_mirror_image_cannot_be_mirrored() {
    let tables = format!(
        "[part.body]\nform = \"flat\"\n[piece.T]\npart = \"body\"\noutline = {{ shape = \"polygon\", corners = [[\"x\", \
         \"0 mm\", \"0 mm\"], [\"y\", \"90 mm\", \"10 mm\"], [\"z\", \"20 mm\", \"70 mm\"]] }}\n{}[seam.top]\na = \
         \"T:x-y\"\nb = \"S.l:nw-ne\"\nmirrored = true\n",
        rectangle("S", 100, 100, "copies = [\"l\", \"r mirrored\"]"),
    );
    let (assembly, _, _) = sewing(&tables);
    let [trouble] = assembly.troubles.as_slice() else { panic!("{:#?}", assembly.troubles) };
    assert_eq!(trouble.kind, TroubleKind::Mirror);
    assert!(trouble.message.english().contains("its point x has no mirror image"), "{}", trouble.message);
    assert!(!assembly.sewing.whole);
}

#[test]
fn pillow_of_two_like_rectangles_is_told_which_edges_to_write() {
    let tables = format!(
        "[part.body]\nform = \"stuffed\"\n{}{}",
        rectangle("FRONT", 300, 200, ""),
        rectangle("BACK", 300, 200, "")
    );
    let wrong = [
        ("top", "FRONT:nw-ne", "BACK:nw-ne"),
        ("right", "FRONT:ne-se", "BACK:ne-se"),
        ("bottom", "FRONT:se-sw", "BACK:se-sw"),
        ("left", "FRONT:sw-nw", "BACK:sw-nw"),
    ];
    let (_, findings, printed) = sewn(&tables, &wrong);
    assert_eq!(codes(&findings), ["inside-out-seam"], "{printed}");
    let finding = findings.iter().next().expect("one");
    assert!(finding.message.english().starts_with("BACK is sewn inside out"), "{}", finding.message);
    // What the help says is written, and nothing is left to find.
    let cured: Vec<(&str, &str, String)> = wrong
        .iter()
        .map(|(id, a, _)| {
            let mark = format!("in {id} write b = \"");
            let lines = finding.help.iter().map(|line| line.text.english());
            let line = lines.filter_map(|line| Some(line.strip_prefix(&mark)?.to_string())).next();
            (*id, *a, line.expect("a help for each seam").trim_end_matches('"').to_string())
        })
        .collect();
    let cured: Vec<(&str, &str, &str)> = cured.iter().map(|(id, a, b)| (*id, *a, b.as_str())).collect();
    let (assembly, findings, printed) = sewn(&tables, &cured);
    assert!(findings.is_empty(), "{printed}");
    assert_eq!(assembly.sewing.shells.iter().map(counts).collect::<Vec<_>>(), [(4, 4, 2)]);
}

#[test]
fn turned_ends_tie_a_surface_in_a_knot() {
    // Every piece the right way out, but the corners do not meet as they do on a pillow: each seam of the back is
    // written from the other end.
    let tables = format!(
        "[part.body]\nform = \"stuffed\"\n{}{}",
        rectangle("FRONT", 300, 300, ""),
        rectangle("BACK", 300, 300, "")
    );
    let seams = [
        ("top", "FRONT:nw-ne", "BACK:ne-nw"),
        ("right", "FRONT:ne-se", "BACK:se-ne"),
        ("bottom", "FRONT:se-sw", "BACK:sw-se"),
        ("left", "FRONT:sw-nw", "BACK:nw-sw"),
    ];
    let (_, findings, printed) = sewn(&tables, &seams);
    assert_eq!(codes(&findings), ["hole-in-shell"], "{printed}");
}

#[test]
fn a_caught_edge_closes_the_part_it_belongs_to() {
    // An ear of two leaves, stuffed and open at its base, is closed by the seam of the head that catches it.
    let tables = format!(
        "[part.body]\nform = \"flat\"\n{}[part.ear]\nform = \"stuffed\"\n[piece.EAR]\npart = \"ear\"\ncopies = [\"f\", \"b \
         mirrored\"]\nallowance = \"10 mm\"\noutline = {{ shape = \"polygon\", corners = [[\"r\", \"0 mm\", \"0 mm\"], \
         [\"s\", \"40 mm\", \"0 mm\"], [\"k\", \"10 mm\", \"50 mm\"]] }}\n[seam.ear]\na = \"EAR.f:s-k-r\"\nb = \
         \"EAR.b:s-k-r\"\n[seam.head]\na = \"H.f:q-v\"\nb = \"H.b:q-v\"\n[seam.rest]\na = \"H.f:nw-q\"\nb = \
         \"H.b:nw-q\"\n[seam.last]\na = \"H.f:v-ne\"\nb = \"H.b:v-ne\"\n[thread.core]\n",
        "[piece.H]\npart = \"body\"\ncopies = [\"f\", \"b mirrored\"]\nallowance = \"10 mm\"\nraw = \
         [\"nw-sw-se-ne\"]\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"100 mm\", points = { q = \
         \"nw-ne 80 mm\", v = \"nw-ne 120 mm\" } }\n"
    );
    let caught = tables.replace("a = \"H.f:q-v\"\n", "a = \"H.f:q-v\"\nbetween = [\"EAR.f:r-s\", \"EAR.b:r-s\"]\n");
    let work = format!(
        "[step.whole]\ndo = \"turn\"\n[work]\norder = [\"ear\", \"head\", \"rest\", \"last\", \"whole\"]\n{WORK}"
    );
    let (_, findings, printed) = sewing(&format!("{caught}{work}"));
    assert!(findings.is_empty(), "{printed}");
    // Left raw instead, it is a hole.
    let raw = tables.replace("[seam.ear]", "raw = [\"r-s\"]\n[seam.ear]");
    let (_, findings, printed) = sewing(&format!("{raw}{work}"));
    assert_eq!(codes(&findings), ["hole-in-shell"], "{printed}");
    assert!(printed.contains("ear is stuffed, but has a hole along EAR.b:r-s and EAR.f:r-s"), "{printed}");
    // Turned through the base after the head has closed it.
    let steps = "[step.turn]\ndo = \"turn\"\npart = \"ear\"\n";
    let late = work.replace("\"head\", ", "\"head\", \"turn\", ");
    let (_, findings, printed) = sewing(&format!("{caught}{steps}{late}"));
    assert_eq!(codes(&findings), ["closed-before-turned"], "{printed}");
    let early = work.replace("\"head\", ", "\"turn\", \"head\", ");
    let (_, findings, printed) = sewing(&format!("{caught}{steps}{early}"));
    assert!(findings.is_empty(), "{printed}");
}

#[test]
fn a_scaled_cut_line_keeps_its_allowance() {
    let (assembly, _, _) = sewing(include_str!("../two_part_toy/toy.toml"));
    let outline = assembly.outlines.any("EAR").expect("an outline");
    let base = outline.run_between("r", "s").expect("neighbours").index;
    // A triangle 30 wide and 50 high, 5 mm up: 30 × 45 / 50. In size L the sew line is scaled, not the cut line.
    for (size, length) in [("S", 27.0), ("L", 37.8)] {
        let found = assembly.lengths.get("EAR", size, base).expect("a length");
        assert!((found - length).abs() < 0.01, "{size}: {found}");
    }
}

/// A seam of two parts that names a limb without its use: what to write has the use and the ply.
#[test]
fn a_limb_without_its_use_is_written_with_its_ply() {
    let tables = "[part.body]\nform = \"flat\"\n[part.leg]\nuses = [\"l\", \"r mirrored\"]\n[piece.H]\npart = \"body\"\ncopies = [\"f\", \
                  \"b mirrored\"]\nallowance = \"10 mm\"\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"100 mm\" \
                  }\n[piece.LEAF]\npart = \"leg\"\ncopies = [\"o\", \"i mirrored\"]\nallowance = \"10 mm\"\noutline = { shape = \
                  \"rectangle\", width = \"200 mm\", height = \"50 mm\" }\n[seam.head]\na = \"H.f:nw-ne\"\nbetween = \
                  [\"LEAF.i:nw-ne\", \"LEAF:nw-ne\"]\nb = \"H.b:nw-ne\"\n";
    let (assembly, ..) = sewing(tables);
    let helps = assembly.troubles.iter().filter_map(|one| Some(one.help.as_ref()?.text.english()));
    let helps: Vec<String> = helps.collect();
    assert_eq!(helps.len(), 2, "{helps:?}");
    assert!(helps[0].contains("`leg.l/LEAF.i`") && helps[1].contains("`leg.l/LEAF.o`"), "{helps:?}");
    assert!(helps[0].contains("l, r"), "{helps:?}");
}

#[test]
fn a_name_that_is_not_found_leaves_its_pieces_alone() {
    let tables = format!(
        "[part.body]\nform = \"stuffed\"\n{}{}",
        rectangle("FRONT", 300, 200, ""),
        rectangle("BACK", 300, 200, "")
    );
    let seams = [("round", "FRONT:nw-ne-se-sw-nw", "BACK:ne-nw-sw-se-nee")];
    let (assembly, findings, printed) = sewn(&tables, &seams);
    assert_eq!(assembly.troubles.len(), 1);
    assert!(findings.is_empty(), "{printed}");
}

/// A prism of `n` sides: each wall is drawn as `draw` says.
fn prism(n: usize, draw: &dyn Fn(usize, Vec<String>) -> Vec<String>) -> (String, Vec<(String, String, String)>) {
    let side = 60.0;
    let radius = side / (2.0 * (std::f64::consts::PI / n as f64).sin());
    let corner = |name: &str, i: usize, up: f64| {
        let angle = std::f64::consts::TAU * i as f64 / n as f64;
        format!("[\"{name}{i}\", \"{:.4} mm\", \"{:.4} mm\"]", radius * angle.cos(), up * radius * angle.sin())
    };
    let piece = |id: &str, corners: Vec<String>| {
        format!(
            "[piece.{id}]\npart = \"body\"\nallowance = \"5 mm\"\noutline = {{ shape = \"polygon\", corners = [{}] }}\n",
            corners.join(", ")
        )
    };
    let mut tables = "[part.body]\nform = \"stuffed\"\n".to_string();
    tables.push_str(&piece("LID", draw(0, (0..n).map(|i| corner("p", i, 1.0)).collect())));
    tables.push_str(&piece("BASE", draw(1, (0..n).map(|i| corner("q", i, -1.0)).collect())));
    let mut seams = Vec::new();
    for i in 0..n {
        let wall = [("a", 0, 0), ("b", 60, 0), ("c", 60, 80), ("d", 0, 80)];
        let corners = wall.map(|(id, x, y)| format!("[\"{id}\", \"{x} mm\", \"{y} mm\"]")).to_vec();
        tables.push_str(&piece(&format!("W{i}"), draw(i + 2, corners)));
        let next = (i + 1) % n;
        seams.push((format!("wall{i}"), format!("W{i}:b-c"), format!("W{next}:a-d")));
        seams.push((format!("lid{i}"), format!("LID:p{i}-p{next}"), format!("W{i}:d-c")));
        seams.push((format!("base{i}"), format!("BASE:q{i}-q{next}"), format!("W{i}:a-b")));
    }
    (tables, seams)
}

fn borrowed(seams: &[(String, String, String)]) -> Vec<(&str, &str, &str)> {
    seams.iter().map(|(id, a, b)| (id.as_str(), a.as_str(), b.as_str())).collect()
}

/// A single run walked the other way: `W1:b-c` to `W1:c-b`.
fn reversed(run: &str) -> String {
    let (piece, path) = run.split_once(':').expect("a piece");
    let points: Vec<&str> = path.split('-').rev().collect();
    format!("{piece}:{}", points.join("-"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Where a drawing starts and which way round it runs says nothing about the piece; nor does it matter which side
    /// of a seam is written first, nor from which end both are.
    #[test]
    fn the_way_of_drawing_and_writing_changes_nothing(
        n in 3usize..9,
        ways in prop::collection::vec((any::<bool>(), 0usize..9), 11),
        written in prop::collection::vec((any::<bool>(), any::<bool>()), 24),
    ) {
        let draw = |piece: usize, mut corners: Vec<String>| {
            let (back, turn) = ways[piece % ways.len()];
            let turn = turn % corners.len();
            corners.rotate_left(turn);
            if back {
                corners.reverse();
            }
            corners
        };
        let (tables, mut seams) = prism(n, &draw);
        for (seam, (swap, back)) in seams.iter_mut().zip(&written) {
            if *swap {
                std::mem::swap(&mut seam.1, &mut seam.2);
            }
            if *back {
                seam.1 = reversed(&seam.1);
                seam.2 = reversed(&seam.2);
            }
        }
        let (assembly, findings, printed) = sewn(&tables, &borrowed(&seams));
        prop_assert!(findings.is_empty(), "{}", printed);
        let shells: Vec<_> = assembly.sewing.shells.iter().map(counts).collect();
        prop_assert_eq!(shells, [(2 * n, 3 * n, n + 2)]);
    }

    /// One side of one seam written backwards is found, and the help is the text that was right.
    #[test]
    fn one_turned_run_is_named_with_its_cure(n in 3usize..9, at in 0usize..24) {
        let (tables, mut seams) = prism(n, &|_, corners| corners);
        let at = at % seams.len();
        let right = seams[at].2.clone();
        seams[at].2 = reversed(&right);
        let (_, findings, printed) = sewn(&tables, &borrowed(&seams));
        prop_assert_eq!(codes(&findings), ["inside-out-seam"], "{}", printed);
        let help = format!("in {} write b = \"{right}\"", seams[at].0);
        prop_assert_eq!(findings.iter().next().unwrap().help[0].text.english(), help);
    }

    /// One seam left out is found once for each piece beside it, and the seam is proposed.
    #[test]
    fn one_forgotten_seam_is_proposed(n in 3usize..9, at in 0usize..24) {
        let (tables, mut seams) = prism(n, &|_, corners| corners);
        let (_, a, b) = seams.remove(at % seams.len());
        let (_, findings, printed) = sewn(&tables, &borrowed(&seams));
        prop_assert_eq!(codes(&findings), ["edge-not-sewn", "edge-not-sewn"], "{}", printed);
        let ways = [(&a, &b), (&b, &a)].map(|(a, b)| [(a.clone(), b.clone()), (reversed(a), reversed(b))]).concat();
        for finding in findings.iter() {
            let text = finding.help[0].text.english();
            let told = ways.iter().any(|(a, b)| text.ends_with(&format!("write a seam: a = \"{a}\", b = \"{b}\"")));
            prop_assert!(told, "{}", text);
        }
    }
}
