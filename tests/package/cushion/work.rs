//! The order of work.

use backtack_core::rows::data::{Construction, Ply, Step, Stretch, ThreadRow};
use backtack_core::rows::package::{Drawing, Fact};
use backtack_core::scene::{FlatPiece, FlatSeam, PileSide, StackPly, StackSeam, closed, flat, open, stack};
use backtack_core::words::head as label;

use super::{head, plain};

/// Two squares, one edge of each sewn.
fn place() -> backtack_core::scene::Scene {
    let square = |name: &str| FlatPiece {
        name: name.into(),
        outline: closed(&[[0.0, 0.0], [450.0, 0.0], [450.0, 450.0], [0.0, 450.0]]),
        seams: vec![FlatSeam { paths: vec![open(&[[0.0, 0.0], [450.0, 0.0]])], letter: "A".into(), now: true }],
    };
    flat(&[square("TOP"), square("SIDE")], &[[30.0, 18.0]], "Where the seam is.")
}

#[allow(clippy::too_many_lines, reason = "one table of view data")]
pub(super) fn construction() -> Construction {
    let ply =
        |number: &str, pile: PileSide, bead: bool| StackPly { number: number.into(), pile, face: PileSide::None, bead };
    let seam = |plies: Vec<StackPly>, stitch: &str| {
        let seam = StackSeam {
            plies,
            stitch: stitch.into(),
            allowance: "10 mm".into(),
            fold: false,
            alt: "Stack of the seam in needle order.".into(),
        };
        Some(plain(stack(&seam), ""))
    };
    let step = |n: &str, title: &str, text: &str| Step {
        number: n.into(),
        title: title.into(),
        text: text.into(),
        ..Step::default()
    };
    let sewn = |mut step: Step, stack: Option<Drawing>, plies: Vec<Ply>| {
        step.stack = stack;
        step.plies = plies;
        step.place = Some(plain(place(), ""));
        step
    };
    let call = |number: &str, text: &str| Ply { number: number.into(), text: text.into(), ..Ply::default() };
    let same = vec![
        Fact::of(label::STITCH, "301"),
        Fact::of(label::DENSITY, "3.5 st/cm"),
        Fact::of(label::THREAD, "5 Core-spun polyester, ticket 75"),
        Fact::of(label::ALLOWANCE, "10 mm"),
    ];
    let two = || vec![ply("1", PileSide::Down, false), ply("2", PileSide::Up, false)];
    let three = || vec![ply("1", PileSide::Down, false), ply("2", PileSide::None, true), ply("3", PileSide::Up, false)];
    Construction {
        head: head(
            "What to sew, in this order",
            "Construction",
            "Plies are numbered from the needle down; hatching marks the face or pile side. Backtack 10 mm at both ends of each seam.",
        ),
        colourways: vec!["moss".into()],
        threads: vec![ThreadRow {
            name: "Thread of the cover".into(),
            article: "Core-spun polyester, ticket 75".into(),
            colours: vec!["Moss".into()],
        }],
        stages: vec![Stretch {
            title: "Stage 1: Cushion".into(),
            same,
            picture: Some(plain(place(), "")),
            wide: false,
            steps: vec![
                step("1", "Overlock all edges of the cover", "504, thread 6, trim nothing off."),
                sewn(
                    step(
                        "2",
                        "Set the zip between the halves of the back side",
                        "ZIPA:a–b to the zip tape, both sides; slider closed at the left.",
                    ),
                    seam(two(), "301"),
                    vec![call("1", "ZIPA, face down"), call("2", "zip tape, face up")],
                ),
                sewn(
                    step("3", "Join the box sides in a ring", "SIDE.1:ne–se to SIDE.2:nw–sw, and on; 4 seams."),
                    seam(two(), "301"),
                    vec![call("1", "SIDE.1, face down"), call("2", "SIDE.2, face up")],
                ),
                sewn(
                    step("4", "Pipe the top panel", "Start in the middle of the back edge; overlap the strip 30 mm."),
                    seam(vec![ply("1", PileSide::None, true), ply("2", PileSide::Up, false)], "301"),
                    vec![call("1", "PIP over cord 8"), call("2", "TOP:nw–ne–se–sw–nw, face up")],
                ),
                sewn(
                    step("5", "Sew the ring to the top panel", "Corners A–A to D–D; leave nothing open."),
                    seam(three(), "301"),
                    vec![
                        call("1", "SIDE ring, upper edge, face down"),
                        call("2", "PIP, sewn on in step 4"),
                        call("3", "TOP, face up"),
                    ],
                ),
                sewn(
                    step("6", "Sew the ring to the bottom panel", "Zip half open, so that the cover can be turned."),
                    seam(three(), "301"),
                    vec![
                        call("1", "SIDE ring, lower edge, face down"),
                        call("2", "PIP, sewn on in step 4"),
                        call("3", "BOT, face up"),
                    ],
                ),
                Step {
                    note: "Corners pushed out from inside with a blunt tool.".into(),
                    ..step("7", "Turn the cover", "Through the zip.")
                },
                step("8", "Fill the inner and close it", "Weigh the portion first (sheet {sheet:filling})."),
            ],
        }],
    }
}
