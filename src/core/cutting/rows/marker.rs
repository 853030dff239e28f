//! How to lay the fabric: the lays of one product, each to scale.

use std::collections::BTreeSet;

use crate::compute::{Figure, Number, Task};
use crate::cutting::figures::dies::{Die, Narrow};
use crate::cutting::figures::{Direction, FOLD, IMAGE, LayFigures, mix_text};
use crate::model::{Cutting, Method, Spread, Variant};
use crate::scene::{Roll, lay_at, lay_size, ratio};
use crate::words::{Phrase, Word, head, number, say, sheet, words};

use crate::rows::cards::{self, in_order, page_height};
use crate::rows::cell::Cell;
use crate::rows::choice::said;
use crate::rows::data::{DieRow, LayCard, LayGroup, Marker, Sheet};
use crate::rows::package::{CARD_LEAST, Drawing, Fact, Head, ROW};
use crate::rows::placed::Page;
use crate::rows::view::{View, metres};

words! {
    LAID "marker.laid" = "{fabric}: {mix}";
    WIDTH "marker.width" = "Width laid";
    WIDTH_LESS "marker.width-less" = "{width} (cuttable {cuttable} less shrinkage)";
    WIDTH_HALF "marker.width-half" = "{width} (half of cuttable {cuttable} less shrinkage)";
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
    PRODUCTS "marker.products" = "Products on a ply";
    SHORTEST "marker.shortest-ply" = "Shortest ply";
    RESERVE "marker.reserve" = "Kept back of a roll";
    PLY_LENGTH "marker.ply-length" = "Length of a ply";
    ON_EACH "marker.on-each" = "{pieces} on each of {plies} plies";
    FOR_ONE "marker.for-one" = "Fabric for one product";
    BECOMES "marker.becomes" = "Becomes pieces";
    PATH "marker.path" = "Path of the cut";
    STRIKES "marker.strikes" = "Strikes";
    IN_ROWS "marker.in-rows" = "{strikes} in {rows} rows";
    IN_ROWS_AND_SINGLE "marker.in-rows-and-single" = "{strikes} in {rows} rows, {single} single";
    FREELY "marker.freely" = "Laid freely, for a knife";
    SERVES "marker.serves" = "that of {piece} {size}";
    BLOCK_DIE "marker.block-die" = "{cut}, its block";
    TONGUE "marker.tongue" = "tongue {width} wide over {length}";
    OF_SIZE "marker.of-size" = "{size}: {narrow}";
    GAP "marker.gap" = "gap {width} wide over {length}";
    ONE_WAY_UP "marker.one-way-up" = "One way, face up, cut at each end";
    FACE_TO_FACE "marker.face-to-face" = "Face to face";
    ROLL_TURNED "marker.roll-turned" = "Face to face, each ply cut off and the roll turned: pile runs one way";
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

/// Denominators of the scales that lays are drawn at, the largest drawing first.
pub(crate) const SCALES: [f64; 15] =
    [1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 200.0, 500.0, 1000.0];
/// Lays to a page, after the first one with its tables.
const PER_PAGE: usize = 6;
/// How much larger drawings must be to be worth a page more.
const MUCH: f64 = 1.6;
/// Height of a line, and of one of a title, mm.
const LINE: f64 = 3.1;
const TITLE_LINE: f64 = 3.8;
/// The size of its type, and of a title, pt.
const TYPE: f64 = 7.0;
const TITLE: f64 = 9.4;
/// Height of the head of the sheet, and of the head of a table, mm.
const HEADS: [f64; 2] = [14.0, 12.0];
/// Height of a row of dies, mm.
const DIE_ROW: f64 = 4.2;
/// Width of the names of fabrics, mm.
const FABRIC: f64 = 52.0;

/// A lay with its figures.
pub(crate) type Both<'v> = (&'v Task, &'v LayFigures);

/// One sheet with a card for every lay; none where nothing can be laid.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let both = laid(view);
    if both.is_empty() {
        return Vec::new();
    }
    let Tables { shared, columns, groups } = tables(view, &both);
    let dies = dies(view);
    let room = page_height(view) - above(view, &groups, dies.len());
    vec![Sheet::Marker(Marker {
        head: Head { title: sheet::MARKER_TITLE.into(), name: sheet::MARKER.into(), lead: sheet::MARKER_LEAD.into() },
        shared,
        columns,
        groups,
        pages: packed(view, &both, room),
        sizes: view.sizes().into_iter().map(str::to_string).collect(),
        dies,
    })]
}

/// The lays there are, fabric by fabric.
pub(crate) fn laid<'v>(view: &View<'v>) -> Vec<Both<'v>> {
    let both = view.lays.tasks.iter().zip(&view.figures.lays);
    let mut both: Vec<Both<'_>> = both.filter(|(task, _)| task.lay.is_some()).collect();
    // Sizes of one fabric follow each other, in the order of the product.
    let sizes = view.sizes();
    let place = |figures: &LayFigures| -> Vec<usize> {
        sizes.iter().enumerate().filter(|(_, size)| figures.mix.contains_key(**size)).map(|(at, _)| at).collect()
    };
    both.sort_by_key(|(task, figures)| {
        (figures.fabric.clone(), task.materials.clone(), figures.mix.len(), place(figures))
    });
    both
}

/// How fabrics are laid: what holds for all, and a row each of what does not.
pub(crate) struct Tables {
    /// What holds for all.
    pub shared: Vec<Fact>,
    /// The heads of what does not.
    pub columns: Vec<Phrase>,
    /// The rows.
    pub groups: Vec<LayGroup>,
}

/// The tables of some lays, those of a fabric behind each other.
pub(crate) fn tables(view: &View<'_>, both: &[Both<'_>]) -> Tables {
    let same = |(a, one): &Both<'_>, (b, other): &Both<'_>| one.fabric == other.fabric && a.materials == b.materials;
    let some: Vec<&[Both<'_>]> = both.chunk_by(same).collect();
    let facts: Vec<Vec<Fact>> = some.iter().map(|some| how_cut(view, some)).collect();
    let (shared, columns) = apart(&facts);
    let groups = some.iter().zip(&facts).map(|(some, facts)| group(view, some, facts, &columns)).collect();
    Tables { shared, columns, groups }
}

/// What is the same for all fabrics, and the heads of what is not, in the order in which they come.
fn apart(all: &[Vec<Fact>]) -> (Vec<Fact>, Vec<Phrase>) {
    let mut columns: Vec<Phrase> = Vec::new();
    for fact in all.iter().flatten() {
        if !columns.contains(&fact.label) {
            columns.push(fact.label.clone());
        }
    }
    let shared: Vec<Fact> = match all {
        [first, rest @ ..] => {
            first.iter().filter(|fact| rest.iter().all(|other| other.contains(fact))).cloned().collect()
        }
        [] => Vec::new(),
    };
    columns.retain(|label| shared.iter().all(|fact| fact.label != *label));
    (shared, columns)
}

/// The height of what is above the lays on the first page, mm.
pub(crate) fn above(view: &View<'_>, groups: &[LayGroup], dies: usize) -> f64 {
    let lines = |text: &Phrase, width: f64| cards::lines(text, view.model.style.languages, TYPE, width) * LINE;
    let group = |one: &LayGroup| {
        let notes: f64 = one.notes.iter().map(|note| lines(note, ROW - FABRIC)).sum();
        // The first column is wider.
        let column = (ROW - FABRIC) / (one.cells.len() + 1) as f64;
        let wide = |n: usize| if n == 0 { 1.6 * column } else { column };
        let cells = one.cells.iter().enumerate().map(|(n, cell)| lines(&cell.phrase(), wide(n)));
        let cells = cells.fold(2.0 * LINE, f64::max);
        lines(&one.title, FABRIC).max(cells) + notes + 2.0
    };
    let dies = if dies == 0 { 0.0 } else { HEADS[1] + dies as f64 * DIE_ROW };
    HEADS[0] + HEADS[1] + groups.iter().map(group).sum::<f64>() + dies
}

/// How a lay is drawn: which way its roll runs, the denominator of its scale.
type How = (Roll, f64);

/// All lays at one scale with their rolls one way: the largest scale at which a page holds [`PER_PAGE`]; with one page more where
/// that draws them much larger.
fn packed(view: &View<'_>, both: &[Both<'_>], first: f64) -> Vec<Page<LayCard>> {
    let texts: Vec<LayCard> = both.iter().map(|one| told(view, both, one)).collect();
    let sized = |how: How| {
        let one = |((task, _), card): (&Both<'_>, &LayCard)| {
            let drawn = task.lay.as_ref().map_or([0.0; 2], |found| lay_size(&task.instance, found, how));
            size(view, card, drawn).0
        };
        both.iter().zip(&texts).map(one).enumerate().map(|(n, size)| (size, n)).collect::<Vec<_>>()
    };
    let height = page_height(view);
    let ways = SCALES.into_iter().flat_map(|scale| [(Roll::Across, scale), (Roll::Down, scale)]);
    let fits = |sizes: &[([f64; 2], usize)]| sizes.iter().all(|([w, h], _)| *w <= ROW && *h <= height);
    let all = ways.map(|how| (how, sized(how))).filter(|(_, sizes)| fits(sizes));
    let all: Vec<(How, Vec<Page<usize>>)> = all.map(|(how, sizes)| (how, in_order(sizes, first, height))).collect();
    let on = |most: usize| all.iter().find(|(_, pages)| pages.len() <= most);
    let most = 1 + both.len() / PER_PAGE;
    let Some(larger) = on(most + 1) else { return Vec::new() };
    let (how, pages) = on(most).filter(|((_, scale), _)| *scale <= larger.0.1 * MUCH).unwrap_or(larger).clone();
    let drawn = |n: usize| both.get(n).zip(texts.get(n)).map(|(one, card)| drawn(view, one, card.clone(), how));
    pages.into_iter().map(|page| page.filter_map(drawn)).collect()
}

/// Width and height of a card with a drawing of a size, and the height of its text.
pub(crate) fn size(view: &View<'_>, card: &LayCard, drawn: [f64; 2]) -> ([f64; 2], f64) {
    let width = drawn[0].max(CARD_LEAST);
    let lines = |text: &Phrase, type_size: f64| cards::lines(text, view.model.style.languages, type_size, width);
    let facts = card
        .facts
        .iter()
        .map(|line| Phrase::row(line.iter().flat_map(|fact| [fact.label.clone(), fact.value.phrase()]), "  "));
    let notes: f64 = facts.chain([card.legend.clone()]).map(|text| lines(&text, TYPE)).sum();
    let top = lines(&card.title, TITLE) * TITLE_LINE + notes * LINE + 1.0;
    ([width, top + drawn[1]], top)
}

/// What is said of a lay.
fn told(view: &View<'_>, both: &[Both<'_>], (task, figures): &Both<'_>) -> LayCard {
    let numbered = task.instance.pieces.iter().enumerate();
    let name = short(view, &(task, figures));
    // Two fabrics may have one role, each in its colourway.
    let alone = both.iter().all(|(a, one)| one.fabric == figures.fabric || short(view, &(a, one)) != name);
    let fabric = if alone { name } else { view.fabric_title(&task.bought.article, &task.materials) };
    LayCard {
        title: say!(LAID, fabric, mix = mix_text(&figures.mix)),
        facts: facts(figures),
        legend: Phrase::list(numbered.map(|(number, piece)| {
            view.marked(&["piece"], code_of(&piece.id), format!("{} {}", number + 1, piece.id))
        })),
        ..LayCard::default()
    }
}

/// The code of the piece in its name in a lay, `FOOT` of `FOOT′` or of `FOOT lining`.
fn code_of(id: &str) -> &str {
    id.split(' ').next().unwrap_or(id).trim_end_matches([IMAGE, FOLD])
}

/// What the fabric of a lay is called for short.
pub(crate) fn short(view: &View<'_>, (task, figures): &Both<'_>) -> Phrase {
    let roles: Vec<String> = task.materials.iter().map(|one| view.material(one)).collect();
    if roles.is_empty() { Phrase::from(view.material(&figures.fabric)) } else { Phrase::list(roles) }
}

/// The card of a lay with its drawing.
fn drawn(view: &View<'_>, (task, figures): &Both<'_>, card: LayCard, how: How) -> LayCard {
    let drawing = task.lay.as_ref().map(|found| {
        let texts = extent(figures).map(|text| text.english());
        let (lines, scene) = lay_at(&task.instance, found, how, [&texts[0], &texts[1]]).parted();
        Drawing { lines: Some(lines), ..Drawing::of(scene, "") }
    });
    let paper = drawing.as_ref().map_or([0.0; 2], |one| [one.scene.width, one.scene.height]);
    let ([width, _], top) = size(view, &card, paper);
    LayCard { width, top, drawing, scale: ratio(how.1), ..card }
}

/// What the lays of one fabric share, in the columns of the sheet.
fn group(view: &View<'_>, some: &[Both<'_>], facts: &[Fact], columns: &[Phrase]) -> LayGroup {
    let Some((task, first)) = some.first() else { return LayGroup::default() };
    let mut notes = assumed(first);
    notes.extend(
        stated(view, first).map(|one| view.text(one.note.as_ref()).into()).filter(|note: &Phrase| !note.is_empty()),
    );
    notes.extend(some.iter().filter_map(|(_, figures)| surplus(figures)));
    let cell =
        |label: &Phrase| facts.iter().find(|fact| fact.label == *label).map_or(Cell::Dash, |fact| fact.value.clone());
    let cells = columns.iter().map(cell).collect();
    LayGroup { title: view.fabric_title(&task.bought.article, &task.materials), cells, notes }
}

/// The `[cutting]` that speaks of the fabric of a lay.
fn stated<'v>(view: &'v View<'_>, one: &LayFigures) -> Option<&'v Cutting> {
    view.model.cuttings.get(one.how.cutting.as_ref()?)
}

/// What holds for every lay of a fabric.
fn how_cut(view: &View<'_>, some: &[Both<'_>]) -> Vec<Fact> {
    let Some((task, one)) = some.first() else { return Vec::new() };
    let how = &one.how;
    let mut all = vec![
        Fact::of(WIDTH, width(view, task, one)),
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
        let height = stated.height.as_ref().and_then(|height| height.known());
        all.extend(height.map(|height| Fact::of(HEIGHT, number::quantity(height))));
    }
    if let Some(table) = how.table {
        all.push(Fact::of(TABLE, Cell::fixed(Number::new(table.get() / 1000.0), 1, "m")));
    }
    all.extend(how.products.map(|count| Fact::of(PRODUCTS, say!(AT_MOST, count))));
    all.extend(how.shortest_ply.map(|length| Fact::of(SHORTEST, mm(length))));
    all.extend(how.reserve.map(|reserve| Fact::of(RESERVE, mm(reserve))));
    if how.method == Method::Laser {
        all.push(Fact::of(CUT_FROM, BACK));
    }
    if how.tilt.get() > 0.0 {
        let angle = format!("{}°", Cell::amount(how.tilt, 1, "").phrase());
        all.push(Fact::of(TILT, say!(AT_MOST, count = angle)));
    }
    if view.model.colourways.len() > 1 {
        let ways: BTreeSet<&str> = some.iter().flat_map(|(_, one)| &one.colourways).map(String::as_str).collect();
        all.push(Fact::of(head::COLOURWAYS, Phrase::list(ways)));
    }
    if let Some(stated) = stated(view, one) {
        all.extend(stated.entry.name.as_ref().map(|name| Fact::of(LAID_BY, &name.value)));
    }
    all
}

/// The width that is laid, with that of the fabric where shrinkage makes it narrower.
fn width(view: &View<'_>, task: &Task, one: &LayFigures) -> Cell {
    let laid = Cell::fixed(one.width, 0, "mm");
    let size = one.mix.keys().next().map_or("", String::as_str);
    let variant = Variant { size, colourway: one.colourways.first().map_or("", String::as_str) };
    let article = view.model.articles.get(&task.bought.article);
    let cuttable = article.and_then(|fabric| fabric.quantity("cuttable-width")?.known(variant));
    let Some(cuttable) = cuttable.map(|width| width.si_f64() * 1000.0) else { return laid };
    let folded = one.how.spread == Spread::Folded;
    let whole = if folded { 2.0 * one.width.get() } else { one.width.get() };
    if cuttable - whole < 0.5 {
        return laid;
    }
    let word = if folded { WIDTH_HALF } else { WIDTH_LESS };
    say!(word, width = laid.phrase(), cuttable = Cell::fixed(Number::new(cuttable), 0, "mm").phrase()).into()
}

/// What is said of one lay, a line each: its ply; how well it is used and how it is cut.
pub(crate) fn facts(one: &LayFigures) -> Vec<Vec<Fact>> {
    let pieces = match one.layers {
        0 | 1 => one.pieces.into(),
        plies => say!(ON_EACH, pieces = one.pieces, plies),
    };
    let mut ply = vec![Fact::of(PLY_LENGTH, ply_length(one)), Fact::of(sheet::PIECES, pieces)];
    let mut used = vec![Fact::of(BECOMES, Cell::figure(&one.used, |used| Cell::fixed(*used, 1, "%")))];
    if one.mix.len() == 1 {
        used.push(Fact::of(FOR_ONE, known_metres(&one.per_product)));
    }
    if matches!(one.how.method, Method::Laser | Method::AutomaticKnife) {
        ply.push(Fact::of(PATH, metres(one.path)));
    }
    let mut all = vec![ply, used];
    if let Some(struck) = &one.struck {
        let strikes: u64 = struck.rows.iter().map(|row| row.strikes).sum();
        let rows = struck.rows.len();
        let struck_in = match struck.single {
            0 => say!(IN_ROWS, strikes, rows),
            single => say!(IN_ROWS_AND_SINGLE, strikes, rows, single),
        };
        let mut struck_facts = vec![Fact::of(STRIKES, struck_in)];
        if one.mix.len() == 1 && struck.free.known().is_some() {
            struck_facts.push(Fact::of(FREELY, known_metres(&struck.free)));
        }
        all.push(struck_facts);
    }
    all
}

/// The dies that are made: a row a cut, its sizes side by side.
fn dies(view: &View<'_>) -> Vec<DieRow> {
    let sizes = view.sizes();
    let mut rows: Vec<(bool, DieRow)> = Vec::new();
    for die in &view.figures.dies {
        let Some(column) = sizes.iter().position(|size| *size == die.size) else { continue };
        let found = rows
            .iter()
            .position(|(block, row)| *block == die.block && row.piece == die.piece && row.cut == cut_of(view, die));
        let at = found.unwrap_or_else(|| {
            let by = vec![[Cell::Dash, Cell::Dash, Cell::Dash]; sizes.len()];
            rows.push((
                die.block,
                DieRow { piece: die.piece.clone(), cut: cut_of(view, die), by, narrow: Phrase::none() },
            ));
            rows.len() - 1
        });
        let Some((_, row)) = rows.get_mut(at) else { continue };
        let narrow = Phrase::row(die.narrow.iter().map(narrow), "; ");
        if !narrow.is_empty() {
            let said = if sizes.len() > 1 { say!(OF_SIZE, size = &die.size, narrow) } else { narrow };
            row.narrow = Phrase::row([row.narrow.clone(), said], "; ");
        }
        if let Some(cells) = row.by.get_mut(column) {
            let rule = Cell::fixed(Number::new(die.rule.get() / 1000.0), 3, "");
            // Where a die that is named before serves, that one is told.
            let made = match &die.same {
                Some(same) if die.dies == 0 => say!(SERVES, piece = &same.piece, size = &same.size).into(),
                _ => Cell::count(die.dies),
            };
            *cells = [made, Cell::count(die.strikes), rule];
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// The cut of a die, marked where its piece changed.
fn cut_of(view: &View<'_>, die: &Die) -> Phrase {
    let cut = if die.block { say!(BLOCK_DIE, cut = &die.cut) } else { (&die.cut).into() };
    view.marked(&["piece"], &die.piece, cut)
}

fn narrow(one: &Narrow) -> Phrase {
    let word = if one.tongue { TONGUE } else { GAP };
    say!(word, width = mm(one.width), length = mm(one.length))
}

fn spread(spread: Spread) -> Word {
    match spread {
        Spread::OneWay => ONE_WAY_UP,
        Spread::FaceToFace => FACE_TO_FACE,
        Spread::Turned => ROLL_TURNED,
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
pub(crate) fn known_metres(mm: &Figure<Number>) -> Cell {
    Cell::figure(mm, |mm| metres(*mm))
}

/// Length of a ply and width laid: a length that is taken is rounded up to a millimetre, a width that there is down.
pub(crate) fn extent(one: &LayFigures) -> [Phrase; 2] {
    [ply_length(one).phrase(), number::mm(to_millimetre(one.width, f64::floor).get(), 0).into()]
}

fn ply_length(one: &LayFigures) -> Cell {
    Cell::figure(&one.length, |length| metres(to_millimetre(*length, f64::ceil)))
}

/// A length in whole millimetres; what is less than a thousandth off one is that one.
fn to_millimetre(length: Number, way: fn(f64) -> f64) -> Number {
    let micro = (length.get() * 1e3).round();
    Number::new(way(micro / 1e3))
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
