//! Cards of any size, packed on pages.

use crate::scene::{Scene, Skyline, text_width};
use crate::words::{Languages, Phrase};

use super::package::{CARD_LEAST, CARDS_HEIGHT, PAPER, ROW, ROW_GAP};
use super::placed::{Page, Placed};
use super::view::View;

/// Height of the pages of a package, mm.
pub fn page_height(view: &View<'_>) -> f64 {
    CARDS_HEIGHT + if view.has_notice() { 0.0 } else { PAPER.notice }
}

/// The width of the card of a drawing, mm.
pub fn width(scene: Option<&Scene>) -> f64 {
    scene.map_or(CARD_LEAST, |scene| scene.width.ceil().clamp(CARD_LEAST, ROW))
}

/// Height of the first line of a card and of each below it, mm.
pub const LINES: [f64; 2] = [5.0, 3.6];

/// Widths are of the built-in type; breaks between words leave some of a line empty.
const LOOSE: f64 = 1.1;

/// Lines that a text takes on a width in mm, in the languages of the package, at a type size in points.
pub fn lines(text: &Phrase, languages: Languages, size: f64, width: f64) -> f64 {
    let said = [Some(text.in_language(languages.first)), text.second(languages)];
    let one = |line: &str| (text_width(line, size, false) * LOOSE / width).ceil().max(1.0);
    said.iter().flatten().flat_map(|text| text.lines()).map(one).sum()
}

/// Exchanges that are tried at most from each order to begin with.
const TRIES: usize = 1_500;

/// Cards of a width and a height on as few pages as are found: the tallest, the largest or the widest first, each as high up
/// as it fits on the first page that has room for it; then with two of them in each other's place, as long as that fills some
/// pages and empties another. One that is too tall for a page begins a page. The first page may have less room, because
/// something is above it.
pub fn pages<T>(cards: impl IntoIterator<Item = ([f64; 2], T)>, first: f64, height: f64) -> Vec<Page<T>> {
    let cards: Vec<([f64; 2], T)> = cards.into_iter().collect();
    let sizes: Vec<[f64; 2]> = cards.iter().map(|(size, _)| *size).collect();
    let placed = best(&sizes, Rooms { first, height });
    paged(cards, placed)
}

/// The same in the order in which they come, unless another needs fewer pages.
pub fn in_order<T>(cards: impl IntoIterator<Item = ([f64; 2], T)>, first: f64, height: f64) -> Vec<Page<T>> {
    let cards: Vec<([f64; 2], T)> = cards.into_iter().collect();
    let sizes: Vec<[f64; 2]> = cards.iter().map(|(size, _)| *size).collect();
    let rooms = Rooms { first, height };
    let order: Vec<usize> = (0..sizes.len()).collect();
    let (given, best) = (packed(&sizes, &order, rooms), best(&sizes, rooms));
    let placed = if left_over(&sizes, &given).0 <= left_over(&sizes, &best).0 { given } else { best };
    paged(cards, placed)
}

/// Cards at their places, page by page.
fn paged<T>(cards: Vec<([f64; 2], T)>, placed: Places) -> Vec<Page<T>> {
    let count = placed.iter().map(|(page, _)| page + 1).max().unwrap_or(0);
    let mut pages: Vec<Page<T>> = (0..count).map(|_| Page { height: 0.0, cards: Vec::new() }).collect();
    for ((size, card), (page, at)) in cards.into_iter().zip(placed) {
        if let Some(page) = pages.get_mut(page) {
            page.height = page.height.max(at[1] + size[1]);
            page.cards.push(Placed { at, card });
        }
    }
    pages
}

/// The heights of the pages that boxes are packed on, mm.
#[derive(Clone, Copy)]
struct Rooms {
    /// Of the first one, which may be lower.
    first: f64,
    /// Of each after it.
    height: f64,
}

impl Rooms {
    fn of(self, page: usize) -> f64 {
        if page == 0 { self.first } else { self.height }
    }

    /// Whether the first page takes less than the others, so that a box may have to go on at once.
    fn uneven(self) -> bool {
        self.first < self.height
    }
}

/// The page and the place of each box, in their order.
type Places = Vec<(usize, [f64; 2])>;

/// The best places found.
fn best(sizes: &[[f64; 2]], rooms: Rooms) -> Places {
    let measures: [fn(&[f64; 2]) -> f64; 3] = [|size| size[1], |size| size[0] * size[1], |size| size[0]];
    let starts = measures.iter().map(|measure| {
        let mut order: Vec<usize> = (0..sizes.len()).collect();
        order.sort_by(|a, b| measure(&sizes[*b]).total_cmp(&measure(&sizes[*a])));
        exchanged(sizes, order, rooms)
    });
    starts.min_by_key(|placed| left_over(sizes, placed)).unwrap_or_default()
}

/// The places of an order, after exchanges that fill some pages and empty another.
fn exchanged(sizes: &[[f64; 2]], mut order: Vec<usize>, rooms: Rooms) -> Places {
    let mut found = packed(sizes, &order, rooms);
    let mut least = left_over(sizes, &found);
    let pairs = (0..sizes.len()).flat_map(|a| (a + 1..sizes.len()).map(move |b| (a, b)));
    for (a, b) in pairs.cycle().take(if least.0 > 1 { TRIES } else { 0 }) {
        order.swap(a, b);
        let other = packed(sizes, &order, rooms);
        let left = left_over(sizes, &other);
        if left < least {
            (found, least) = (other, left);
        } else {
            order.swap(a, b);
        }
    }
    found
}

/// How many pages there are, and how evenly they are filled: the square of the area of all boxes less those of each page, mm⁴.
/// The less, the more pages are full and the emptier is another, which may then go.
fn left_over(sizes: &[[f64; 2]], placed: &Places) -> (usize, u64) {
    let pages = placed.iter().map(|(page, _)| page + 1).max().unwrap_or(0);
    let mut filled = vec![0.0; pages];
    for ((page, _), [width, height]) in placed.iter().zip(sizes) {
        if let Some(filled) = filled.get_mut(*page) {
            *filled += width * height;
        }
    }
    let all: f64 = filled.iter().sum();
    (pages, (all * all - filled.iter().map(|one| one * one).sum::<f64>()) as u64)
}

/// Boxes in an order, each on the first page that has room for it.
fn packed(sizes: &[[f64; 2]], order: &[usize], rooms: Rooms) -> Places {
    let mut pages: Vec<Skyline> = rooms.uneven().then(|| Skyline::new(ROW)).into_iter().collect();
    let mut placed = vec![(0, [0.0; 2]); sizes.len()];
    for n in order {
        let (Some(size), Some(place)) = (sizes.get(*n), placed.get_mut(*n)) else { continue };
        let spot = pages.iter().enumerate().find_map(|(page, edge)| Some((page, edge.spot(*size, rooms.of(page))?)));
        *place = spot.unwrap_or((pages.len(), [0.0; 2]));
        if pages.len() == place.0 {
            pages.push(Skyline::new(ROW));
        }
        if let Some(edge) = pages.get_mut(place.0) {
            edge.take(place.1, size.map(|side| side + ROW_GAP));
        }
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nothing lies over anything else or leaves its page, a low card goes below another one, and what does not fit goes on.
    #[test]
    fn pages_are_filled_from_above() {
        let sizes = [[120.0, 90.0], [100.0, 60.0], [60.0, 50.0], [160.0, 30.0], [250.0, 110.0], [30.0, 200.0]];
        let pages = pages(sizes.iter().enumerate().map(|(n, size)| (*size, n)), 120.0, 120.0);
        let mut seen = Vec::new();
        for page in &pages {
            for (n, one) in page.cards.iter().enumerate() {
                let size = sizes[one.card];
                assert!(one.at[0] + size[0] <= ROW && (one.at[1] + size[1] <= 120.0 || size[1] > 120.0), "{one:?}");
                for other in page.cards.iter().skip(n + 1) {
                    let apart = |axis: usize| {
                        one.at[axis] + size[axis] <= other.at[axis]
                            || other.at[axis] + sizes[other.card][axis] <= one.at[axis]
                    };
                    assert!(apart(0) || apart(1), "{one:?} {other:?}");
                }
                seen.push(one.card);
            }
        }
        seen.sort_unstable();
        assert_eq!((seen, pages.len()), ((0..6).collect(), 3));
        let low = pages.iter().flat_map(|page| &page.cards).find(|one| one.card == 3).map(|one| one.at);
        assert_eq!(low, Some([0.0, 64.0]), "below the card that is 60 high");
    }

    /// The first page takes what fits below what is above it, and may hold nothing.
    #[test]
    fn a_first_page_may_have_less_room() {
        let cards = |high: f64| [([120.0, high], 0), ([120.0, 30.0], 1)];
        let counts = |pages: Vec<Page<usize>>| pages.iter().map(|page| page.cards.len()).collect::<Vec<_>>();
        assert_eq!(counts(pages(cards(50.0), 40.0, 120.0)), [1, 1]);
        assert_eq!(counts(pages(cards(50.0), 20.0, 120.0)), [0, 2]);
        assert_eq!(counts(pages(cards(30.0), 40.0, 120.0)), [2]);
    }
}
