//! What is new since the last sealed revision: value by value, what followed, outlines laid over each other, and what
//! comments asked for against what changed.

use crate::model::kind::{self, GROUPS};
use crate::revision::Since;
use crate::revision::chain::Link;
use crate::revision::compare::{self, Change, Followed, ItemChange, Overlay, State, group, scoped};
use crate::scene::{Laid, overlay};
use crate::words::{Language, Phrase, Word, number, say, sheet as sentences, words};

use crate::rows::cell::{Cell, Coded};
use crate::rows::choice::{among, begun};
use crate::rows::data::{ChangeGroup, ChangeRow, Changes, FollowedRow, OverlayCard, Sheet};
use crate::rows::package::{Drawing, Head};
use crate::rows::view::View;

use super::wording::differing;

words! {
    TITLE_SINCE "changes.since" = "{title} since revision {revision}";
    NEW "changes.new" = "new";
    GONE "changes.gone" = "gone";
    WAS "changes.was" = "was {id}";
    FACT "changes.fact" = "{key} {value}";
    FAMILY "changes.family" = "{family} {what}";
    FOLLOWED "changes.followed" = "{scope} {before} → {after}";
    FOLLOWED_BY "changes.followed-by" = "{scope} {before} → {after} ({by})";
    IN_SIZE "changes.in-size" = "{piece}, size {size}";
    OVERLAY "changes.overlay" = "Sew line of {piece} before and after; farthest apart {distance} {place}";
    BAR "changes.bar" = "50 mm";
    MIRRORED "changes.mirrored" = "Mirrored.";
    FARTHEST "changes.farthest" = "Farthest apart {distance} {place}; area {before} to {after} ({share}).";
    EDGE "changes.edge" = "{from}-{to} {before} to {after}";
    EDGES "changes.edges" = "Edges, mm: {edges}.";
    TURNED "changes.turned" = "{what} by {angle}°";
    MOVED_BY "changes.moved-by" = "{what} {id} {distance}";
    MOVED_TOO "changes.moved-too" = "{id} {distance}";
    MOVED_NEW "changes.moved-new" = "{what} {id} new";
    MOVED_GONE "changes.moved-gone" = "{what} {id} gone";
    MOVED "changes.moved" = "Moved, mm: {things}.";
    UNANSWERED "changes.unanswered" = "nothing changed";
    OF_SCOPE "changes.of-scope" = "{scope}: {text}";
    ITEM "changes.item" = "{kind} {id}";
    ITEM_NAMED "changes.item-named" = "{kind} {id}, {name}";
    OF_PIECES "changes.of-pieces" = "pieces";
    OF_FABRIC "changes.of-fabric" = "fabric";
    OF_FILLING "changes.of-filling" = "filling";
    OF_THREAD "changes.of-thread" = "thread";
    OF_TRIMS "changes.of-trims" = "trims";
    OF_MASS "changes.of-mass" = "mass";
    OF_LIMITS "changes.of-limits" = "limits";
    POINT "changes.point" = "point";
    LINE "changes.line" = "line";
    MARK "changes.mark" = "mark";
    NOTCH "changes.notch" = "notch";
    GRAIN "changes.grain" = "grain";
    PILE "changes.pile" = "pile";
}

/// Numbers that follow.
const FAMILIES: &[Word] = &[OF_PIECES, OF_FABRIC, OF_FILLING, OF_THREAD, OF_TRIMS, OF_MASS, OF_LIMITS];
/// What lies on an outline.
const THINGS: &[Word] = &[POINT, LINE, MARK, NOTCH, GRAIN, PILE];

/// Room for one pair of outlines, mm.
const ROOM: [f64; 2] = [60.0, 60.0];
/// Values of a new thing that are listed; the rest stands on its own sheet.
const LISTED: usize = 6;
/// Outlines that are nearer to each other than this are not drawn, mm: two lines would be one on paper.
const SEEN: f64 = 0.5;

/// One sheet, or none before anything was sealed.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some(since) = view.since else { return Vec::new() };
    let changes = &since.changes;
    let last = since.past.last().map_or("", |past| past.revision.as_str());
    let title = match last {
        "" => sentences::CHANGES_TITLE.into(),
        revision => say!(TITLE_SINCE, title = sentences::CHANGES_TITLE, revision),
    };
    let lead = if changes.is_empty() { sentences::CHANGES_NONE } else { sentences::CHANGES_LEAD };
    let unmatched = changes.unmatched.iter().cloned().map(Phrase::capital);
    let warnings = unmatched.chain(changes.not_compared.iter().cloned());
    vec![Sheet::Changes(Changes {
        head: Head { title, name: sentences::CHANGES.into(), lead: lead.into() },
        past: since.past.iter().rev().map(past).collect(),
        groups: GROUPS.into_iter().filter_map(|heading| of_group(changes, heading)).collect(),
        warnings: warnings.collect(),
        followed: followed(&changes.followed),
        overlays: overlays(changes),
        undrawn: undrawn(changes),
        answers: answers(view, since),
        unasked: since.answers.unasked.iter().filter_map(|at| changes.items.get(*at)).map(named).collect(),
    })]
}

fn past(one: &Link) -> Vec<Phrase> {
    let on = Phrase::from(one.date);
    let digest = one.digest.short();
    vec![(&one.revision).into(), begun(&one.stage), on, (&one.by).into(), (&one.reason).into(), digest.into()]
}

fn of_group(changes: &compare::Changes, heading: Word) -> Option<ChangeGroup> {
    let items = changes.items.iter().filter(|item| group(item.kind) == heading && item.kind != "revision");
    let rows: Vec<ChangeRow> = items.flat_map(of_item).collect();
    (!rows.is_empty()).then(|| ChangeGroup { title: heading.into(), rows })
}

fn of_item(item: &ItemChange) -> Vec<ChangeRow> {
    let what = named(item);
    let whole = |remark: Phrase, after: Phrase| ChangeRow {
        what: what.clone(),
        after: after.into(),
        remark,
        ..ChangeRow::default()
    };
    let mut all = match &item.state {
        State::Added => {
            let facts = item.changes.iter().filter(|one| one.key != "name").take(LISTED).map(|change| {
                let value = change.after.clone().unwrap_or_default();
                say!(FACT, key = scoped(&change.key, &change.scope), value)
            });
            return vec![whole(NEW.into(), Phrase::row(facts, "; "))];
        }
        State::Removed => return vec![whole(GONE.into(), Phrase::none())],
        State::Renamed(id) => vec![whole(say!(WAS, id), Phrase::none())],
        State::Changed => Vec::new(),
    };
    for same in by_key(&item.changes) {
        let what = if all.is_empty() { what.clone() } else { Phrase::none() };
        let row = of_value(what, &same);
        // Points that moved alike are named together.
        match all.last_mut() {
            Some(last) if (&last.before, &last.after, &last.remark) == (&row.before, &row.after, &row.remark) => {
                last.key = Phrase::row([last.key.clone(), row.key], "; ");
            }
            _ => all.push(row),
        }
    }
    all
}

/// The changes of one key together, in the order in which keys come.
fn by_key(changes: &[Change]) -> Vec<Vec<&Change>> {
    let mut all: Vec<Vec<&Change>> = Vec::new();
    for change in changes {
        match all.iter_mut().find(|same| same.first().is_some_and(|first| first.key == change.key)) {
            Some(same) => same.push(change),
            None => all.push(vec![change]),
        }
    }
    all
}

/// One value before and after; several by size or colourway.
fn of_value(what: Phrase, same: &[&Change]) -> ChangeRow {
    let value = |text: &Option<Phrase>| text.clone().map_or(Cell::Empty, Cell::from);
    let remark = |change: &Change| change.remark.as_ref().map_or_else(Phrase::none, |remark| remark.phrase());
    let [change] = same else {
        let by = |pick: fn(&Change) -> &Option<Phrase>| {
            let coded = same.iter().filter(|one| pick(one).is_some());
            let coded = coded.map(|one| Coded { code: one.scope.join(", "), cell: value(pick(one)) });
            Some(coded.collect::<Vec<_>>()).filter(|all| !all.is_empty()).map_or(Cell::Empty, Cell::By)
        };
        let first = same.first().map_or_else(Phrase::none, |one| remark(one));
        let said = same.iter().filter(|one| one.remark.is_some());
        let said = said.map(|one| say!(OF_SCOPE, scope = one.scope.join(", "), text = remark(one)));
        return ChangeRow {
            what,
            key: same.first().map_or_else(Phrase::none, |one| scoped(&one.key, &[]).into()),
            before: by(|one| &one.before),
            after: by(|one| &one.after),
            remark: if same.iter().all(|one| remark(one) == first) { first } else { Phrase::row(said, "; ") },
        };
    };
    let (before, after) = worded(&change.before, &change.after);
    ChangeRow {
        what,
        key: scoped(&change.key, &change.scope).into(),
        before: value(&before),
        after: value(&after),
        remark: remark(change),
    }
}

/// Texts of the user, which are the same in all languages, where they differ; other values as they are.
fn worded(before: &Option<Phrase>, after: &Option<Phrase>) -> (Option<Phrase>, Option<Phrase>) {
    let plain = |text: &Phrase| {
        let english = text.english();
        (text.in_language(Language::SimplifiedChinese) == english).then_some(english)
    };
    let texts = (before.as_ref().and_then(plain), after.as_ref().and_then(plain));
    let (Some(old), Some(new)) = texts else { return (before.clone(), after.clone()) };
    let (old, new) = differing(&old, &new);
    (Some(old.into()), Some(new.into()))
}

/// Numbers that followed, all sizes and colourways of one in a row.
fn followed(all: &[Followed]) -> Vec<FollowedRow> {
    let same = |a: &Followed, b: &Followed| a.family == b.family && a.what == b.what;
    let row = |some: &[Followed]| {
        let first = some.first()?;
        let family = among(FAMILIES, first.family).capital();
        let what = match scoped(&first.what, &[]).trim() {
            "" => family,
            what => say!(FAMILY, family, what),
        };
        Some(FollowedRow { what, values: some.iter().map(moved_to).collect() })
    };
    all.chunk_by(same).filter_map(row).collect()
}

/// `S 0.026 → 0.027 m (+0.001)`, or without the difference where there is none.
fn moved_to(one: &Followed) -> Phrase {
    let known = |value: &Option<Phrase>| value.clone().map_or(Cell::Dash, Cell::from).phrase();
    // As many decimals as the numbers it is the difference of.
    let decimals = |value: &Option<Phrase>| {
        let text = value.as_ref().map_or_else(String::new, Phrase::english);
        let rest = text.split_once('.').map_or("", |(_, rest)| rest);
        rest.chars().take_while(char::is_ascii_digit).count() as u32
    };
    let places = decimals(&one.before).max(decimals(&one.after));
    let (scope, before, after) = (one.scope.join(", "), known(&one.before), known(&one.after));
    match one.difference {
        Some(difference) => {
            let sign = if difference > 0.0 { "+" } else { "" };
            let by = format!("{sign}{}", number::number(difference, places));
            say!(FOLLOWED_BY, scope, before, after, by)
        }
        None => say!(FOLLOWED, scope, before, after),
    }
}

/// Whether a change of an outline is drawn: it can be seen, and no other size of the piece changed more.
fn is_drawn(changes: &compare::Changes, one: &Overlay) -> bool {
    let far = |other: &Overlay| other.farthest.distance;
    let same = changes.overlays.iter().filter(|other| other.piece == one.piece && other.differs);
    one.differs && far(one) >= SEEN && same.map(far).fold(0.0, f64::max) <= far(one)
}

fn overlays(changes: &compare::Changes) -> Vec<Vec<OverlayCard>> {
    let drawn: Vec<OverlayCard> = changes.overlays.iter().filter(|one| is_drawn(changes, one)).map(card).collect();
    drawn.chunks(2).map(<[OverlayCard]>::to_vec).collect()
}

/// What is said of outlines that are not drawn.
fn undrawn(changes: &compare::Changes) -> Vec<Vec<Phrase>> {
    let others = changes.overlays.iter().filter(|one| !is_drawn(changes, one));
    others.map(|one| vec![titled(one), Phrase::row(said(one), " ")]).collect()
}

/// The piece, and the size where there are several.
fn titled(one: &Overlay) -> Phrase {
    let piece = &one.piece;
    one.size.as_ref().map_or_else(|| piece.into(), |size| say!(IN_SIZE, piece, size))
}

fn card(one: &Overlay) -> OverlayCard {
    let distance = if one.differs { number::mm(one.farthest.distance, 1) } else { String::new() };
    let mut laid = Laid::of(&one.before.path, &one.after.path, (one.farthest.before, one.farthest.after), &distance);
    for name in one.after.names() {
        if let Some(place) = one.after.point(&name) {
            laid = laid.with_point(&name, place);
        }
    }
    let title = titled(one);
    let alt = say!(OVERLAY, piece = &title, distance, place = &one.place);
    let (scene, scale) = overlay(&laid, BAR.en, |_| ROOM, alt);
    let caption = if scale < 1.0 { format!("{}:1", 1.0 / scale) } else { format!("1:{scale}") };
    OverlayCard { title, drawing: Drawing::of(scene, caption), text: said(one) }
}

/// What is said under a pair of outlines.
fn said(one: &Overlay) -> Vec<Phrase> {
    let mut all = Vec::new();
    if one.mirrored {
        all.push(MIRRORED.into());
    }
    if one.differs {
        let (before, after) = (one.area.0 / 100.0, one.area.1 / 100.0);
        let share = if before > 0.0 { (after / before - 1.0) * 100.0 } else { 0.0 };
        let sign = if share > 0.0 { "+" } else { "" };
        all.push(say!(
            FARTHEST,
            distance = number::mm(one.farthest.distance, 1),
            place = &one.place,
            before = number::cm2(before, 1),
            after = number::cm2(after, 1),
            share = format!("{sign}{}", number::percent(share, 1)),
        ));
    }
    let edges: Vec<Phrase> = one.runs.iter().map(edge).collect();
    if !edges.is_empty() {
        all.push(say!(EDGES, edges = Phrase::list(edges)));
    }
    // Points are called points once.
    let before = std::iter::once(None).chain(one.moved.iter().map(Some));
    let things: Vec<Phrase> = one.moved.iter().zip(before).map(|(one, before)| moved(one, before)).collect();
    if !things.is_empty() {
        all.push(say!(MOVED, things = Phrase::list(things)));
    }
    all
}

/// `a-b 120.0 to 122.5`.
fn edge(run: &compare::RunChange) -> Phrase {
    let (before, after) = (number::number(run.before, 1), number::number(run.after, 1));
    say!(EDGE, from = &run.from, to = &run.to, before, after)
}

/// `notch n1 3.0`; behind another notch that moved `n2 3.0`.
fn moved(moved: &compare::Moved, before: Option<&compare::Moved>) -> Phrase {
    let (what, id) = (among(THINGS, moved.what), &moved.id);
    let alike = before.is_some_and(|one| one.what == moved.what && one.by.is_some());
    match (moved.by, moved.there) {
        (Some(by), _) if [GRAIN.en, PILE.en].contains(&moved.what) => say!(TURNED, what, angle = number::number(by, 1)),
        (Some(by), _) if alike => say!(MOVED_TOO, id, distance = number::number(by, 1)),
        (Some(by), _) => say!(MOVED_BY, what, id, distance = number::number(by, 1)),
        (None, true) => say!(MOVED_NEW, what, id),
        (None, false) => say!(MOVED_GONE, what, id),
    }
}

/// Comments that are met, then those that nothing answers.
fn answers(view: &View<'_>, since: &Since) -> Vec<Vec<Phrase>> {
    let asked = |id: &str| {
        let line = view.samples.comments.iter().find(|comment| comment.comment == id);
        line.and_then(|line| line.text.as_ref()).map_or_else(Phrase::none, Phrase::from)
    };
    // Where it stands is what the ledger says, on this sheet as on that of comments.
    let state = |id: &str| {
        let line = view.samples.comments.iter().find(|comment| comment.comment == id);
        line.map_or_else(Phrase::none, |line| begun(line.state))
    };
    let met = since.answers.answered.iter().map(|(id, items)| {
        let names = items.iter().filter_map(|at| since.changes.items.get(*at)).map(named);
        vec![id.into(), asked(id), Phrase::list(names), state(id)]
    });
    let open = since.answers.unanswered.iter().map(|id| vec![id.into(), asked(id), UNANSWERED.into(), state(id)]);
    met.chain(open).collect()
}

/// `Piece SIDE, Body side`.
fn named(item: &ItemChange) -> Phrase {
    let kind = kind::word(item.kind).capital();
    let id = &item.id;
    match item.title.as_str() {
        _ if id.is_empty() => kind,
        title if title.is_empty() || title == id => say!(ITEM, kind, id),
        name => say!(ITEM_NAMED, kind, id, name),
    }
}
