//! Samples: readings against their limits, slips, colours, ledgers, concessions, what the factory's edition holds, and the file of
//! a new sample.

mod forms;
mod ledgers;

use backtack_core::compute::Figures;
use backtack_core::read::{self, Loaded};
use backtack_core::samples::figures::{ReadLine, SampleResult, Verdict};

/// A bag with a point of every sort.
pub const STYLE: &str = r#"
[style]
id = "X-1"
name = "Bag"
kind = "bag"
sizes = ["S", "L"]
[revision]
id = "B"
date = 2026-11-20
stage = "counter sample"
[colour.soot]
lab = ["25", "0", "0"]
limit = "1"
[colour.chalk]
reference = "card 4"
[role.outer]
[colourway.dark]
outer = "felt/soot"
[colourway.light]
outer = "felt/chalk"
[fabric.felt]
mass = "300 g/m2 ±5 %"
width = "1500 mm"
cuttable-width = "1450 mm"
efficiency = "80 %"
colours = ["soot", "chalk"]
[filling.fibre]
[part.bag]
[stuffing.inside]
part = "bag"
filling = "fibre"
mass = { S = "400 g ±20 g", L = "800 g ±40 g" }
[piece.FRONT]
part = "bag"
copies = 2
outline = { shape = "rectangle", width = "300 mm", height = "200 mm" }
material = "outer"
allowance = "10 mm"
[point-of-measure.A]
target = { S = "200 mm ±max(6 mm, 3 %)", L = "60.5 mm ±0.7 mm" }
read-to = "1 mm"
critical = true
[point-of-measure.B]
target = "2.2 in ±0.1 in"
read-to = "0.05 in"
[point-of-measure.C]
target = "0 mm +2/-0 mm"
read-to = "1 mm"
[point-of-measure.D]
target = "102 mm ±4 mm"
read-to = "1 mm"
difference = "3 mm"
[point-of-measure.M]
target = "420 g ±20 g"
read-to = "0.5 g"
[point-of-measure.R]
target = "30 mm"
reference = true
"#;

pub fn loaded(samples: &str) -> Loaded {
    let loaded = read::texts(&[("style.toml", STYLE), ("samples/one.toml", samples)]);
    let found: Vec<String> = loaded.findings.iter().map(|finding| finding.message.english()).collect();
    assert!(found.is_empty(), "{found:#?}");
    loaded
}

pub fn figures(samples: &str) -> Figures {
    let loaded = loaded(samples);
    crate::checked(&loaded).figures
}

fn sample(keys: &str, readings: &str) -> SampleResult {
    let text = format!("[sample.one]\ncolourway = \"dark\"\n{keys}\n[sample.one.readings]\n{readings}\n");
    figures(&text).samples.samples.remove("one").unwrap()
}

fn line<'a>(sample: &'a SampleResult, of: &str, side: Option<&str>) -> &'a ReadLine {
    sample.points.iter().chain(&sample.masses).find(|line| line.of == of && line.side == side).unwrap()
}

fn verdicts(line: &ReadLine) -> Vec<Verdict> {
    line.readings.iter().map(|one| one.verdict).collect()
}

use Verdict::{Above, Below, Inside, OnLimit, Questioned, Unjudged, Unread};

/// 2.2 in ±0.1 in is 53.34 mm to 58.42 mm: a reading of 53.34 mm stands exactly on its limit, in whatever unit it is written.
#[test]
fn readings_on_a_limit_are_inside_exactly() {
    let one = sample(
        "size = \"S\"\npieces = 6",
        "B = [\"2.1 in\", \"53.34 mm\", \"5.842 cm\", \"53.339 mm\", \"58.421 mm\", \"\"]",
    );
    let line = line(&one, "B", None);
    assert_eq!(verdicts(line), [OnLimit, OnLimit, OnLimit, Below, Above, Unread]);
    assert_eq!((line.unit.as_str(), line.verdict), ("in", Above));
    let by: Vec<Option<f64>> = line.readings.iter().map(|one| one.by.map(|by| by.get())).collect();
    // 0.001 mm is 0.00003937 in, of which figures hold a millionth.
    assert_eq!(by, [None, None, None, Some(0.000_039), Some(0.000_039), None]);
    assert_eq!((one.tally.inside, one.tally.on_limit, one.tally.outside), (3, 3, 2));
}

/// Every limit of this form is held exactly: in metres as doubles, 22 of 2,750 such readings fall outside.
#[test]
fn no_reading_on_its_limit_is_refused() {
    for target in (100..=350).step_by(25) {
        for tenths in 1..=25 {
            let text = STYLE.replace("102 mm ±4 mm", &format!("{target} mm ±{}.{} mm", tenths / 10, tenths % 10));
            let text = text.replace("read-to = \"1 mm\"\ndifference", "read-to = \"0.1 mm\"\ndifference");
            let ten = target * 10;
            let written = |tenths: i32| format!("\"{}.{} mm\"", tenths / 10, tenths % 10);
            let sample = format!(
                "[sample.one]\nsize = \"S\"\nreadings = {{ D = [{}, {}, {}] }}",
                written(ten - tenths),
                written(ten + tenths),
                written(ten + tenths + 1)
            );
            let loaded = read::texts(&[("style.toml", &text), ("samples/one.toml", &sample)]);
            let figures = crate::checked(&loaded).figures;
            assert_eq!(verdicts(line(&figures.samples.samples["one"], "D", None)), [OnLimit, OnLimit, Above]);
        }
    }
}

/// 60.5 mm ±0.7 mm is 59.8 to 61.2 mm; at a step of 1 mm the sheet says 60 to 61, and that is what is judged.
#[test]
fn limits_are_those_of_the_sheet() {
    let one = sample("size = \"L\"\npieces = 3", "A = [\"60 mm\", \"61 mm\", \"61.1 mm\"]");
    let found = line(&one, "A", None);
    assert_eq!((found.lower.get(), found.upper.get()), (Some(60.0), Some(61.0)));
    assert_eq!(verdicts(found), [OnLimit, OnLimit, Above]);
    let sheet = &figures("").measures["A"].sizes["L"];
    assert_eq!((sheet.lower.get(), sheet.upper.get()), (found.lower.get(), found.upper.get()));
}

/// 205, 199 and 196: mean 200, range 9.
#[test]
fn means_and_ranges() {
    let one = sample(
        "size = \"S\"\npieces = 4",
        "A = [\"205 mm\", \"199 mm\", \"\", \"19.6 cm\"]\nR = [\"28 mm\", \"33 mm\", \"\", \"\"]",
    );
    let found = line(&one, "A", None);
    assert_eq!((found.mean.unwrap().get(), found.range.unwrap().get()), (200.0, 9.0));
    let reference = line(&one, "R", None);
    assert_eq!(verdicts(reference), [Unjudged, Unjudged, Unread, Unread]);
    assert_eq!(reference.mean.unwrap().get(), 30.5);
    assert!(reference.reference && line(&one, "A", None).critical);
    assert_eq!(verdicts(line(&one, "M", None)), [Unread; 4], "every point has a row");
}

#[test]
fn left_and_right_are_held_against_each_other() {
    let one = sample(
        "size = \"S\"\npieces = 3",
        "D = { left = [\"100 mm\", \"105 mm\", \"98 mm\"], right = [\"103 mm\", \"101 mm\", \"\"] }",
    );
    assert_eq!(verdicts(line(&one, "D", Some("left"))), [Inside, Inside, OnLimit]);
    assert_eq!(verdicts(line(&one, "D", Some("right"))), [Inside, Inside, Unread]);
    let apart = line(&one, "D", Some("difference"));
    assert_eq!(verdicts(apart), [OnLimit, Above, Unread]);
    assert_eq!((apart.readings[0].value.unwrap().get(), apart.readings[1].by.unwrap().get()), (-3.0, 1.0));
}

#[test]
fn slips_are_asked_about_and_not_judged() {
    let one = sample(
        "size = \"S\"\npieces = 5",
        "A = [\"20 mm\", \"7.9 mm\", \"2000 mm\", \"190 mm\", \"100 mm\"]\nM = [\"0.42 g\", \"42 g\", \"420 mm\", \"460 g\", \"\"]\n\
         C = [\"3 mm\", \"30 mm\", \"2 mm\", \"0 mm\", \"\"]",
    );
    let found = line(&one, "A", None);
    assert_eq!(verdicts(found), [Questioned, Questioned, Questioned, Below, Below]);
    let asks: Vec<String> = found.readings.iter().filter_map(|one| Some(one.asks.as_ref()?.english())).collect();
    assert!(asks[0].contains("20 cm") && asks[1].contains("7.9 in") && asks[2].contains("ten times"), "{asks:?}");
    assert_eq!(found.mean.unwrap().get(), 145.0, "of the two that were judged");
    let mass = line(&one, "M", None);
    assert_eq!(verdicts(mass), [Questioned, Questioned, Questioned, Above, Unread]);
    // A target of zero has no nearly ten times, and a reading of zero is as wanted, though no less passes.
    assert_eq!(verdicts(line(&one, "C", None)), [Above, Above, OnLimit, Inside, Unread]);
    assert_eq!(one.tally.questioned, 6);
}

#[test]
fn exchanged_rows_are_asked_about() {
    let one = sample("size = \"S\"\npieces = 2", "A = [\"101 mm\", \"104 mm\"]\nD = [\"198 mm\", \"\"]");
    assert_eq!(verdicts(line(&one, "A", None)), [Questioned, Questioned]);
    assert!(line(&one, "A", None).readings[0].asks.as_ref().unwrap().english().contains("limits of D"));
    // The rows of one piece alone may be exchanged; what would not fit the other row is judged.
    let one = sample("size = \"S\"\npieces = 2", "A = [\"101 mm\", \"130 mm\"]\nD = [\"198 mm\", \"\"]");
    assert_eq!(verdicts(line(&one, "A", None)), [Questioned, Below]);
    assert_eq!(verdicts(line(&one, "D", None)), [Questioned, Unread]);
    // Where the other row was not read, or is as asked, nothing was exchanged.
    let one = sample("size = \"S\"\npieces = 2", "A = [\"101 mm\", \"101 mm\"]\nD = [\"\", \"101 mm\"]");
    assert_eq!(verdicts(line(&one, "A", None)), [Below, Below]);
}

/// 210 and 212 are 211 on average, 5.5 % above 200.
#[test]
fn all_pieces_off_one_way() {
    let one = sample("size = \"S\"\npieces = 2", "A = [\"210 mm\", \"212 mm\"]\nD = [\"110 mm\", \"90 mm\"]");
    assert_eq!(line(&one, "A", None).off.unwrap().get(), 5.5);
    assert_eq!(line(&one, "D", None).off, None);
    assert_eq!(
        line(&sample("size = \"S\"\npieces = 1", "A = [\"212 mm\"]"), "A", None).off,
        None,
        "one piece is no row"
    );
}

/// Shell: 2 × 320 mm × 220 mm × 300 g/m2 = 42.24 g ±5 %, 40.128 to 44.352 g; with 400 ±20 g of filling 420.128 to 464.352 g. Tenths
/// of a gram are read of the shell, 40.2 to 44.3 g, and half grams of the product, 420.5 to 464 g.
#[test]
fn masses_are_held_against_what_was_worked_out() {
    let keys = "size = \"S\"\npieces = 2\nmasses = { finished = [\"464 g\", \"464.01 g\"], shell = [\"40.2 g\", \"40.1 g\"], \
                stuffings = { inside = [\"380 g\", \"420.5 g\"] } }";
    let one = sample(keys, "");
    assert_eq!(verdicts(line(&one, "finished", None)), [OnLimit, Above]);
    assert_eq!(verdicts(line(&one, "shell", None)), [OnLimit, Below]);
    assert_eq!(verdicts(line(&one, "inside", None)), [OnLimit, Above]);
    assert_eq!(line(&one, "inside", None).readings[1].by.unwrap().get(), 0.5);
}

/// Two greys of the same hue: the difference is that of lightness over its weight. At L* 25 against 26, the weight is
/// 1 + 0.015 × 24.5² / √(20 + 24.5²) = 1.361503 by the equations of the paper, from the mean of both; by hand 0.7361.
#[test]
fn colours_of_a_round_are_held_against_their_own_limit() {
    let keys = "size = \"S\"\npieces = 3\ncolours = { outer = [[\"26\", \"0\", \"0\"], [], [\"27\", \"0\", \"0\"]], chalk = [[\"90\", \"0\", \
                \"0\"], [], []] }";
    let one = sample(keys, "");
    let soot = one.colours.iter().find(|line| line.of == "outer").unwrap();
    assert_eq!((soot.colour.as_deref(), soot.limit.unwrap().get()), (Some("soot"), 1.0));
    let differences: Vec<Option<f64>> = soot.readings.iter().map(|one| one.difference.map(|one| one.get())).collect();
    let weight =
        |mean: f64| 1.0 + 0.015 * (mean - 50.0) * (mean - 50.0) / (20.0 + (mean - 50.0) * (mean - 50.0)).sqrt();
    let rounded = |value: f64| (value * 100.0).round() / 100.0;
    assert_eq!(differences, [Some(rounded(1.0 / weight(25.5))), None, Some(rounded(2.0 / weight(26.0)))]);
    let verdicts: Vec<Verdict> = soot.readings.iter().map(|one| one.verdict).collect();
    assert_eq!(verdicts, [Inside, Unread, Above]);
    assert_eq!(soot.mean.difference.unwrap().get(), rounded(1.5 / weight(25.75)));
    let chalk = one.colours.iter().find(|line| line.of == "chalk").unwrap();
    assert_eq!((chalk.mean.verdict, chalk.mean.difference), (Unjudged, None), "it has only a swatch");
}

#[test]
fn grades_reach_what_is_required_or_not() {
    let grades = "[[sample.one.grades]]\ntest = \"rubbing, wet\"\nof = \"outer\"\ngrade = \"3-4\"\nrequired = \"4\"\n\
                  [[sample.one.grades]]\ntest = \"change in colour\"\ngrade = \"4-5\"\nrequired = \"4\"\n\
                  [[sample.one.grades]]\ntest = \"staining\"\ngrade = \"4\"\n";
    let found = figures(&format!("[sample.one]\nsize = \"S\"\n{grades}")).samples.samples.remove("one").unwrap().grades;
    let passes: Vec<Option<bool>> = found.iter().map(|one| one.passes).collect();
    assert_eq!(passes, [Some(false), Some(true), None]);
    let contrast: Vec<f64> = found.iter().map(|one| one.contrast.unwrap().get()).collect();
    assert_eq!(contrast, [6.0, 0.8, 4.3]);
}

/// The last sample of a size is the one measured last, else that came last; sales and keep samples count if they were read.
#[test]
fn the_last_round_is_the_last_that_counts() {
    let of = |text: &str| {
        let all = figures(text).samples.samples;
        all.into_iter().filter(|(_, sample)| sample.last).map(|(id, _)| id).collect::<Vec<_>>()
    };
    let read = "readings = { A = [\"200 mm\"] }";
    let first = format!("[sample.z]\nsize = \"S\"\nmeasured = 2026-09-01\n{read}\n");
    assert_eq!(of(&format!("{first}[sample.a]\nsize = \"S\"\ndue = 2026-12-01\n")), ["z"], "only asked for");
    assert_eq!(of(&format!("{first}[sample.a]\nsize = \"S\"\nreceived = 2026-10-01\n")), ["a"]);
    assert_eq!(of(&format!("{first}[sample.a]\nkind = \"keep sample\"\nsize = \"S\"\nreceived = 2026-10-01\n")), ["z"]);
    assert_eq!(of(&format!("{first}[sample.a]\nsize = \"L\"\nmeasured = 2026-10-01\n{read}\n")), ["a", "z"]);
}
