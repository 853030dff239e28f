//! Cards of any size, packed on pages.

use crate::scene::{Scene, text_width};
use crate::words::{Languages, Phrase};

use super::package::{CARD_LEAST, ROW, ROW_GAP};
use super::placed::{Page, Placed};

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

/// A stretch of the lower edge of what lies on a page: from, to, how far down.
type Stretch = [f64; 3];

/// Cards of a width and a height on as few pages as their shapes allow: the tallest first, each as high up as it fits on the
/// first page that has room for it. One that is too tall for a page begins a page.
pub fn pages<T>(cards: impl IntoIterator<Item = ([f64; 2], T)>, height: f64) -> Vec<Page<T>> {
    pages_from(cards, height, height)
}

/// The same where the first page has less room, because something is above it.
pub fn pages_from<T>(cards: impl IntoIterator<Item = ([f64; 2], T)>, first: f64, height: f64) -> Vec<Page<T>> {
    let mut cards: Vec<([f64; 2], T)> = cards.into_iter().collect();
    cards.sort_by(|(a, _), (b, _)| b[1].total_cmp(&a[1]));
    let mut pages: Vec<(Vec<Stretch>, Page<T>)> = Vec::new();
    if first < height {
        pages.push(blank());
    }
    for (size, card) in cards {
        let room = |page: usize| if page == 0 { first } else { height };
        let found = pages.iter().enumerate().find_map(|(n, (edge, _))| Some((n, spot(edge, size, room(n))?)));
        let (page, at) = found.unwrap_or_else(|| {
            pages.push(blank());
            (pages.len() - 1, [0.0; 2])
        });
        if let Some((edge, page)) = pages.get_mut(page) {
            page.height = page.height.max(at[1] + size[1]);
            *edge = lowered(edge, [at[0], at[0] + size[0] + ROW_GAP, at[1] + size[1] + ROW_GAP]);
            page.cards.push(Placed { at, card });
        }
    }
    pages.into_iter().map(|(_, page)| page).collect()
}

/// A page without cards, with its edge.
fn blank<T>() -> (Vec<Stretch>, Page<T>) {
    (vec![[0.0, ROW, 0.0]], Page { height: 0.0, cards: Vec::new() })
}

/// The highest place for a card below an edge, and of places as high the leftmost.
fn spot(edge: &[Stretch], [width, height]: [f64; 2], most: f64) -> Option<[f64; 2]> {
    let places = edge.iter().map(|[x, ..]| {
        let under = edge.iter().filter(|[from, to, _]| *from < x + width && *to > *x);
        [*x, under.map(|[.., down]| *down).fold(0.0, f64::max)]
    });
    let fits = places.filter(|[x, y]| x + width <= ROW && y + height <= most);
    fits.min_by(|a, b| a[1].total_cmp(&b[1]).then(a[0].total_cmp(&b[0])))
}

/// The edge with one stretch moved down.
fn lowered(edge: &[Stretch], new: Stretch) -> Vec<Stretch> {
    let [left, right, _] = new;
    let kept = edge.iter().flat_map(|[from, to, down]| [[*from, to.min(left), *down], [from.max(right), *to, *down]]);
    let mut all: Vec<Stretch> = kept.filter(|[from, to, _]| to > from).collect();
    all.push([left, right.min(ROW), new[2]]);
    all.sort_by(|a, b| a[0].total_cmp(&b[0]));
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nothing lies over anything else or leaves its page, a low card goes below another one, and what does not fit goes on.
    #[test]
    fn pages_are_filled_from_above() {
        let sizes = [[120.0, 90.0], [100.0, 60.0], [60.0, 50.0], [160.0, 30.0], [250.0, 110.0], [30.0, 200.0]];
        let pages = pages(sizes.iter().enumerate().map(|(n, size)| (*size, n)), 120.0);
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
        assert_eq!(counts(pages_from(cards(50.0), 40.0, 120.0)), [1, 1]);
        assert_eq!(counts(pages_from(cards(50.0), 20.0, 120.0)), [0, 2]);
        assert_eq!(counts(pages_from(cards(30.0), 40.0, 120.0)), [2]);
    }
}
