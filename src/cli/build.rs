//! Builds the package: PDF, figures, drawings.

use std::path::{Path, PathBuf};

use backtack_core::compute::Task;
use backtack_core::cutting::figures::Effort;
use backtack_core::diag::{Folder, Severity, plain, text};
use backtack_core::model::Stated;
use backtack_core::pipeline::{self, Checked, Edition, check, relaid};
use backtack_core::read::Loaded;
use backtack_core::rows::desk::{DESKS, Desk};
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};
use indicatif::{ProgressBar, ProgressStyle};

use super::check::{levels, severities};
use super::earlier;
use super::lay::style::{self, Found};
use super::output::{Item, Output};
use super::report::root;
use super::terminal::Terminal;
use super::traces;
use super::written::Update;
use super::{Exit, Failure, folder_argument, source};
use crate::RenderError;
use crate::render::Package;
use crate::render::guard::SECONDS;
use crate::render::pdf::Rendered;

/// The folder of drawings, below the output folder.
const DRAWINGS: &str = "drawings";

pub(super) fn define() -> Command {
    Command::new("build")
        .about("Writes the PDF package, its figures and its drawings")
        .after_help(
            "Writes DIR/out/STYLE-REVISION.pdf, figures.json and drawings/*.svg. Findings go to\n\
             standard error; with a `must` finding the package is marked as not released.",
        )
        .arg(folder_argument())
        .arg(
            Arg::new("out")
                .long("out")
                .value_name("DIR")
                .value_parser(value_parser!(PathBuf))
                .help("Where to write [default: DIR/out]"),
        )
        .arg(
            Arg::new("order")
                .long("order")
                .value_name("ID")
                .help("Writes the document of an order as well: cut plan and fabric to order"),
        )
        .arg(traces::option())
        .arg(
            Arg::new("for")
                .long("for")
                .value_name("DESK")
                .action(ArgAction::Append)
                .value_parser(PossibleValuesParser::new(DESKS.map(|desk| desk.word().en)))
                .help("Writes the sheets that one desk works from as a PDF of their own as well"),
        )
        .arg(
            Arg::new("within")
                .long("within")
                .value_name("SECONDS")
                .value_parser(value_parser!(u64).range(1..))
                .help(format!("Gives a document up that takes longer to typeset [default: {SECONDS}]")),
        )
        .args(severities())
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let levels = levels(matches)?;
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let out = matches.get_one::<PathBuf>("out").cloned().unwrap_or_else(|| folder.join("out"));
    let progress = stages();
    progress.set_message("reading");
    let loaded = source::folder(folder, &terminal.tally)?;
    let output = Output::new().sparing(loaded.source_files());
    apart(&output, &out)?;
    progress.set_message("checking and computing");
    let checked = check(&loaded, &levels, matches.get_flag("strict"));
    let mut laid = laid(loaded, checked, &progress)?;
    let id = matches.get_one::<String>("order");
    if let Some(id) = id {
        laid = order_laid(laid, id, &progress)?;
    }
    let (loaded, checked, laid) = laid;
    progress.set_message("typesetting");
    let seconds = matches.get_one::<u64>("within").copied().unwrap_or(SECONDS);
    let revision = loaded.model.revision.id.as_ref().and_then(Stated::known).map_or("", String::as_str);
    let earlier = earlier::earlier(folder, revision, &terminal.tally)?;
    let failed = |error: RenderError| Failure::new(error.to_string());
    let package = crate::render_for(&loaded, &checked, &earlier, &desks(matches), seconds).map_err(failed)?;
    progress.finish_and_clear();
    let ordered = id.map(|id| pipeline::order(&loaded, &checked, id)).transpose();
    let ordered = ordered.map_err(|error| Failure::new(error.to_string()))?;
    let own = id.map(|id| pipeline::own_order(&loaded, &checked, id)).transpose();
    let own = own.map_err(|error| Failure::new(error.to_string()))?.flatten();
    let document = ordered.as_ref().map(|order| crate::render_order(order, seconds)).transpose().map_err(failed)?;
    let kept = laid.as_ref().map(|found| style::item(folder, &found.lock));
    let stem = file_name(&loaded.model);
    let pdf = write(&package, &out, &stem, kept, &output)?;
    let extracts = write_extracts(&package, &out, &stem, &output)?;
    let mut order = Vec::new();
    if let Some((id, made)) = id.zip(document) {
        order.push(write_order(&made, &out, (&stem, id), &output)?);
    }
    if let Some((id, own)) = id.zip(own.as_ref()) {
        let made = crate::render_order(own, seconds).map_err(failed)?;
        order.push(write_order(&made, &out.join(OWN), (&stem, id), &output)?);
    }
    let traced = ordered.as_ref().filter(|_| matches.get_flag(traces::OPTION)).map(crate::trace_order);
    let folder_of_lays = id.map(|id| traces::write(&traced.unwrap_or_default(), &out, id, &output)).transpose()?;
    let (name, root) = (folder.to_string_lossy(), root(folder, &loaded.style));
    let report = Folder { name: &name, root: &root, findings: &checked.findings, sources: &loaded.sources };
    if !checked.findings.is_empty() {
        terminal.remark(&text::print(&[report], terminal.errors()));
    }
    if let Some(edition) = &ordered {
        told(edition, &name, &root, terminal);
    }
    if let Some(cost) = own.as_ref().or(ordered.as_ref()).map(cost).filter(|cost| !cost.is_empty()) {
        terminal.remark(&cost);
    }
    if let Some(found) = &laid {
        terminal.remark(&format!("lays, kept in {}:\n{}", backtack_core::lay::lock::FILE, style::told(found)));
    }
    terminal.print(&format!("{}\n", plain(&pdf.to_string_lossy())))?;
    for path in extracts.iter().chain(&order).chain(folder_of_lays.iter().flatten()) {
        terminal.print(&format!("{}\n", plain(&path.to_string_lossy())))?;
    }
    let standing = checked.findings.count(Severity::Must) > 0;
    Ok(if standing { Exit::Standing } else { Exit::Clear })
}

/// The desks that are asked for, each once.
fn desks(matches: &ArgMatches) -> Vec<Desk> {
    let asked: Vec<Desk> =
        matches.get_many::<String>("for").into_iter().flatten().filter_map(|name| Desk::named(name)).collect();
    DESKS.into_iter().filter(|desk| asked.contains(desk)).collect()
}

/// Says what only the plan of an order shows.
fn told(edition: &Edition<'_>, name: &str, root: &str, terminal: &mut Terminal) {
    let Some(findings) = edition.order.as_ref().map(|order| &order.findings).filter(|one| !one.is_empty()) else {
        return;
    };
    let report = Folder { name, root, findings, sources: &edition.shown().sources };
    terminal.remark(&text::print(&[report], terminal.errors()));
}

/// What the fabric of an order costs, line by line, as its edition shows it.
fn cost(edition: &Edition<'_>) -> String {
    let order = edition.order.as_ref().and_then(|order| edition.seen().figures.orders.get(&order.id));
    let mut text = String::new();
    for chain in order.iter().flat_map(|order| &order.material) {
        let Some((steps, price)) = chain.steps.known().and_then(|steps| Some((steps, steps.price.as_ref()?))) else {
            continue;
        };
        let of = chain.bought.colour.as_ref().map_or_else(String::new, |colour| format!("/{colour}"));
        let (article, metres) = (&chain.bought.article, steps.bought.get() / 1000.0);
        let (total, currency) = (price.total.get(), &price.currency);
        text.push_str(&format!("  {article}{of}: {metres:.3} m at {}: {total:.2} {currency}\n", price.each));
    }
    for cost in order.iter().flat_map(|order| &order.cost) {
        text.push_str(&format!("  in all: {:.2} {}\n", cost.total.get(), cost.currency));
    }
    if text.is_empty() { text } else { format!("what the fabric of the order costs:\n{}", plain(&text)) }
}

/// A specification with its lays, and what was found of them in this run.
type Laid = (Loaded, Checked, Option<Found>);

/// Finds the lays that are not kept yet, and computes again with them. A style that cannot be laid is built as it is: a
/// finding says why.
///
/// # Errors
/// If lays have to be found and the kept ones cannot be read.
pub(super) fn laid(loaded: Loaded, checked: Checked, progress: &ProgressBar) -> Result<Laid, Failure> {
    if checked.lays.tasks.iter().all(Task::kept) {
        return Ok((loaded, checked, None));
    }
    let found = progress.suspend(|| style::found(&loaded, &checked, Effort::Normal, false, false))?;
    if found.moved.is_empty() && found.refused.is_empty() {
        return Ok((loaded, checked, None));
    }
    let loaded = loaded.with_lock(found.lock.clone());
    let checked = relaid(&loaded, checked);
    Ok((loaded, checked, Some(found)))
}

/// Finds the lays an order's plan asks for, beside those of one product.
fn order_laid((loaded, checked, laid): Laid, id: &str, progress: &ProgressBar) -> Result<Laid, Failure> {
    let mut found = progress.suspend(|| style::of_order(&loaded, &checked, id, Effort::Quick, false))?;
    if found.lock == loaded.model.lock {
        return Ok((loaded, checked, laid));
    }
    if let Some(before) = laid {
        found.moved.splice(0..0, before.moved);
        found.refused.splice(0..0, before.refused);
        found.gone = before.gone;
    }
    // What is laid for an order is no part of what was checked.
    Ok((loaded.with_lock(found.lock.clone()), checked, Some(found)))
}

/// Refuses an output folder whose drawings would lie among files the style is read from.
fn apart(output: &Output, out: &Path) -> Result<(), Failure> {
    let drawings = out.join(DRAWINGS);
    match output.source_in(&drawings).and_then(Path::file_name) {
        None => Ok(()),
        Some(name) => Err(Failure::new(format!(
            "cannot write to {}: the style reads {} there; name another folder with --out",
            drawings.display(),
            name.to_string_lossy()
        ))),
    }
}

/// Writes a package, the PDF last: all of it or, as long as not everything is on the disk, nothing. Drawings that an
/// earlier build wrote for things that are gone go, unless somebody changed them.
///
/// # Errors
/// If the folder or a file in it cannot be written, a name leads out of it, or a file would take the place of a source.
pub fn write(
    package: &Package,
    out: &Path,
    stem: &str,
    lock: Option<Item>,
    output: &Output,
) -> Result<PathBuf, Failure> {
    let mut drawings = Update::of(&out.join(DRAWINGS), &package.drawings)?;
    let mut items = std::mem::take(&mut drawings.items);
    items.push(Item::named(out, "figures.json", package.figures.as_str())?);
    items.extend(lock);
    let pdf = Item::named(out, &format!("{stem}.pdf"), package.pdf.as_slice())?;
    let path = pdf.path.clone();
    items.push(pdf);
    output.write(&items)?;
    drawings.finish(output)?;
    Ok(path)
}

/// Writes the extracts of desks: `STYLE-REVISION-cutter.pdf`.
fn write_extracts(package: &Package, out: &Path, stem: &str, output: &Output) -> Result<Vec<PathBuf>, Failure> {
    let item = |(desk, made): &(Desk, Rendered)| {
        Item::named(out, &format!("{stem}-{}.pdf", desk.word().en), made.pdf.as_slice())
    };
    let items: Vec<Item> = package.extracts.iter().map(item).collect::<Result<_, _>>()?;
    output.write(&items)?;
    Ok(items.into_iter().map(|item| item.path).collect())
}

/// Below the output folder: what is for the own house only.
const OWN: &str = "own";

/// Writes the document of an order: the PDF and the figures.
fn write_order(package: &Package, out: &Path, (stem, id): (&str, &str), output: &Output) -> Result<PathBuf, Failure> {
    let figures = Item::named(out, &format!("order-{id}.json"), package.figures.as_str())?;
    let pdf = Item::named(out, &format!("{stem}-order-{id}.pdf"), package.pdf.as_slice())?;
    let path = pdf.path.clone();
    output.write(&[figures, pdf])?;
    Ok(path)
}

/// One line that says what is going on; silent where there is no terminal.
pub(super) fn stages() -> ProgressBar {
    let bar = ProgressBar::new_spinner();
    if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}") {
        bar.set_style(style);
    }
    bar.enable_steady_tick(std::time::Duration::from_millis(120));
    bar
}

/// `STYLE-REVISION`, with nothing in it that a file system could mind.
fn file_name(model: &backtack_core::model::Model) -> String {
    let known = |stated: &Option<backtack_core::model::Stated<String>>| {
        stated.as_ref().and_then(|one| one.known().cloned()).unwrap_or_default()
    };
    let fit = |text: String| -> String {
        let kept = text.chars().map(|c| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c } else { '-' });
        kept.collect::<String>().trim_matches(['-', '.']).chars().take(60).collect()
    };
    let parts = [fit(known(&model.style.id)), fit(known(&model.revision.id))];
    let named: Vec<&str> = parts.iter().map(String::as_str).filter(|part| !part.is_empty()).collect();
    if named.is_empty() { "package".into() } else { named.join("-") }
}
