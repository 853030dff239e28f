//! Compares every declared thing key by key, for every product.

use std::collections::BTreeMap;

use crate::model::{Fact, Item, Meaning, StatedEntry as Entry, Statements};
use crate::units::{Quantity, Rational, Tolerance};
use crate::words::{Phrase, number, say, words};

use super::changes::{Change, ItemChange, Remark, State};
use super::names::Names;
use super::outline::Outlines;
use super::scope::{Product, Products};
use super::{Overlay, Side};

words! {
    BEHIND "change.behind" = "after {entry}";
}

/// Every thing that differs, in the order of the later statements; what is gone stands after the rest of its kind.
pub fn compare(before: &Statements, after: &Statements, names: &Names, products: &Products) -> Vec<ItemChange> {
    let mut old: BTreeMap<(&str, String), &Item> = BTreeMap::new();
    for item in &before.items {
        old.insert((item.kind, names.now(item.kind, &item.id).to_string()), item);
    }
    let mut all = Vec::new();
    for item in &after.items {
        match old.remove(&(item.kind, item.id.clone())) {
            Some(was) => all.extend(changed(was, item, names, products)),
            None => all.push(whole(item, State::Added)),
        }
    }
    for gone in old.into_values() {
        let after_kind = all.iter().rposition(|one: &ItemChange| one.kind == gone.kind);
        all.insert(after_kind.map_or(all.len(), |at| at + 1), whole(gone, State::Removed));
    }
    all
}

/// A thing that is new or gone, with all it states.
fn whole(item: &Item, state: State) -> ItemChange {
    let change = |fact: &Fact| {
        let written = Some(Phrase::from(&fact.written));
        let (before, after) = if state == State::Added { (None, written) } else { (written, None) };
        Change { key: fact.key.clone(), scope: fact.scope.iter().cloned().collect(), before, after, remark: None }
    };
    let changes = item.facts.iter().map(change).collect();
    ItemChange {
        kind: item.kind,
        id: item.id.clone(),
        title: item.title().to_string(),
        part: part(item),
        state,
        changes,
    }
}

fn part(item: &Item) -> Option<String> {
    item.fact("part").map(|fact| fact.written.clone())
}

fn changed(was: &Item, now: &Item, names: &Names, products: &Products) -> Option<ItemChange> {
    let translated = names.translated(was);
    let mut keys: Vec<&str> = Vec::new();
    for fact in now.facts.iter().chain(&translated.facts) {
        if !keys.contains(&fact.key.as_str()) {
            keys.push(&fact.key);
        }
    }
    let of = |item: &'_ Item, key: &str| -> Vec<Fact> {
        item.facts.iter().filter(|fact| fact.key == key).cloned().collect()
    };
    let mut changes = Vec::new();
    for key in keys {
        value(key, &of(&translated, key), &of(now, key), products, &mut changes);
    }
    let state = if was.id == now.id { State::Changed } else { State::Renamed(was.id.clone()) };
    let told = !changes.is_empty() || state != State::Changed;
    let title = now.title().to_string();
    told.then(|| ItemChange { kind: now.kind, id: now.id.clone(), title, part: part(now), state, changes })
}

/// One key of one thing, whose value may differ by size and colourway.
fn value(key: &str, before: &[Fact], after: &[Fact], products: &Products, out: &mut Vec<Change>) {
    let plain = |facts: &[Fact]| facts.iter().all(|fact| fact.scope.is_none());
    if plain(before) && plain(after) {
        out.extend(pair(key, Vec::new(), before.first(), after.first()));
        return;
    }
    let same = |a: Option<&Fact>, b: Option<&Fact>| match (a, b) {
        (Some(a), Some(b)) => a.meaning.key() == b.meaning.key(),
        (a, b) => a.is_none() && b.is_none(),
    };
    let values = |product: Product<'_>| (holding(before, product), holding(after, product));
    for group in products.groups(values, same) {
        out.extend(pair(key, group.scope, group.before, group.after));
    }
    for code in &products.new {
        let fact = after.iter().find(|fact| fact.scope.as_ref() == Some(code));
        out.extend(fact.and_then(|fact| pair(key, vec![code.clone()], None, Some(fact))));
    }
}

/// The fact that holds for a product: by size, by colourway, else for all others.
fn holding<'a>(facts: &'a [Fact], (size, colourway): Product<'_>) -> Option<&'a Fact> {
    let coded = |code: &str| facts.iter().find(|fact| fact.scope.as_deref() == Some(code));
    let all = || facts.iter().find(|fact| fact.scope.is_none());
    coded(size).or_else(|| coded(colourway)).or_else(|| coded("else")).or_else(all)
}

/// The change from one value to another, if there is one.
fn pair(key: &str, scope: Vec<String>, before: Option<&Fact>, after: Option<&Fact>) -> Option<Change> {
    let key = key.to_string();
    let written = |fact: Option<&Fact>| fact.map(|fact| Phrase::from(&fact.written));
    let (Some(a), Some(b)) = (before, after) else {
        let (before, after) = (written(before), written(after));
        return (before != after).then_some(Change { key, scope, before, after, remark: None });
    };
    if a.meaning.key() == b.meaning.key() {
        return None;
    }
    let (mut before, mut after, mut remark) = (written(before), written(after), None);
    match (&a.meaning, &b.meaning) {
        (Meaning::Quantity(a), Meaning::Quantity(b)) => remark = tolerance(a, b),
        (Meaning::Set(a), Meaning::Set(b)) => (before, after) = (only(a, b), only(b, a)),
        (Meaning::List(a), Meaning::List(b)) if !key.starts_with("outline") => {
            (before, after, remark) = between(a, b);
        }
        _ if before == after => remark = Some(Remark::Content),
        _ => {}
    }
    Some(Change { key, scope, before, after, remark })
}

/// Whether more or less is allowed than before; nothing where only the target changed. Shares of a target are compared as
/// shares, everything else by the limits that it sets.
fn tolerance(a: &Quantity, b: &Quantity) -> Option<Remark> {
    if a.tolerance == b.tolerance {
        return None;
    }
    let share = |quantity: &Quantity| match quantity.tolerance {
        Some(Tolerance::PlusMinus(amount)) if amount.is_share(quantity.dimension()) => Some(amount.value),
        _ => None,
    };
    let shares = share(a).zip(share(b)).is_some();
    let room = |quantity: &Quantity| -> Option<(Rational, Rational)> {
        if let Some(share) = share(quantity).filter(|_| shares) {
            return Some((share, share));
        }
        let limits = quantity.limits()?;
        Some((limits.upper.checked_sub(quantity.si())?, quantity.si().checked_sub(limits.lower)?))
    };
    match (room(a), room(b)) {
        (Some((plus, minus)), Some((new_plus, new_minus))) => {
            let more = new_plus > plus || new_minus > minus;
            let less = new_plus < plus || new_minus < minus;
            match (more, less) {
                (true, true) => Some(Remark::Shifted),
                (true, false) => Some(Remark::Widened),
                (false, true) => Some(Remark::Narrowed),
                (false, false) => None,
            }
        }
        (None, Some(_)) => Some(Remark::ToleranceAdded),
        (Some(_), None) => Some(Remark::ToleranceRemoved),
        (None, None) => None,
    }
}

/// The entries of one list that the other does not have.
fn only(these: &[Entry], others: &[Entry]) -> Option<Phrase> {
    let mut rest: Vec<String> = others.iter().map(|entry| entry.meaning.key()).collect();
    let mut found = Vec::new();
    for entry in these {
        match rest.iter().position(|other| *other == entry.meaning.key()) {
            Some(at) => {
                rest.swap_remove(at);
            }
            None => found.push(entry.written.as_str()),
        }
    }
    (!found.is_empty()).then(|| found.join(", ").into())
}

/// What two lists have between their common beginning and their common end.
fn between(a: &[Entry], b: &[Entry]) -> (Option<Phrase>, Option<Phrase>, Option<Remark>) {
    let same = |pair: &(&Entry, &Entry)| pair.0.meaning.key() == pair.1.meaning.key();
    let head = a.iter().zip(b).take_while(same).count();
    let longest = a.len().min(b.len()) - head;
    let tail = a.iter().rev().zip(b.iter().rev()).take(longest).take_while(same).count();
    let middle = |list: &[Entry]| {
        let some: Vec<&str> = list[head..list.len() - tail].iter().map(|entry| entry.written.as_str()).collect();
        (!some.is_empty()).then(|| some.join(", ").into())
    };
    let sorted = |list: &[Entry]| {
        let mut keys: Vec<String> = list.iter().map(|entry| entry.meaning.key()).collect();
        keys.sort();
        keys
    };
    let after = head.checked_sub(1).and_then(|at| b.get(at)).map(|entry| entry.written.clone());
    let remark = if sorted(a) == sorted(b) {
        Some(Remark::Reordered)
    } else {
        after.map(|entry| Remark::Said(say!(BEHIND, entry)))
    };
    (middle(a), middle(b), remark)
}

/// Outlines are compared as they are drawn: what is written about one that stayed the same is no change, and one that
/// differs is, even if nothing written does.
pub fn with_outlines(items: &mut Vec<ItemChange>, outlines: &Outlines, after: &Side<'_>) {
    for item in items.iter_mut().filter(|item| item.kind == "piece" && outlines.same.contains(&item.id)) {
        if !matches!(item.state, State::Added | State::Removed) {
            item.changes.retain(|change| change.key.split('.').next() != Some("outline"));
        }
    }
    for overlay in &outlines.changed {
        let at = items.iter().position(|item| item.kind == "piece" && item.id == overlay.piece);
        let at = at.unwrap_or_else(|| {
            let new = ItemChange {
                kind: "piece",
                id: overlay.piece.clone(),
                title: title(after, &overlay.piece),
                part: after.model.pieces.get(&overlay.piece).and_then(|piece| Some(piece.part.as_ref()?.value.clone())),
                state: State::Changed,
                changes: Vec::new(),
            };
            let place = place(items, after, &overlay.piece);
            items.insert(place, new);
            place
        });
        if let Some(item) = items.get_mut(at) {
            item.changes.extend(rows(overlay));
        }
    }
    items.retain(|item| !item.changes.is_empty() || item.state != State::Changed);
}

/// Where a piece belongs among the changed things.
fn place(items: &[ItemChange], after: &Side<'_>, piece: &str) -> usize {
    let rank = |kind: &str, id: &str| after.statements.items.iter().position(|item| item.kind == kind && item.id == id);
    let own = rank("piece", piece);
    items.iter().position(|item| rank(item.kind, &item.id).is_some_and(|one| Some(one) > own)).unwrap_or(items.len())
}

fn title(after: &Side<'_>, piece: &str) -> String {
    after.model.pieces.get(piece).map_or_else(|| piece.to_string(), |piece| piece.entry.title().to_string())
}

/// An outline that differs, as rows: the area with the largest distance, then named things that moved on it.
fn rows(overlay: &Overlay) -> Vec<Change> {
    let scope = overlay.size.iter().cloned().collect::<Vec<_>>();
    let mut rows = Vec::new();
    if overlay.differs {
        let area = |area: f64| Some(number::cm2(area / 100.0, 1).into());
        let remark = Some(Remark::Said(overlay.said()));
        let (before, after) = (area(overlay.area.0), area(overlay.area.1));
        rows.push(Change { key: "outline".into(), scope: scope.clone(), before, after, remark });
    }
    for moved in overlay.moved.iter().filter(|moved| !overlay.differs || moved.what != "point" || moved.by.is_none()) {
        let key = format!("outline {} {}", moved.what, moved.id);
        let (before, after, said) = moved.row();
        rows.push(Change { key, scope: scope.clone(), before, after, remark: said.map(Remark::Said) });
    }
    rows
}
