//! `check --fix`: makes the edits whose meaning is certain, shown first.

use std::path::Path;

use backtack_core::diag::{Levels, plain};
use backtack_core::pipeline::{self, Changed, Mended, Source, mend};
use backtack_core::read::Unsaved;
use clap::{Arg, ArgAction, ArgMatches};

use super::output::{Item, Output};
use super::report::{Report, root};
use super::terminal::Terminal;
use super::{Failure, source};

pub(super) fn arguments() -> [Arg; 2] {
    let flag = |name: &'static str, help: &'static str| Arg::new(name).long(name).action(ArgAction::SetTrue).help(help);
    [
        flag("fix", "Makes the changes whose meaning is certain, and checks again"),
        flag("dry-run", "With --fix: shows the changes and makes none").requires("fix"),
    ]
}

/// How to fix.
pub(super) struct Fix {
    dry: bool,
}

impl Fix {
    /// What the arguments ask for; none where nothing is to be fixed.
    ///
    /// # Errors
    /// If the findings are to be printed for a program, which would read the changes among them.
    pub(super) fn of(matches: &ArgMatches) -> Result<Option<Fix>, Failure> {
        if !matches.get_flag("fix") {
            return Ok(None);
        }
        if matches.get_one::<String>("format").is_some_and(|format| format != "text") {
            return Err(Failure::new("--fix shows its changes as text; leave --format out"));
        }
        Ok(Some(Fix { dry: matches.get_flag("dry-run") }))
    }

    /// Fixes one folder: all of its files or none. What is left is reported; of a dry run, what is there.
    pub(super) fn run(
        &self,
        path: &Path,
        levels: &Levels,
        strict: bool,
        terminal: &mut Terminal,
    ) -> Result<Report, Failure> {
        let tally = terminal.tally.clone();
        let loaded = source::folder(path, &tally)?;
        let checked = pipeline::check(&loaded, levels, strict);
        let again = |texts: &Unsaved| pipeline::read(&Source::Unsaved { folder: path, texts }, &tally);
        let Mended { changes, texts, loaded, checked } =
            mend(loaded, checked, (levels, strict), again).map_err(|why| {
                Failure::new(format!("{}: nothing is written, since with the changes {why}", path.display()))
            })?;
        let root = root(path, &loaded.style);
        terminal.print(&shown(&changes, path, &root))?;
        if self.dry {
            terminal.print("dry run: nothing is written; with the changes there would be left:\n\n")?;
        } else {
            let item = |(name, text): (String, String)| Item { path: Path::new(&root).join(name), bytes: text.into() };
            let items: Vec<Item> = texts.into_iter().map(item).collect();
            Output::new().write(&items)?;
        }
        Ok(Report::of(path, loaded, checked))
    }
}

/// The changed lines as they were and as they are, by file.
fn shown(changes: &[Changed], path: &Path, root: &str) -> String {
    if changes.is_empty() {
        return format!("{}: nothing to fix\n\n", plain(&path.to_string_lossy()));
    }
    let mut text = String::new();
    let mut last = "";
    for change in changes {
        if change.path != last {
            text.push_str(&format!("{}\n", plain(&Path::new(root).join(&change.path).to_string_lossy())));
            last = &change.path;
        }
        for (sign, lines) in [('-', &change.before), ('+', &change.after)] {
            for (at, line) in lines.iter().enumerate() {
                text.push_str(&format!("{:>6} {sign} {}\n", change.line + at, plain(line)));
            }
        }
    }
    text + "\n"
}
