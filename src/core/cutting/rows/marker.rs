//! How to lay the fabric: the lays of one product, each to scale.

use std::collections::BTreeSet;

use crate::compute::{Figure, Number, Task};
use crate::cutting::figures::dies::{Die, Narrow};
use crate::cutting::figures::{Direction, LayFigures, mix_text};
use crate::model::{Cutting, Method, Spread};
use crate::scene::{Codes, lay};
use crate::words::{Phrase, Word, head, number, say, sheet, words};

use crate::rows::cards::{self, LINES, width};
use crate::rows::cell::Cell;
use crate::rows::choice::said;
use crate::rows::data::{LayCard, LayGroup, Marker, Sheet};
use crate::rows::package::{CARDS_HEIGHT, Drawing, Fact, Head, ROOM_LAY, ROOM_SHORT_LAY};
use crate::rows::view::{View, metres};

words! {
    LAID "marker.laid" = "{fabric}: {mix}";
    WIDTH "marker.width" = "Width laid";
    SPREAD "marker.spread" = "Spread";
    LIE "marker.lie" = "Pieces lie";
    CUT_BY "marker.cut-by" = "Cut by";
    GAPS "marker.gaps" = "Between pieces, at ends";
    GAP_AND_END "marker.gap-and-end" = "{gap} and {end}";
    EDGES "marker.edges" = "Kept free along both edges";
    HEIGHT "marker.height" = "Height cut";
    LAID_BY "marker.laid-by" = "Laid and cut as";
    AT_ONCE "marker.at-once" = "Plies at once";
    AT_MOST "marker.at-most" = "at most {count}";
    CUT_FROM "marker.cut-from" = "Cut from";
    BACK "marker.back" = "the back";
    TILT "marker.tilt" = "Tilt";
    TABLE "marker.table" = "Table";
    PLY_LENGTH "marker.ply-length" = "Length of a ply";
    ON_EACH "marker.on-each" = "{pieces} on each of {plies} plies";
    FOR_ONE "marker.for-one" = "Fabric for one product";
    BECOMES "marker.becomes" = "Becomes pieces";
    PATH "marker.path" = "Path of the cut";
    STRIKES "marker.strikes" = "Strikes";
    IN_ROWS "marker.in-rows" = "{strikes} in {rows} rows";
    IN_ROWS_AND_SINGLE "marker.in-rows-and-single" = "{strikes} in {rows} rows, {single} single";
    FREELY "marker.freely" = "Laid freely, for a knife";
    BLOCK_DIE "marker.block-die" = "{cut}, its block";
    TONGUE "marker.tongue" = "tongue {width} wide over {length}";
    GAP "marker.gap" = "gap {width} wide over {length}";
    ONE_WAY_UP "marker.one-way-up" = "One way, face up";
    FACE_TO_FACE "marker.face-to-face" = "Face to face";
    FOLDED "marker.folded" = "Folded along its length";
    ONE_WAY "marker.one-way" = "All one way";
    TWO_WAYS "marker.two-ways" = "Along the roll, both ways";
    ANY_WAY "marker.any-way" = "Any way";
    HAND_KNIFE "marker.hand-knife" = "Hand knife";
    AUTOMATIC_KNIFE "marker.automatic-knife" = "Automatic knife";
    DIE "marker.die" = "Die";
    LASER "marker.laser" = "Laser";
    TAKEN "marker.taken" = "{what} {value}";
    ASSUMED "marker.assumed" = "Not stated, so common practice was taken: {what}.";
    SURPLUS "marker.surplus" = "Pairs of plies make more than is needed: {pieces}.";
}

/// A lay up to this long is drawn with its roll from top to bottom, larger than others, µm.
const SHORT: i64 = 380_000;
/// The least width of a card, mm: three lie side by side.
const CARD_WIDTH: f64 = 83.0;

/// One sheet with a card for every lay; none where nothing can be laid.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let both = view.lays.tasks.iter().zip(&view.figures.lays);
    let mut both: Vec<(&Task, &LayFigures)> = both.filter(|(task, _)| task.lay.is_some()).collect();
    // Sizes of one fabric stand together.
    both.sort_by_key(|(task, figures)| (figures.fabric.clone(), task.materials.clone()));
    if both.is_empty() {
        return Vec::new();
    }
    let head = Head { title: sheet::MARKER_TITLE.into(), name: sheet::MARKER.into(), lead: sheet::MARKER_LEAD.into() };
    let dies = if view.order.is_none() { dies(view) } else { Vec::new() };
    let groups = both.chunk_by(|(a, one), (b, other)| one.fabric == other.fabric && a.materials == b.materials);
    let groups = groups.map(|some| group(view, some)).collect();
    let cards = both.iter().map(|(task, figures)| card(view, task, figures));
    vec![Sheet::Marker(Marker { head, groups, pages: cards::pages(cards, CARDS_HEIGHT), dies })]
}

/// What the lays of one fabric share.
fn group(view: &View<'_>, some: &[(&Task, &LayFigures)]) -> LayGroup {
    let Some((task, first)) = some.first() else { return LayGroup::default() };
    let mut notes = assumed(first);
    notes.extend(
        stated(view, first).map(|one| view.text(one.note.as_ref()).into()).filter(|note: &Phrase| !note.is_empty()),
    );
    notes.extend(some.iter().filter_map(|(_, figures)| surplus(figures)));
    LayGroup { title: view.fabric_title(&task.bought.article, &task.materials), facts: shared(view, some), notes }
}

/// A lay with the room its card takes: title and facts, drawing, legend.
fn card(view: &View<'_>, task: &Task, figures: &LayFigures) -> ([f64; 2], LayCard) {
    let drawing = task.lay.as_ref().map(|found| {
        let texts = [known_metres(&figures.length).phrase().english(), number::mm(figures.width.get(), 0)];
        let room = if found.length <= SHORT { ROOM_SHORT_LAY } else { ROOM_LAY };
        let scene = lay(&task.instance, found, [room.width, room.height], [&texts[0], &texts[1]], Codes::Numbers);
        let (lines, scene) = scene.parted();
        Drawing { lines: Some(lines), ..Drawing::of(scene, "") }
    });
    let numbered = task.instance.pieces.iter().enumerate();
    let legend = Phrase::list(numbered.map(|(number, piece)| format!("{} {}", number + 1, piece.id)));
    let fabric = view.fabric_title(&task.bought.article, &task.materials);
    let title = say!(LAID, fabric, mix = mix_text(&figures.mix));
    let facts = facts(figures);
    let scene = drawing.as_ref().map(|one| &one.scene);
    let (languages, width) = (view.model.style.languages, width(scene).max(CARD_WIDTH));
    let told = Phrase::row(facts.iter().flat_map(|fact| [fact.label.clone(), fact.value.phrase()]), "  ");
    let high = |text: &Phrase, size: f64| cards::lines(text, languages, size, width);
    let top = LINES[0] * high(&title, 9.5) + LINES[1] * high(&told, 7.5) + 2.0;
    let below = LINES[1] * high(&legend, 7.5) + 2.0;
    let size = [width, top + scene.map_or(0.0, |scene| scene.height) + below];
    (size, LayCard { width, top, title, facts, drawing, legend })
}

/// The `[cutting]` that speaks of the fabric of a lay.
fn stated<'v>(view: &'v View<'_>, one: &LayFigures) -> Option<&'v Cutting> {
    view.model.cuttings.get(one.how.cutting.as_ref()?)
}

/// What holds for every lay of a fabric.
fn shared(view: &View<'_>, some: &[(&Task, &LayFigures)]) -> Vec<Fact> {
    let Some((_, one)) = some.first() else { return Vec::new() };
    let how = &one.how;
    let mut all = vec![
        Fact::of(WIDTH, Cell::fixed(one.width, 0, "mm")),
        Fact::of(SPREAD, spread(how.spread)),
        Fact::of(LIE, direction(how.direction)),
        Fact::of(CUT_BY, method(how.method)),
        Fact::of(GAPS, say!(GAP_AND_END, gap = mm(how.gap), end = mm(how.end))),
        Fact::of(AT_ONCE, Cell::figure(&how.plies, |plies| say!(AT_MOST, count = *plies).into())),
    ];
    if how.edge.get() > 0.0 {
        all.push(Fact::of(EDGES, mm(how.edge)));
    }
    if let Some(stated) = stated(view, one) {
        all.extend(stated.entry.name.as_ref().map(|name| Fact::of(LAID_BY, &name.value)));
        let height = stated.height.as_ref().and_then(|height| height.known());
        all.extend(height.map(|height| Fact::of(HEIGHT, number::quantity(height))));
    }
    if how.method == Method::Laser {
        all.push(Fact::of(CUT_FROM, BACK));
    }
    if view.model.colourways.len() > 1 {
        let ways: BTreeSet<&str> = some.iter().flat_map(|(_, one)| &one.colourways).map(String::as_str).collect();
        all.push(Fact::of(head::COLOURWAYS, Phrase::list(ways)));
    }
    if how.tilt.get() > 0.0 {
        let angle = format!("{}°", Cell::amount(how.tilt, 1, "").phrase());
        all.push(Fact::of(TILT, say!(AT_MOST, count = angle)));
    }
    if let Some(table) = how.table {
        all.push(Fact::of(TABLE, Cell::fixed(Number::new(table.get() / 1000.0), 1, "m")));
    }
    all
}

fn facts(one: &LayFigures) -> Vec<Fact> {
    let pieces = match one.layers {
        0 | 1 => one.pieces.into(),
        plies => say!(ON_EACH, pieces = one.pieces, plies),
    };
    let mut all = vec![Fact::of(PLY_LENGTH, known_metres(&one.length)), Fact::of(sheet::PIECES, pieces)];
    if one.mix.len() == 1 {
        all.push(Fact::of(FOR_ONE, known_metres(&one.per_product)));
    }
    all.push(Fact::of(BECOMES, Cell::figure(&one.used, |used| Cell::fixed(*used, 1, "%"))));
    if matches!(one.how.method, Method::Laser | Method::AutomaticKnife) {
        all.push(Fact::of(PATH, metres(one.path)));
    }
    if let Some(struck) = &one.struck {
        let strikes: u64 = struck.rows.iter().map(|row| row.strikes).sum();
        let rows = struck.rows.len();
        let struck_in = match struck.single {
            0 => say!(IN_ROWS, strikes, rows),
            single => say!(IN_ROWS_AND_SINGLE, strikes, rows, single),
        };
        all.push(Fact::of(STRIKES, struck_in));
        if one.mix.len() == 1 {
            all.push(Fact::of(FREELY, known_metres(&struck.free)));
        }
    }
    all
}

/// The dies that are made.
fn dies(view: &View<'_>) -> Vec<Vec<Cell>> {
    let narrow = |one: &Narrow| {
        let word = if one.tongue { TONGUE } else { GAP };
        say!(word, width = mm(one.width), length = mm(one.length))
    };
    let row = |die: &Die| {
        vec![
            Cell::from(&die.piece),
            if die.block { say!(BLOCK_DIE, cut = &die.cut).into() } else { Cell::from(&die.cut) },
            Cell::from(&die.size),
            Cell::count(die.dies),
            Cell::count(die.strikes),
            metres(die.rule),
            Phrase::row(die.narrow.iter().map(narrow), "; ").into(),
        ]
    };
    view.figures.dies.iter().map(row).collect()
}

fn spread(spread: Spread) -> Word {
    match spread {
        Spread::OneWay => ONE_WAY_UP,
        Spread::FaceToFace => FACE_TO_FACE,
        Spread::Folded => FOLDED,
    }
}

fn direction(direction: Direction) -> Word {
    match direction {
        Direction::OneWay => ONE_WAY,
        Direction::TwoWays => TWO_WAYS,
        Direction::AnyWay => ANY_WAY,
    }
}

fn method(method: Method) -> Word {
    match method {
        Method::HandKnife => HAND_KNIFE,
        Method::AutomaticKnife => AUTOMATIC_KNIFE,
        Method::Die => DIE,
        Method::Laser => LASER,
    }
}

/// A figure that is a length in metres.
fn known_metres(mm: &Figure<Number>) -> Cell {
    Cell::figure(mm, |mm| metres(*mm))
}

fn mm(value: Number) -> Phrase {
    Cell::amount(value, 1, "mm").phrase()
}

fn assumed(one: &LayFigures) -> Vec<Phrase> {
    if one.how.assumed.is_empty() {
        return Vec::new();
    }
    let what = one.how.assumed.iter().map(|(what, value)| say!(TAKEN, what = said(what), value = said(value)));
    vec![say!(ASSUMED, what = Phrase::list(what))]
}

fn surplus(one: &LayFigures) -> Option<Phrase> {
    let pieces = one.surplus.iter().map(|(piece, more)| format!("{piece} {more}"));
    (!one.surplus.is_empty()).then(|| say!(SURPLUS, pieces = Phrase::list(pieces)))
}
