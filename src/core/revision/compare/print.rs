//! A comparison in print: text for people, JSON for programs.

use serde_json::{Value, json};

use crate::diag::{columns, plain};
use crate::model::kind;
use crate::words::{Phrase, Word};

use super::changes::{Change, Changes, Followed, Head, ItemChange, State};
use super::outline::Overlay;

/// Version of the JSON; raised when a field changes its meaning or goes.
pub const FORMAT: u32 = 1;

/// The heading under which changes of a kind of thing are read; a layer of a piece is read with its piece.
pub fn group(table: &str) -> Word {
    let table = if table == "cut" { "piece" } else { table };
    kind::of(table).map_or(kind::OTHER, |kind| kind.group)
}

/// The changes for people, in lines of at most `width` columns where words allow: before -> after.
pub fn text(changes: &Changes, width: usize) -> String {
    let mut page = Page { width, out: String::new() };
    page.line("", &format!("{} -> {}", head(&changes.from), head(&changes.to)));
    if changes.is_empty() {
        page.line("", "No change.");
    }
    for heading in kind::GROUPS {
        let items: Vec<&ItemChange> = changes.items.iter().filter(|item| group(item.kind) == heading).collect();
        page.heading(heading.en, !items.is_empty());
        items.iter().for_each(|item| page.item(item));
    }
    page.heading("Seams that no longer match", !changes.unmatched.is_empty());
    changes.unmatched.iter().for_each(|message| page.line("  ! ", &message.english()));
    page.heading("What follows", !changes.followed.is_empty());
    changes.followed.iter().for_each(|one| page.line("  ", &followed(one)));
    let rough = |text: &Option<Phrase>| text.as_ref().is_some_and(|text| text.english().starts_with('≈'));
    if changes.followed.iter().any(|one| rough(&one.before) || rough(&one.after)) {
        page.line("  ", "≈ an estimate: no lay of it is kept");
    }
    page.heading("Not compared", !changes.not_compared.is_empty());
    changes.not_compared.iter().for_each(|why| page.line("  ", &why.english()));
    // Numbers were kept with their units while lines were broken; for a reader who searches they are plain text.
    page.out.replace(crate::words::number::SPACE, " ")
}

fn head(head: &Head) -> String {
    let revision = if head.revision.is_empty() { "no revision".into() } else { format!("revision {}", head.revision) };
    let date = head.date.map_or_else(String::new, |date| format!(", {date}"));
    let style = if head.style.is_empty() { String::new() } else { format!("{}, ", head.style) };
    format!("{style}{revision}{date}")
}

struct Page {
    width: usize,
    out: String,
}

impl Page {
    fn heading(&mut self, title: &str, wanted: bool) {
        if wanted {
            self.out.push('\n');
            self.line("", title);
        }
    }

    fn item(&mut self, item: &ItemChange) {
        let name = name(item);
        match &item.state {
            State::Added => {
                let facts: Vec<String> = item.changes.iter().filter(|one| one.key != "name").map(fact).collect();
                self.line("  + ", &listed(&name, &facts));
            }
            State::Removed => self.line("  - ", &name),
            State::Renamed(was) => self.line("  = ", &format!("{name}, was {was}")),
            State::Changed => {}
        }
        if matches!(item.state, State::Changed | State::Renamed(_)) {
            item.changes.iter().for_each(|change| self.line("  ~ ", &format!("{} {}", short(item), row(change))));
        }
    }

    /// A line, broken between words where it is too long; what follows is set in deeper.
    fn line(&mut self, lead: &str, text: &str) {
        let text = plain(text);
        let mut line = lead.to_string();
        let mut empty = true;
        for word in text.split(' ') {
            let long = columns(&line) + 1 + columns(word) > self.width;
            if !empty && long {
                self.out.push_str(line.trim_end());
                self.out.push('\n');
                line = " ".repeat(columns(lead) + 2);
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }
}

fn listed(name: &str, facts: &[String]) -> String {
    const SHOWN: usize = 6;
    let more = facts.len().saturating_sub(SHOWN);
    let shown = facts.iter().take(SHOWN).cloned().collect::<Vec<_>>().join("; ");
    let tail = if more > 0 { format!("; {more} more") } else { String::new() };
    if facts.is_empty() { name.to_string() } else { format!("{name}: {shown}{tail}") }
}

/// `piece SIDE (Body side)`.
fn name(item: &ItemChange) -> String {
    let named = item.title != item.id && !item.title.is_empty() && !item.id.is_empty();
    let title = if named { format!(" ({})", item.title) } else { String::new() };
    format!("{}{title}", short(item))
}

fn short(item: &ItemChange) -> String {
    if item.id.is_empty() { format!("[{}]", item.kind) } else { format!("{} {}", item.kind, item.id) }
}

/// A key with its scope, for people: `mass S`.
pub fn scoped(key: &str, scope: &[String]) -> String {
    let scope = if scope.is_empty() { String::new() } else { format!(" {}", scope.join(", ")) };
    format!("{}{scope}", key.replace('.', " ").trim())
}

fn fact(change: &Change) -> String {
    let value = change.after.as_ref().or(change.before.as_ref()).map_or_else(String::new, Phrase::english);
    format!("{} {value}", scoped(&change.key, &change.scope))
}

/// One change in a line without the thing it is about: `mass S: 10 g -> 12 g (tolerance widened)`.
pub fn row(change: &Change) -> String {
    let said = change.remark.as_ref().map(|remark| remark.phrase().english());
    let arrow = match (&change.before, &change.after) {
        (Some(before), Some(after)) => format!("{before} -> {after}"),
        (None, Some(after)) => format!("added {after}"),
        (Some(before), None) => format!("removed {before}"),
        (None, None) => {
            return format!("{}: {}", scoped(&change.key, &change.scope), said.as_deref().unwrap_or("changed"));
        }
    };
    let said = said.map_or_else(String::new, |said| format!(" ({said})"));
    format!("{}: {arrow}{said}", scoped(&change.key, &change.scope))
}

fn followed(one: &Followed) -> String {
    let value = |one: &Option<Phrase>| one.as_ref().map_or_else(|| "none".to_string(), Phrase::english);
    let what = format!("{} {}", one.family, one.what);
    let values = (value(&one.before), value(&one.after));
    format!("{}: {} -> {}", scoped(&what, &one.scope).trim(), values.0, values.1)
}

/// The changes for other programs; two spaces a level, a line feed at the end.
pub fn json(changes: &Changes) -> String {
    let head = |head: &Head| json!({ "style": head.style, "revision": head.revision, "date": head.date });
    let document = json!({
        "format": FORMAT,
        "same": changes.is_empty(),
        "from": head(&changes.from),
        "to": head(&changes.to),
        "items": changes.items.iter().map(item).collect::<Vec<_>>(),
        "outlines": changes.overlays.iter().map(overlay).collect::<Vec<_>>(),
        "followed": changes.followed.iter().map(consequence).collect::<Vec<_>>(),
        "unmatched-seams": changes.unmatched.iter().map(Phrase::english).collect::<Vec<_>>(),
        "not-compared": changes.not_compared.iter().map(Phrase::english).collect::<Vec<_>>(),
    });
    let text = serde_json::to_string_pretty(&document).unwrap_or_else(|error| error.to_string());
    crate::diag::json::escape(&text)
}

fn item(item: &ItemChange) -> Value {
    let state = match &item.state {
        State::Added => "added",
        State::Removed => "removed",
        State::Changed => "changed",
        State::Renamed(_) => "renamed",
    };
    let was = match &item.state {
        State::Renamed(was) => Some(was),
        _ => None,
    };
    let change = |change: &Change| {
        json!({
            "key": change.key, "for": change.scope, "before": english(&change.before), "after": english(&change.after),
            "remark": change.remark.as_ref().map(|remark| remark.phrase().english()),
        })
    };
    json!({
        "table": item.kind, "id": item.id, "name": item.title, "state": state, "was": was,
        "changes": item.changes.iter().map(change).collect::<Vec<_>>(),
    })
}

/// A value in English, for programs.
fn english(text: &Option<Phrase>) -> Option<String> {
    text.as_ref().map(Phrase::english)
}

/// A number to a thousandth, without a negative zero.
fn thousandth(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}

fn overlay(one: &Overlay) -> Value {
    let moved = one.moved.iter().map(
        |moved| json!({ "what": moved.what, "id": moved.id, "by": moved.by.map(thousandth), "there": moved.there }),
    );
    let edges = one.runs.iter().map(|run| {
        json!({ "from": run.from, "to": run.to, "before-mm": thousandth(run.before), "after-mm": thousandth(run.after) })
    });
    json!({
        "piece": one.piece, "size": one.size, "differs": one.differs, "mirrored": one.mirrored,
        "area-before-mm2": thousandth(one.area.0), "area-after-mm2": thousandth(one.area.1),
        "largest-distance-mm": thousandth(one.farthest.distance), "where": one.place.english(),
        "moved": moved.collect::<Vec<_>>(), "edges": edges.collect::<Vec<_>>(),
    })
}

fn consequence(one: &Followed) -> Value {
    json!({
        "family": one.family, "what": one.what, "for": one.scope, "before": english(&one.before), "after": english(&one.after),
        "difference": one.difference.map(thousandth),
    })
}
