//! Finds the lays of a style and keeps them in its lock.

use std::path::{Path, PathBuf};

use backtack_core::cutting::figures::{Effort, Moved, PRODUCT, SIZES, Search, search, swept};
use backtack_core::diag::{Levels, plain};
use backtack_core::editions::Unshown;
use backtack_core::lay::{Bad, Lock, Progress, lock};
use backtack_core::orders::figures::{of_order as of_order_name, plan_order};
use backtack_core::pipeline::{self, Checked, check};
use backtack_core::read::Loaded;
use clap::ArgMatches;
use indicatif::{ProgressBar, ProgressStyle};

use super::super::output::{Item, Output};
use super::super::terminal::Terminal;
use super::super::{Exit, Failure, source, traces};
use super::stop::stopper;

/// What was found for a style.
pub struct Found {
    /// Every lay that is kept now.
    pub lock: Lock,
    /// What became of each.
    pub moved: Vec<Moved>,
    /// What cannot be laid, and why.
    pub refused: Vec<Bad>,
    /// Lays that nothing asks for any more.
    pub gone: Vec<String>,
}

/// The file that keeps the lays of a style.
pub fn item(folder: &Path, lock: &Lock) -> Item {
    Item { path: folder.join(lock::FILE), bytes: lock.text().into_bytes() }
}

/// Refuses to find lays where those that are kept cannot be read: they would be written over.
fn kept(loaded: &Loaded) -> Result<(), Failure> {
    match &loaded.broken_lock {
        None => Ok(()),
        Some(why) => Err(Failure::new(format!(
            "{} cannot be read, so no lays are written over it: {why}; take the file back from before it was changed, or \
             delete it to find every lay again",
            lock::FILE
        ))),
    }
}

/// Finds the lays that are missing, or all of them again.
///
/// # Errors
/// If those that are kept cannot be read.
pub fn found(loaded: &Loaded, checked: &Checked, effort: Effort, again: bool, longer: bool) -> Result<Found, Failure> {
    kept(loaded)?;
    let stop = stopper();
    let bar = bar();
    let observe = |title: &str, (number, of): (usize, usize), progress: Progress| {
        bar.set_position((progress.share * 1000.0) as u64);
        bar.set_message(format!("lay {number} of {of}: {}, {:.1} mm", plain(title), progress.length as f64 / 1000.0));
    };
    let how = Search { effort, again, longer, stop: &stop, observe: &observe };
    let lock = loaded.model.lock.clone();
    let mut found = Found { lock, moved: Vec::new(), refused: Vec::new(), gone: Vec::new() };
    for of in [PRODUCT, SIZES] {
        let tasks = checked.lays.kept_as(of);
        let (moved, refused) = search(&tasks, of, &mut found.lock, &how);
        found.moved.extend(moved);
        found.refused.extend(refused);
        found.gone.extend(swept(&mut found.lock, of, &tasks));
    }
    bar.finish_and_clear();
    Ok(found)
}

/// Finds the lays that the plan of an order asks for.
///
/// # Errors
/// If there is no such order, or the lays that are kept cannot be read.
pub fn of_order(loaded: &Loaded, checked: &Checked, id: &str, effort: Effort, again: bool) -> Result<Found, Failure> {
    if !loaded.model.orders.contains_key(id) {
        return Err(Failure::new(Unshown::unknown(loaded, id).to_string()));
    }
    kept(loaded)?;
    let stop = stopper();
    let bar = bar();
    let observe = |title: &str, _: (usize, usize), progress: Progress| {
        bar.set_position((progress.share * 1000.0) as u64);
        bar.set_message(format!("order {id}: {}, {:.1} mm", plain(title), progress.length as f64 / 1000.0));
    };
    let how = Search { effort, again, longer: false, stop: &stop, observe: &observe };
    let mut lock = loaded.model.lock.clone();
    if again {
        let of = of_order_name(id);
        lock.entries.retain(|_, entry| entry.of != of);
    }
    let mut figures = checked.figures.clone();
    let given = (&loaded.model, &checked.assembly, &checked.drawn);
    let done = plan_order(given, &mut figures, id, &mut lock, Some(&how));
    bar.finish_and_clear();
    Ok(Found { lock, moved: done.moved, refused: done.refused, gone: Vec::new() })
}

fn bar() -> ProgressBar {
    let bar = ProgressBar::new(1000);
    if let Ok(style) = ProgressStyle::with_template("{bar:20} {msg}") {
        bar.set_style(style);
    }
    bar
}

/// `backtack lay DIR`.
pub(super) fn run(folder: &Path, matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let effort = matches
        .get_one::<String>("effort")
        .and_then(|word| Effort::ALL.iter().find(|(known, _)| known == word).map(|(_, effort)| *effort));
    let loaded = source::folder(folder, &terminal.tally)?;
    let checked = check(&loaded, &Levels::new(), false);
    let longer = matches.get_flag("longer");
    let effort = effort.unwrap_or_default();
    let found = match matches.get_one::<String>("order") {
        Some(id) => of_order(&loaded, &checked, id, effort, true)?,
        None => found(&loaded, &checked, effort, true, longer)?,
    };
    if found.lock != loaded.model.lock {
        Output::new().write(&[item(folder, &found.lock)])?;
    }
    terminal.print(&told(&found))?;
    if let Some(id) = matches.get_one::<String>("order").filter(|_| matches.get_flag(traces::OPTION)) {
        let loaded = loaded.with_lock(found.lock.clone());
        let lays = traced(&loaded, id)?;
        let out = matches.get_one::<PathBuf>("out").cloned().unwrap_or_else(|| folder.join("out"));
        let output = Output::new().sparing(loaded.source_files());
        if let Some(written) = traces::write(&lays, &out, id, &output)? {
            terminal.print(&format!("{}\n", plain(&written.to_string_lossy())))?;
        }
    }
    if found.moved.is_empty() && found.refused.is_empty() {
        terminal.print("nothing to lay: no fabric with a cuttable width and known outlines\n")?;
    }
    Ok(Exit::Clear)
}

/// The lays of an order at true scale, from those that are kept.
fn traced(loaded: &Loaded, id: &str) -> Result<Vec<(String, String)>, Failure> {
    let checked = check(loaded, &Levels::new(), false);
    let edition = pipeline::order(loaded, &checked, id).map_err(|error| Failure::new(error.to_string()))?;
    Ok(crate::trace_order(&edition))
}

/// What became of each lay, a line each.
pub fn told(found: &Found) -> String {
    let mm = |length: i64| format!("{:.1} mm", length as f64 / 1000.0);
    let mut text = String::new();
    for one in &found.moved {
        let title = plain(&one.title);
        let line = match (one.before, one.fitted, one.taken) {
            (None, ..) => format!("{title}: {}", mm(one.found)),
            (Some(before), false, _) => {
                format!("{title}: {} no longer fits, now {}", mm(before), mm(one.found))
            }
            (Some(before), true, true) => format!("{title}: {} instead of {}", mm(one.found), mm(before)),
            (Some(before), true, false) if one.found > before => {
                format!("{title}: {} kept, {} found; --longer would take it", mm(before), mm(one.found))
            }
            (Some(before), true, false) => format!("{title}: {} kept", mm(before)),
        };
        text.push_str(&line);
        text.push_str(if one.interrupted { ", stopped early\n" } else { "\n" });
    }
    for bad in &found.refused {
        text.push_str(&format!("not laid: {}\n", plain(&bad.to_string())));
    }
    for gone in &found.gone {
        text.push_str(&format!("{}: no longer laid\n", plain(gone)));
    }
    text
}
