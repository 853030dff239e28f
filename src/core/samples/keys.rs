//! Keys of what is said about samples: samples, comments, approvals, concessions.

use crate::grammar::form::{Form, Key, key};
use crate::standards::grey::GRADES;
use crate::units::Dimension::{Count, Length, Mass, MassPerArea, Time};

/// Kinds of samples.
pub const SAMPLES: &[&str] = &[
    "prototype",
    "counter sample",
    "sales sample",
    "pre-production sample",
    "top of production",
    "laboratory sample",
    "keep sample",
];
/// What is approved.
pub const APPROVED: &[&str] =
    &["fabric", "trim", "lab dip", "bulk colour", "strike-off", "print", "artwork", "carton", "sample"];
/// Tests that give a grade of colour fastness.
pub const GRADED: &[&str] = &["change in colour", "staining", "rubbing, dry", "rubbing, wet"];
/// Where a comment stands.
const STATES: &[&str] = &["open", "answered", "agreed", "correct in bulk", "dropped"];
/// What a comment asks for.
const ACTIONS: &[&str] = &["must change", "should change", "note"];
/// What is said of a submission.
const JUDGEMENTS: &[&str] = &["approved", "approved with corrections", "rejected"];

/// Keys of `[sample.ID]`.
pub(crate) fn sample() -> Vec<Key> {
    let stuffing = Form::Open(Box::new(Form::Readings(&[Mass])));
    let fabric = Form::Open(Box::new(Form::Readings(&[MassPerArea])));
    let masses = vec![
        key("finished", Form::Readings(&[Mass]), "Mass of each finished piece, without hangtag and packing"),
        key("shell", Form::Readings(&[Mass]), "Mass of each shell before it is filled"),
        key("stuffings", stuffing, "Mass of filling by stuffing, weighed before it goes in"),
        key("fabric", fabric, "Mass per area of each fabric, by article, cut and weighed beside each piece"),
    ];
    let looked = vec![
        key("text", Form::Text, "What is looked at"),
        key("result", Form::Choice(&["pass", "fail"]), "What was found; left out as long as nobody looked"),
        key("note", Form::Text, "A remark"),
    ];
    let graded = vec![
        key("test", Form::Choice(GRADED), "Which test"),
        key(
            "of",
            Form::Refers(&["role", "fabric", "thread", "filling", "trim", "colour"]),
            "Role, article or colour it was made on",
        ),
        key("grade", Form::Choice(GRADES), "The grade found, against the grey scale"),
        key("required", Form::Choice(GRADES), "The least grade that is accepted"),
    ];
    vec![
        key("kind", Form::Choice(SAMPLES), "What kind of sample"),
        key("of", Form::Text, "The revision it was made to"),
        key("size", Form::Refers(&["size"]), "Size"),
        key("colourway", Form::Refers(&["colourway"]), "Colourway"),
        key("pieces", Form::Whole, "How many"),
        key("material", Form::Choice(&["real", "substitute"]), "Whether it is made of what bulk is made of"),
        key("asked", Form::Date, "When it was asked for"),
        key("due", Form::Date, "When it is due"),
        key("to", Form::Text, "To whom it goes"),
        key("received", Form::Date, "When it came"),
        key("measured", Form::Date, "When it was measured"),
        key("by", Form::Text, "Who measured"),
        key("tool", Form::Text, "With what"),
        key("rest", Form::Quantity(&[Time]), "How long it rested before"),
        key(
            "readings",
            Form::open(Form::Readings(&[Length, Mass, Count])),
            "By point of measure: one reading a piece, \"\" where it was not read; or { left = [..], right = [..] }",
        ),
        key("masses", Form::Table(masses), "What was weighed: one reading a piece"),
        key(
            "colours",
            Form::open(Form::Labs),
            "By role, article or colour: [\"L*\", \"a*\", \"b*\"] for each piece, [] where it was not read",
        ),
        key("checks", Form::Tables(looked), "What is looked at"),
        key("grades", Form::Tables(graded), "Grades of colour fastness"),
        key("note", Form::Text, "A remark"),
    ]
}

/// Keys of `[comment.ID]`.
pub(crate) fn comment() -> Vec<Key> {
    vec![
        key("about", Form::Text, "What it is about: \"seam.belly\", \"belly\", \"plush/soot\" or \"style\""),
        key("action", Form::Choice(ACTIONS), "What is asked for; by default a note"),
        key("state", Form::Choice(STATES), "What became of it; by default open"),
        key("text", Form::Text, "What is to be changed"),
        key("by", Form::Text, "Who says so"),
        key("date", Form::Date, "When"),
        key("sample", Form::Refers(&["sample"]), "The sample it was seen on"),
        key("picture", Form::Picture, "A PNG or JPEG file of it below the style folder"),
        key("answer", Form::Text, "What was answered"),
        key("answered-in", Form::Text, "The revision that answers it"),
        key("reason", Form::Text, "Why it was dropped"),
    ]
}

/// Keys of `[approval.ID]`.
pub(crate) fn approval() -> Vec<Key> {
    let submission = vec![
        key("number", Form::Whole, "Its number; by default its place in the list"),
        key("date", Form::Date, "When it came"),
        key("verdict", Form::Choice(JUDGEMENTS), "What was said of it; left out as long as nothing was"),
        key("corrections", Form::Text, "What is put right in bulk, and checked inline"),
        key("lab", Form::Labs, "Its colour: [\"L*\", \"a*\", \"b*\"], or a list of such readings"),
        key("remark", Form::Text, "A remark"),
        key("lot", Form::Text, "Dye lot or batch"),
    ];
    let sealed = vec![
        key("tag", Form::Text, "Number of the tag"),
        key("date", Form::Date, "When it was sealed"),
        key("sets", Form::set(Form::Text), "Who has a set: [\"buyer\", \"factory\", \"inspector\"]"),
        key("signatories", Form::set(Form::Text), "Who signed"),
        key("place", Form::Text, "Where it was sealed"),
        key("deviations", Form::set(Form::Text), "Deviations that were accepted"),
        key("until", Form::Date, "Until when it holds"),
    ];
    vec![
        key("of", Form::Text, "What is approved: \"fabric.plush\", \"plush/soot\", \"sample.pp\" or \"style\""),
        key("kind", Form::Choice(APPROVED), "What kind of approval"),
        key("colourway", Form::Refers(&["colourway"]), "The colourway it is for"),
        key("required", Form::Flag, "Whether bulk needs it; by default it does"),
        key("until", Form::Date, "Until when it holds"),
        key("submissions", Form::Tables(submission), "What was submitted, first to last"),
        key("sealed", Form::Table(sealed), "The sample that was sealed"),
        key("note", Form::Text, "A remark"),
    ]
}

/// Keys of `[concession.ID]`.
pub(crate) fn concession() -> Vec<Key> {
    vec![
        key("lifts", Form::Text, "Code of the finding that is accepted"),
        key("item", Form::Refers(&[]), "What the finding names"),
        key("by", Form::Text, "Who concedes it"),
        key("reason", Form::Text, "Why"),
        key("limit", Form::Text, "The order or quantity it is good for"),
        key("date", Form::Date, "When it was given"),
        key("until", Form::Date, "Until when it holds"),
    ]
}
