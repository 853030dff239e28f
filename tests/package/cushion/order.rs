//! What the cutting room gets of a made-up order.

use backtack_core::rows::Cell;
use backtack_core::rows::data::{BundleGroup, Bundles, SpreadGroup, Spreading, Status, Strikes};
use backtack_core::rows::package::Head;
use backtack_core::words::Phrase;

fn head(title: &str, name: &str) -> Head {
    Head { title: title.into(), name: name.into(), lead: "Fill it in before the lay is cut.".into() }
}

fn heads(all: &[&str]) -> Vec<Phrase> {
    all.iter().map(|one| Phrase::from(*one)).collect()
}

fn cells(all: &[&str]) -> Vec<Cell> {
    all.iter().map(|one| Cell::from(*one)).collect()
}

pub fn status() -> Status {
    Status {
        title: "Not released: do not cut. To be settled first:".into(),
        stops: heads(&["The order has no cut extra", "Line a has no quantity"]),
        made_to: heads(&["Made to revision A, sealed on 2026-03-02, digest 3f9a1c07be."]),
    }
}

pub fn bundles() -> Bundles {
    let columns = [
        "Lay",
        "Bundle",
        "Product on the ply",
        "Size",
        "Colourway",
        "Colour",
        "Plies",
        "Products each",
        "Pieces each",
        "Lot",
    ];
    let row = cells(&["1", "1–4", "1–4", "M", "sand", "Sand", "1–10", "10", "60"]);
    let group = BundleGroup {
        title: "Outer fabric".into(),
        pieces: "For one product: A SIDE × 4, B TOP × 1".into(),
        rows: vec![row.clone(), row],
    };
    Bundles { head: head("What is tied together", "Bundle list"), columns: heads(&columns), groups: vec![group] }
}

pub fn strikes() -> Strikes {
    let columns = [
        "Die",
        "Size",
        "Dies made",
        "Strikes as drawn",
        "Strikes mirrored",
        "Strikes in all",
        "Steel rule of one, m",
        "Same",
    ];
    Strikes {
        head: head("How often each die strikes", "Die strikes"),
        columns: heads(&columns),
        rows: vec![cells(&["A SIDE", "M", "1", "24", "–", "24", "1.640", "–"])],
        total: cells(&["All dies", "", "1", "", "", "24"]),
    }
}

pub fn spreading() -> Spreading {
    let asked =
        ["Roll no.", "Lot, shade", "True length, m", "True width, mm", "Plies laid", "Left over, m", "Signature"];
    let row = cells(&["1", "Sand", "10", "4.250 m", "1: 1–10"]);
    let group = SpreadGroup { title: "Outer fabric".into(), rows: vec![row, vec![Cell::Empty; 5]] };
    Spreading {
        head: head("What was spread", "Spreading record"),
        planned: heads(&["Lay", "Colour", "Plies", "Length of a ply", "Planned roll: plies"]),
        asked: heads(&asked),
        groups: vec![group],
    }
}
