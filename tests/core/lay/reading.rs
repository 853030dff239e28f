//! Instances that cannot be laid, one clear line each.

use backtack_core::lay::read::read;

fn file(width: &str, item: &str) -> String {
    format!(r#"{{"name": "t", "cuttable-width": {width}, "pieces": [{item}]}}"#)
}

fn item(demand: &str, turns: &str, data: &str) -> String {
    format!(r#"{{"id": 7, "quantity": {demand}, "may-lie": {turns}, "outline": {data}}}"#)
}

const SQUARE: &str = "[[0,0],[10,0],[10,10],[0,10],[0,0]]";

fn refused(text: &str) -> String {
    let message = read(text).unwrap_err().to_string();
    assert!(!message.contains('\n') && message.len() < 200, "{message}");
    message
}

#[test]
fn a_good_instance_is_read() {
    let good = read(&file("20", &item("3", "[0, 180]", SQUARE))).unwrap();
    assert_eq!((good.count(), good.fabric.width, good.area2()), (3, 20_000, 600_000_000));
    assert_eq!(good.pieces[0].id, "7");
}

#[test]
fn bad_outlines_are_named() {
    let shaped = |data: &str| refused(&file("20", &item("1", "[0]", data)));
    assert!(shaped("[[0,0],[10,0],[10,10],[0,10]]").contains("piece 7: its outline is open"));
    assert!(shaped("[[0,0],[10,10],[10,0],[0,12],[0,0]]").contains("crosses itself at 5.455, 5.455"));
    assert!(shaped("[[0,0],[10,0],[5,0],[0,0]]").contains("encloses no area"));
    assert!(shaped("[[0,0],[10,0],[10,10],[5,0],[0,10],[0,0]]").contains("touches itself"));
    assert!(shaped("[[0,0],[NaN,0],[10,10],[0,0]]").contains("expected"));
    assert!(shaped("[[0,0],[1e300,0],[10,10],[0,0]]").contains("no usable place"));
    assert!(shaped("[]").contains("open"));
}

#[test]
fn what_does_not_fit_is_named() {
    let square = item("1", "[0, 90]", SQUARE);
    assert!(refused(&file("9.999", &square)).contains("in no allowed turn does it fit a cuttable width of 9.999 mm"));
    assert!(refused(&file("0", &square)).contains("no cuttable width"));
    assert!(refused(&file("-5", &square)).contains("the width is negative"));
    assert!(read(&file("10", &square)).is_ok());
    let long = item("1", "[90]", "[[0,0],[30,0],[30,5],[0,5],[0,0]]");
    assert!(refused(&file("20", &long)).contains("in no allowed turn"));
}

#[test]
fn bad_numbers_are_named() {
    let demand = |number: &str| refused(&file("20", &item(number, "[0]", SQUARE)));
    assert!(demand("1000000").contains("more than 20000 pieces"));
    assert!(demand("18446744073709551615").contains("more than 20000 pieces"));
    assert!(demand("0").contains("no piece is wanted"));
    assert!(demand("-1").contains("invalid value"));
    assert!(refused(&file("20", &item("1", "[]", SQUARE))).contains("allowed turns"));
    assert!(refused(&file("20", &item("1", "[1e9]", SQUARE))).contains("turn"));
    assert!(refused("{").contains("line 1"));
    assert!(refused(&file("20", "").replace("pieces", "things")).contains("things"));
}

#[test]
fn the_keys_that_may_be_left_out_are_read() {
    let text =
        file("20", &item("1", "[0, 180]", SQUARE).replace(r#""id": 7"#, r#""id": "arm", "tilt": 2, "mirror": true"#));
    let read = read(&text.replace(r#""pieces""#, r#""gap": 3, "edge": 1.5, "end": 2, "pieces""#)).unwrap();
    assert_eq!((read.fabric.gap, read.fabric.edge, read.fabric.end), (3000, 1500, 2000));
    assert_eq!(read.pieces[0].turns.len(), 12);
    assert_eq!(read.pieces[0].id, "arm");
}
