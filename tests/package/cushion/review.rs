//! What is new, what a sample shows, and what was said.

use backtack_core::rows::data::{
    ApprovalRow, BesideRow, ChangeGroup, ChangeRow, Changes, CommentRow, Comments, FollowedRow, MoreReadings,
    OverlayCard, Read, ReadRow, Samples,
};
use backtack_core::scene::{Chart, ChartReading, Scene, readings};

use super::{fact, head, lines, plain};

pub(super) fn changes() -> Changes {
    let row = |what: &str, key: &str, before: &str, after: &str, remark: &str| ChangeRow {
        what: what.into(),
        key: key.into(),
        before: before.into(),
        after: after.into(),
        remark: remark.into(),
    };
    let square = Scene::new(60.0, 40.0, "The panel before and after.");
    let text = lines(&["Farthest apart 3.0 mm at ne; area 2 500.0 cm² to 2 515.0 cm² (+0.6 %)."]);
    let card = OverlayCard { title: "TOP, size M".into(), drawing: plain(square, "1:10"), text };
    Changes {
        head: head("What is new since revision A", "Changes", "△ marks on the other sheets what changed."),
        past: vec![lines(&["A", "Prototype", "2026-02-02", "M. Example", "First package", "0123456789"])],
        groups: vec![ChangeGroup {
            title: "Pieces".into(),
            rows: vec![
                row("Piece TOP, Top panel", "outline M", "2 500.0 cm²", "2 515.0 cm²", "up to 3.0 mm at ne"),
                row("", "allowance", "10 mm", "12 mm", ""),
            ],
        }],
        warnings: lines(&["Seam zip: its layers differ by 4.0 mm."]),
        followed: vec![FollowedRow {
            what: "Fabric canvas/sand".into(),
            values: lines(&["M 1.210 m → 1.220 m (+0.010)", "L 1.510 m → 1.520 m (+0.010)"]),
        }],
        overlays: vec![vec![card]],
        undrawn: vec![vec!["BOT".into(), "Moved: point nw by 0.3 mm.".into()]],
        answers: vec![lines(&["corner", "Corners are too sharp", "Piece TOP, Top panel", "Answered"])],
        unasked: lines(&["Seam zip, Zip side"]),
    }
}

pub(super) fn samples() -> Samples {
    let read = |text: &str, out: bool| Read { text: text.into(), out };
    let chart = Chart {
        target: Some(500.0),
        lower: Some(495.0),
        upper: Some(505.0),
        readings: vec![ChartReading { value: Some(500.0), out: false }, ChartReading { value: Some(506.0), out: true }],
        alt: "Readings of the width on two pieces: above.".into(),
    };
    Samples {
        head: head("What was measured on the sample", "Sample: prototype", "Underlined readings are outside."),
        facts: vec![fact("Kind", "Prototype"), fact("Pieces", "2"), fact("Outside", "1")],
        pieces: lines(&["1", "2"]),
        rows: vec![ReadRow {
            number: "1".into(),
            name: "Width of the top".into(),
            weight: "critical".into(),
            target: "500 mm".into(),
            limits: "495 – 505".into(),
            readings: vec![read("500", false), read("506 ↑", true)],
            chart: Some(plain(readings(&chart), "")),
            mean: "503".into(),
            range: "6".into(),
            verdict: "above by up to 1 mm".into(),
            out: true,
            today: "495–506".into(),
        }],
        today: "Limits of revision C".into(),
        beside: vec![BesideRow {
            what: "Colour of the outer fabric".into(),
            asked: "CIEDE2000 at most 1.50".into(),
            found: "0.42 · 1.61, mean 1.02".into(),
            verdict: "inside".into(),
            out: false,
        }],
        more: vec![MoreReadings {
            pieces: lines(&["3"]),
            rows: vec![("1".into(), "Width of the top".into(), vec![read("501", false)])],
        }],
        notes: lines(&["Width of the top, piece 2: 10 times off?"]),
    }
}

pub(super) fn comments() -> Comments {
    Comments {
        head: head("What was said, and what became of it", "Comments and approvals", "What must change stops bulk."),
        rows: vec![CommentRow {
            id: "corner".into(),
            about: "Piece TOP, Top panel".into(),
            weight: "Must change".into(),
            stops: true,
            text: "Corners are too sharp".into(),
            by: "M. Example, 2026-02-20, sample prototype".into(),
            state: "Open".into(),
            answer: "".into(),
            picture: None,
        }],
        approvals: vec![ApprovalRow {
            what: "Canvas, sand".into(),
            kind: "Lab dip".into(),
            required: "yes".into(),
            submissions: lines(&["1, 2026-02-11: rejected; CIEDE2000 2.53 of at most 1.50"]),
            standing: "Rejected".into(),
            stops: true,
        }],
        checklist: lines(&["piping: joined at the back, 20 mm from the zip"]),
        concessions: lines(&[
            "Critical-point-out of 1 is conceded by M. Example on 2026-03-01: trial order. For 40 pieces, until 2026-06-30.",
        ]),
    }
}
