//! Lays the pieces of a plain instance, or of a style, on a roll.

mod stop;
pub(super) mod style;

use std::path::{Path, PathBuf};
use std::time::Instant;

use backtack_core::diag::plain;
use backtack_core::lay::{self, Budget, Instance, Options, Packed, Progress, Report, RowLay, report};
use backtack_core::scene;
use backtack_core::words::Languages;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};
use indicatif::{ProgressBar, ProgressStyle};

use super::output::{Item, Output};
use super::terminal::Terminal;
use super::{Exit, Failure};
use stop::stopper;

pub(super) fn define() -> Command {
    let number = |id: &'static str, help: &'static str| {
        Arg::new(id).long(id).value_name("N").value_parser(value_parser!(u64).range(1..)).help(help)
    };
    Command::new("lay")
        .about("Lays pieces on a roll, as short as a search finds")
        .after_help(
            "FILE holds the pieces as JSON; docs/lays.md describes it. Writes FILE-lay.json (every\n\
             position) and FILE-lay.svg. Of a style folder, it searches the lays again and keeps them in\n\
             its backtack.lock. Ctrl-C keeps the best lay found so far.",
        )
        .arg(
            Arg::new("file")
                .value_name("FILE")
                .value_parser(value_parser!(PathBuf))
                .required(true)
                .help("The pieces and the fabric, or a style folder"),
        )
        .arg(
            Arg::new("effort")
                .long("effort")
                .value_name("HOW")
                .value_parser(["quick", "normal", "long"])
                .help("Of a style: how long to search [default: normal]"),
        )
        .arg(Arg::new("order").long("order").value_name("ID").help("Of a style: search the lays of this order again"))
        .arg(super::traces::option())
        .arg(
            Arg::new("longer")
                .long("longer")
                .action(ArgAction::SetTrue)
                .help("Of a style: take a lay that is longer than the one kept"),
        )
        .arg(
            Arg::new("out")
                .long("out")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .help("Where to write [default: beside FILE; of a style DIR/out]"),
        )
        .arg(
            Arg::new("rows")
                .long("rows")
                .action(ArgAction::SetTrue)
                .help("Also lays the pieces in rows for dies; writes FILE-rows.svg"),
        )
        .arg(
            number("evaluations", "Places to try for pieces; the same lay everywhere [default: by pieces]")
                .conflicts_with("seconds"),
        )
        .arg(
            Arg::new("seconds")
                .long("seconds")
                .value_name("S")
                .value_parser(seconds)
                .help("Time to search instead; another run may find another lay"),
        )
        .arg(number("seed", "Which random numbers to use").default_value("1"))
        .arg(number("threads", "Threads, 1 or 2; the lay is the same [default: as there are processors]"))
}

/// A number of seconds that makes sense.
fn seconds(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value > 0.0 && value <= 1e6 => Ok(value),
        _ => Err("seconds are a number above 0, at most 1000000".into()),
    }
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let file = matches.get_one::<PathBuf>("file").ok_or_else(|| Failure::new("no file is given"))?;
    if backtack_core::read::is_folder(file) {
        return style::run(file, matches, terminal);
    }
    let failed = |reason: String| Failure::new(format!("{}: {reason}", file.display()));
    let text = backtack_core::read::text_file(file, lay::read::LARGEST as u64).map_err(failed)?;
    let instance = lay::read::read(&text).map_err(|bad| failed(bad.to_string()))?;
    let seed = matches.get_one::<u64>("seed").copied().unwrap_or(1);
    // First, since pieces that no die can cut are refused.
    let rows =
        matches.get_flag("rows").then(|| lay::rows(&instance)).transpose().map_err(|bad| failed(bad.to_string()))?;
    let packed = packed(&instance, matches, seed).map_err(|bad| failed(bad.to_string()))?;
    let told = report(&instance, &packed, seed);
    let out = matches.get_one::<PathBuf>("out").cloned();
    let folder = out.unwrap_or_else(|| file.parent().unwrap_or(Path::new("")).to_path_buf());
    let stem = file.file_stem().map_or_else(|| "pieces".into(), |stem| stem.to_string_lossy().into_owned());
    let files = items(&folder, &stem, &instance, &packed, &told, rows.as_ref())?;
    Output::new().write(&files)?;
    let mut text = summary(&told, matches.contains_id("seconds"));
    text.push_str(&rows.map_or_else(String::new, |rows| struck(&instance, &rows)));
    for file in files.iter().skip(1) {
        text.push_str(&format!("{}\n", plain(&file.path.to_string_lossy())));
    }
    terminal.print(&text)?;
    Ok(Exit::Clear)
}

/// Searches with a line of progress, until the budget is used or somebody presses Ctrl-C; pressed again, it ends at once.
fn packed(instance: &Instance, matches: &ArgMatches, seed: u64) -> Result<Packed, lay::Bad> {
    let stopped = stopper();
    #[expect(clippy::disallowed_methods, reason = "a budget of time is marked as not reproducible")]
    let begun = Instant::now();
    let limit = matches.get_one::<f64>("seconds").copied();
    let clock = || begun.elapsed().as_secs_f64() / limit.unwrap_or(f64::INFINITY);
    let asked = matches.get_one::<u64>("evaluations").copied().unwrap_or_else(|| lay::usual(instance));
    let budget = if limit.is_some() { Budget::Clock(&clock) } else { Budget::Evaluations(asked) };
    let bar = bar();
    let observe = |progress: Progress| {
        bar.set_position((progress.share * 1000.0) as u64);
        bar.set_message(format!("{:.1} mm", progress.length as f64 / 1000.0));
    };
    let processors = std::thread::available_parallelism().map_or(1, usize::from);
    let threads = matches.get_one::<u64>("threads").map_or(processors, |count| *count as usize);
    let packed = lay::pack(instance, Options { budget, seed, threads, stop: &stopped, observe: &observe });
    bar.finish_and_clear();
    packed
}

/// How far the search is and how long the best lay is; silent where there is no terminal.
fn bar() -> ProgressBar {
    let bar = ProgressBar::new(1000);
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent} %  {msg}") {
        bar.set_style(style);
    }
    bar
}

/// The files to write: positions first, then drawings.
fn items(
    folder: &Path,
    stem: &str,
    instance: &Instance,
    packed: &Packed,
    told: &Report,
    rows: Option<&RowLay>,
) -> Result<Vec<Item>, Failure> {
    let json = serde_json::to_string_pretty(told)
        .map_err(|error| Failure::new(format!("the positions could not be written: {error}")))?;
    let drawing = |name: &str, lay: &lay::Lay| {
        let texts = [lay.length, instance.fabric.width].map(|length| format!("{} mm", length as f64 / 1000.0));
        let drawn = scene::lay(instance, lay, scene::LAY_PAPER, [&texts[0], &texts[1]]);
        let svg = scene::svg(&drawn, Languages::default());
        Item { path: folder.join(format!("{stem}-{name}.svg")), bytes: svg.into_bytes() }
    };
    let positions = Item { path: folder.join(format!("{stem}-lay.json")), bytes: (json + "\n").into_bytes() };
    let mut files = vec![positions, drawing("lay", &packed.lay)];
    files.extend(rows.map(|rows| drawing("rows", &rows.lay)));
    Ok(files)
}

/// What is told about a lay in rows.
fn struck(instance: &Instance, rows: &RowLay) -> String {
    let density = lay::report::density(instance, &rows.lay) * 100.0;
    format!(
        "in rows for dies: length {} mm, density {density:.2} %, {} strikes in {} rows, {} of them between rows\n",
        rows.lay.length as f64 / 1000.0,
        rows.strikes,
        rows.rows.len(),
        rows.between
    )
}

fn summary(told: &Report, timed: bool) -> String {
    let mut lines = vec![
        format!("{}: {} pieces on {} mm", plain(&told.name), told.pieces, told.width),
        format!("length {} mm, density {:.2} %", told.length, told.density * 100.0),
        format!("cannot be shorter than {} mm (area) and {} mm (longest piece)", told.area_bound, told.longest_bound),
    ];
    if told.interrupted {
        lines.push("interrupted: the best lay so far".into());
    } else if timed {
        lines.push(format!("{} evaluations in the time given; not reproducible", told.evaluations));
    } else {
        lines.push(format!("{} evaluations, seed {}", told.evaluations, told.seed));
    }
    lines.join("\n") + "\n"
}
