//! Builds the package: PDF, figures, drawings.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use backtack_core::compute::Task;
use backtack_core::compute::lays::Effort;
use backtack_core::diag::{Folder, Levels, Severity, plain, text};
use backtack_core::model::Stated;
use backtack_core::read::Loaded;
use clap::{Arg, ArgMatches, Command, value_parser};
use indicatif::{ProgressBar, ProgressStyle};

use super::check::{levels, root, severities};
use super::lay::style::{self, Found};
use super::output::{Item, Output};
use super::seal;
use super::terminal::Terminal;
use super::{Exit, Failure, folder_argument};
use crate::Checked;
use crate::render::sheet::{Package, is_drawing};

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
        .args(severities())
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let levels = levels(matches)?;
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let out = matches.get_one::<PathBuf>("out").cloned().unwrap_or_else(|| folder.join("out"));
    let progress = stages();
    progress.set_message("reading");
    let loaded = crate::read(folder).map_err(|error| Failure::new(error.to_string()))?;
    progress.set_message("checking and computing");
    let checked = crate::check(&loaded, &levels, matches.get_flag("strict"));
    let (loaded, checked, laid) = laid(loaded, checked, &levels, matches.get_flag("strict"), &progress);
    progress.set_message("typesetting");
    let revision = loaded.model.revision.id.as_ref().and_then(Stated::known).map_or("", String::as_str);
    let earlier = seal::earlier(folder, revision)?;
    let package = crate::render_after(&loaded, &checked, &earlier).map_err(|error| Failure::new(error.to_string()))?;
    progress.finish_and_clear();
    let (loaded, laid) = match matches.get_one::<String>("order") {
        Some(id) => order_laid(loaded, &checked, id, laid, &progress)?,
        None => (loaded, laid),
    };
    let ordered = matches.get_one::<String>("order").map(|id| (id, crate::order(&loaded, id)));
    let ordered = match ordered {
        Some((id, made)) => Some((id, made.map_err(|error| Failure::new(error.to_string()))?)),
        None => None,
    };
    let kept = laid.as_ref().map(|found| style::item(folder, &found.lock));
    let pdf = write(&package, &out, &file_name(&loaded.model), kept, &Output::new())?;
    let stem = file_name(&loaded.model);
    let order = ordered.as_ref().map(|(id, made)| write_order(&made.package, &out, &stem, id)).transpose()?;
    let (name, root) = (folder.to_string_lossy(), root(folder, &loaded.style));
    let report = Folder { name: &name, root: &root, findings: &checked.findings, sources: &loaded.sources };
    if !checked.findings.is_empty() {
        terminal.remark(&text::print(&[report], terminal.errors()));
    }
    if let Some((_, made)) = ordered.as_ref().filter(|(_, made)| !made.findings.is_empty()) {
        let report = Folder { name: &name, root: &root, findings: &made.findings, sources: &made.sources };
        terminal.remark(&text::print(&[report], terminal.errors()));
    }
    if let Some(found) = &laid {
        terminal.remark(&format!("lays, kept in {}:\n{}", backtack_core::lay::lock::FILE, style::told(found)));
    }
    replaced(&package, terminal);
    terminal.print(&format!("{}\n", plain(&pdf.to_string_lossy())))?;
    if let Some(order) = order {
        terminal.print(&format!("{}\n", plain(&order.to_string_lossy())))?;
    }
    let standing = checked.findings.count(Severity::Must) > 0;
    Ok(if standing { Exit::Standing } else { Exit::Clear })
}

/// Finds the lays that are not kept yet, and computes again with them. A style that cannot be laid is built as it is: a
/// finding says why.
pub(super) fn laid(
    loaded: Loaded,
    checked: Checked,
    levels: &Levels,
    strict: bool,
    progress: &ProgressBar,
) -> (Loaded, Checked, Option<Found>) {
    if checked.lays.tasks.iter().all(Task::kept) {
        return (loaded, checked, None);
    }
    let found = progress.suspend(|| style::found(&loaded, &checked, Effort::Normal, false, false));
    if found.moved.is_empty() && found.refused.is_empty() {
        return (loaded, checked, None);
    }
    let loaded = loaded.with_lock(found.lock.clone());
    let checked = crate::check(&loaded, levels, strict);
    (loaded, checked, Some(found))
}

/// Finds the lays an order's plan asks for, beside those of one product.
fn order_laid(
    loaded: Loaded,
    checked: &Checked,
    id: &str,
    laid: Option<Found>,
    progress: &ProgressBar,
) -> Result<(Loaded, Option<Found>), Failure> {
    let mut found = progress.suspend(|| style::of_order(&loaded, checked, id, Effort::Quick, false))?;
    if found.lock == loaded.model.lock {
        return Ok((loaded, laid));
    }
    if let Some(before) = laid {
        found.moved.splice(0..0, before.moved);
        found.refused.splice(0..0, before.refused);
        found.gone = before.gone;
    }
    Ok((loaded.with_lock(found.lock.clone()), Some(found)))
}

/// Writes a package, the PDF last: all of it or, as long as not everything is on the disk, nothing.
///
/// # Errors
/// If the folder or a file in it cannot be written.
pub fn write(
    package: &Package,
    out: &Path,
    stem: &str,
    lock: Option<Item>,
    output: &Output,
) -> Result<PathBuf, Failure> {
    let drawings = out.join("drawings");
    let pdf = out.join(format!("{stem}.pdf"));
    let mut items: Vec<Item> = package
        .drawings
        .iter()
        .map(|(name, svg)| Item { path: drawings.join(name), bytes: svg.clone().into_bytes() })
        .collect();
    items.push(Item { path: out.join("figures.json"), bytes: package.figures.clone().into_bytes() });
    items.extend(lock);
    items.push(Item { path: pdf.clone(), bytes: package.pdf.clone() });
    output.write(&items)?;
    // Only once the new files are in place: a drawing of a piece that is gone must not lie among those that hold.
    let kept: Vec<&str> = package.drawings.iter().map(|(name, _)| name.as_str()).collect();
    output.prune(&drawings, &kept, is_drawing)?;
    Ok(pdf)
}

/// Writes the document of an order: the PDF and the figures.
fn write_order(package: &Package, out: &Path, stem: &str, id: &str) -> Result<PathBuf, Failure> {
    let pdf = out.join(format!("{stem}-order-{id}.pdf"));
    let figures = Item { path: out.join(format!("order-{id}.json")), bytes: package.figures.clone().into_bytes() };
    Output::new().write(&[figures, Item { path: pdf.clone(), bytes: package.pdf.clone() }])?;
    Ok(pdf)
}

/// Says which characters came out as a box, each once.
pub(super) fn replaced(package: &Package, terminal: &mut Terminal) {
    let characters: BTreeSet<char> = package.replaced.iter().map(|one| one.character).collect();
    if !characters.is_empty() {
        let list: Vec<String> = characters.iter().map(|c| format!("U+{:04X}", u32::from(*c))).collect();
        terminal.complain(&Failure::new(format!("no built-in font shows {}; a box is printed", list.join(", "))));
    }
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
