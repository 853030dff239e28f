//! A PDF as other software sees it: read by `hayro-syntax`, which shares no code with what wrote it. Numbers of
//! clauses are those of ISO 32000-1.

use std::collections::BTreeMap;

use hayro_syntax::content::ops::TypedInstruction as Op;
use hayro_syntax::object::{Array, Dict, MaybeRef, Name, Object, Rect, Stream};
use hayro_syntax::page::{Page, Resources};

pub type Matrix = [f64; 6];
pub type Point = [f64; 2];

const SAME: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

/// A file embedded in the document.
#[derive(Debug, PartialEq)]
pub struct Attached {
    pub mime: String,
    pub relationship: String,
    pub description: String,
    pub bytes: Vec<u8>,
}

/// What one page shows.
#[derive(Debug, Default)]
pub struct Shown {
    /// Page width and height, points.
    pub size: Point,
    /// The characters in painting order, a line feed after each text object.
    pub text: String,
    /// Corners of each subpath that is painted, in points from the lower left corner of the page; curves left out.
    pub paths: Vec<Vec<Point>>,
    /// Characters that the font has no Unicode value for.
    pub unknown: usize,
}

impl Shown {
    /// The text without white space: where a line breaks does not matter.
    pub fn squeezed(&self) -> String {
        squeeze(&self.text)
    }
}

pub fn squeeze(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

pub struct Pdf(hayro_syntax::Pdf);

impl Pdf {
    pub fn of(bytes: &[u8]) -> Self {
        Pdf(hayro_syntax::Pdf::new(bytes.to_vec()).unwrap_or_else(|error| panic!("no PDF: {error:?}")))
    }

    pub fn catalog(&self) -> Dict<'_> {
        self.0.xref().get(self.0.xref().root_id()).unwrap()
    }

    pub fn version(&self) -> hayro_syntax::PdfVersion {
        self.0.version()
    }

    /// The metadata stream (14.3.2).
    pub fn xmp(&self) -> String {
        let stream: Stream<'_> = self.catalog().get("Metadata").unwrap();
        String::from_utf8(stream.decoded().unwrap().into_owned()).unwrap()
    }

    pub fn pages(&self) -> Vec<Shown> {
        self.0.pages().iter().map(page).collect()
    }

    /// Embedded files by name: those of the name tree (7.11.4), which must be the associated ones too.
    pub fn attachments(&self) -> BTreeMap<String, Attached> {
        let catalog = self.catalog();
        let names: Dict<'_> = catalog.get("Names").unwrap();
        let mut found = BTreeMap::new();
        leaves(&names.get("EmbeddedFiles").unwrap(), &mut found);
        let associated: Array<'_> = catalog.get("AF").expect("PDF/A-3 wants associated files");
        assert_eq!(associated.iter::<Dict<'_>>().count(), found.len(), "embedded files that nothing refers to");
        found
    }

    /// Titles of the bookmarks (12.3.3), in order, each with its depth from 0.
    pub fn bookmarks(&self) -> Vec<(usize, String)> {
        let mut found = Vec::new();
        items(&self.catalog().get("Outlines").unwrap(), 0, &mut found);
        found
    }

    /// Structure elements (14.7.2) in reading order: type and alternative text.
    pub fn structure(&self) -> Vec<(String, String)> {
        let mut found = Vec::new();
        elements(&self.catalog().get("StructTreeRoot").unwrap(), &mut found);
        found
    }

    /// Every stream of the file, pictures and fonts too: as it stands and, where it can be, unpacked.
    pub fn streams(&self) -> Vec<Vec<u8>> {
        let streams = self.0.objects().into_iter().filter_map(|object| match object {
            Object::Stream(stream) => Some(stream),
            _ => None,
        });
        streams
            .flat_map(|stream| {
                let packed = stream.raw_data().into_owned();
                std::iter::once(packed).chain(stream.decoded().ok().map(|bytes| bytes.into_owned()))
            })
            .collect()
    }

    /// Every string and every decoded stream of the file that is no picture and no font: whatever could hold a word.
    pub fn everything(&self) -> Vec<String> {
        let mut found = Vec::new();
        self.0.objects().into_iter().for_each(|object| words(&object, &mut found));
        found
    }
}

/// A text string (7.9.2.2): UTF-16 with its mark, or one byte a character, ASCII here.
fn string(bytes: &[u8]) -> String {
    match bytes.strip_prefix(&[0xfe, 0xff]) {
        Some(rest) => utf16(rest),
        None => bytes.iter().map(|&byte| char::from(byte)).collect(),
    }
}

fn utf16(bytes: &[u8]) -> String {
    let units: Vec<u16> = bytes.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
    String::from_utf16_lossy(&units)
}

fn leaves(node: &Dict<'_>, found: &mut BTreeMap<String, Attached>) {
    for kid in node.get::<Array<'_>>("Kids").iter().flat_map(|kids| kids.iter::<Dict<'_>>()) {
        leaves(&kid, found);
    }
    let names: Vec<Object<'_>> = node.get::<Array<'_>>("Names").iter().flat_map(|list| list.iter()).collect();
    for pair in names.chunks(2) {
        let [Object::String(_), Object::Dict(file)] = pair else { panic!("a name tree that is none: {pair:?}") };
        let (name, attached) = attached(file);
        assert!(found.insert(name, attached).is_none(), "two embedded files have one name");
    }
}

fn attached(file: &Dict<'_>) -> (String, Attached) {
    let text = |key: &str| string(&file.get::<hayro_syntax::object::String<'_>>(key).unwrap());
    let stream: Stream<'_> = file.get::<Dict<'_>>("EF").unwrap().get("F").unwrap();
    let name = |dict: &Dict<'_>, key: &str| dict.get::<Name<'_>>(key).unwrap().as_str().to_owned();
    let bytes = stream.decoded().unwrap().into_owned();
    let size: Option<i32> = stream.dict().get::<Dict<'_>>("Params").and_then(|dict| dict.get("Size"));
    assert_eq!(size, Some(i32::try_from(bytes.len()).unwrap()), "the stated size of an embedded file");
    let relationship = name(file, "AFRelationship");
    (text("UF"), Attached { mime: name(stream.dict(), "Subtype"), relationship, description: text("Desc"), bytes })
}

fn items(parent: &Dict<'_>, depth: usize, found: &mut Vec<(usize, String)>) {
    let mut next: Option<Dict<'_>> = parent.get("First");
    while let Some(item) = next {
        found.push((depth, string(&item.get::<hayro_syntax::object::String<'_>>("Title").unwrap())));
        items(&item, depth + 1, found);
        next = item.get("Next");
    }
}

fn elements(parent: &Dict<'_>, found: &mut Vec<(String, String)>) {
    let kids: Vec<Object<'_>> = match parent.get::<Object<'_>>("K") {
        Some(Object::Array(list)) => list.iter().collect(),
        other => other.into_iter().collect(),
    };
    for kid in kids.into_iter().filter_map(Object::into_dict) {
        if let Some(role) = kid.get::<Name<'_>>("S") {
            let alt = kid.get::<hayro_syntax::object::String<'_>>("Alt");
            found.push((role.as_str().to_owned(), alt.map_or(String::new(), |text| string(text.as_bytes()))));
        }
        elements(&kid, found);
    }
}

fn words(object: &Object<'_>, found: &mut Vec<String>) {
    match object {
        Object::String(text) => found.push(string(text)),
        Object::Name(name) => found.push(name.as_str().to_owned()),
        Object::Array(list) => list.raw_iter().for_each(|one| direct(one, found)),
        Object::Dict(dict) => dict.entries().for_each(|(_, one)| direct(one, found)),
        Object::Stream(stream) => {
            stream.dict().entries().for_each(|(_, one)| direct(one, found));
            let picture = stream.dict().get::<Name<'_>>("Subtype").is_some_and(|kind| kind.as_str() == "Image");
            if !picture {
                let bytes = stream.decoded().unwrap_or_else(|error| panic!("a stream cannot be decoded: {error:?}"));
                found.push(String::from_utf8_lossy(&bytes).into_owned());
            }
        }
        Object::Null(_) | Object::Boolean(_) | Object::Number(_) => {}
    }
}

/// What stands here itself; what is referred to is an object of the file and comes by itself.
fn direct(one: MaybeRef<Object<'_>>, found: &mut Vec<String>) {
    if let MaybeRef::NotRef(object) = one {
        words(&object, found);
    }
}

fn page(page: &Page<'_>) -> Shown {
    let Rect { x0, y0, x1, y1 } = page.media_box();
    let mut painter = Painter { shown: Shown { size: [x1 - x0, y1 - y0], ..Shown::default() }, ..Painter::new() };
    painter.shift = [-x0, -y0];
    painter.run(page.page_stream().unwrap_or_default(), page.resources(), SAME);
    painter.shown
}

/// Follows the operators of a content stream (8.4, 8.5, 9.4).
struct Painter {
    shown: Shown,
    shift: Point,
    fonts: BTreeMap<Vec<u8>, BTreeMap<u32, String>>,
    open: Vec<Vec<Point>>,
}

impl Painter {
    fn new() -> Self {
        Painter { shown: Shown::default(), shift: [0.0; 2], fonts: BTreeMap::new(), open: Vec::new() }
    }

    fn run(&mut self, stream: &[u8], resources: &Resources<'_>, start: Matrix) {
        let (mut now, mut kept) = (start, Vec::new());
        let mut font: BTreeMap<u32, String> = BTreeMap::new();
        let mut list = hayro_syntax::content::TypedIter::new(stream);
        while let Some(op) = list.next() {
            match op {
                Op::SaveState(_) => kept.push((now, font.clone())),
                Op::RestoreState(_) => (now, font) = kept.pop().expect("a restore without its save"),
                Op::Transform(t) => now = times(now, [t.0, t.1, t.2, t.3, t.4, t.5].map(|n| n.as_f64())),
                Op::MoveTo(p) => self.open.push(vec![self.at(now, p.0.as_f64(), p.1.as_f64())]),
                Op::LineTo(p) => self.to(now, p.0.as_f64(), p.1.as_f64()),
                Op::CubicTo(p) => self.to(now, p.4.as_f64(), p.5.as_f64()),
                Op::CubicStartTo(p) => self.to(now, p.2.as_f64(), p.3.as_f64()),
                Op::CubicEndTo(p) => self.to(now, p.2.as_f64(), p.3.as_f64()),
                Op::EndPath(_) => self.open.clear(),
                Op::StrokePath(_)
                | Op::CloseAndStrokePath(_)
                | Op::FillPathNonZero(_)
                | Op::FillPathEvenOdd(_)
                | Op::FillAndStrokeNonZero(_)
                | Op::FillAndStrokeEvenOdd(_) => self.shown.paths.append(&mut self.open),
                Op::TextFont(f) => font = self.font(resources, f.0),
                Op::ShowText(t) => self.show(&font, t.0),
                Op::ShowTexts(t) => {
                    t.0.iter::<Object<'_>>()
                        .filter_map(Object::into_string)
                        .for_each(|s| self.show(&font, s.as_bytes()));
                }
                Op::EndText(_) => self.shown.text.push('\n'),
                Op::XObject(x) => self.form(resources, x.0, now),
                _ => {}
            }
        }
        assert!(kept.is_empty(), "a save without its restore");
    }

    fn at(&self, now: Matrix, x: f64, y: f64) -> Point {
        [now[0] * x + now[2] * y + now[4] + self.shift[0], now[1] * x + now[3] * y + now[5] + self.shift[1]]
    }

    fn to(&mut self, now: Matrix, x: f64, y: f64) {
        let point = self.at(now, x, y);
        self.open.last_mut().expect("a line from nowhere").push(point);
    }

    /// A form (8.10), drawn in its own space.
    fn form(&mut self, resources: &Resources<'_>, name: &Name<'_>, now: Matrix) {
        let stream = resources.get_x_object(name).unwrap();
        if stream.dict().get::<Name<'_>>("Subtype").is_none_or(|kind| kind.as_str() != "Form") {
            return;
        }
        let own = stream.dict().get::<[f64; 6]>("Matrix").unwrap_or(SAME);
        let inner = Resources::from_parent(stream.dict().get("Resources").unwrap_or_default(), resources.clone());
        self.run(&stream.decoded().unwrap(), &inner, times(now, own));
    }

    fn font(&mut self, resources: &Resources<'_>, name: &Name<'_>) -> BTreeMap<u32, String> {
        let dict = resources.get_font(name).unwrap();
        let key = dict.data().to_vec();
        self.fonts.entry(key).or_insert_with(|| unicode(&dict)).clone()
    }

    /// Codes of two bytes, as fonts with the encoding `Identity-H` have them (9.7.5.2).
    fn show(&mut self, font: &BTreeMap<u32, String>, text: &[u8]) {
        for pair in text.chunks(2) {
            match font.get(&number(pair)) {
                Some(text) => self.shown.text.push_str(text),
                None => self.shown.unknown += 1,
            }
        }
    }
}

/// First `b`, then `a`.
fn times(a: Matrix, b: Matrix) -> Matrix {
    let [x, y] = [0, 2].map(|i| [a[0] * b[i] + a[2] * b[i + 1], a[1] * b[i] + a[3] * b[i + 1]]);
    let end = [a[0] * b[4] + a[2] * b[5] + a[4], a[1] * b[4] + a[3] * b[5] + a[5]];
    [x[0], x[1], y[0], y[1], end[0], end[1]]
}

fn number(bytes: &[u8]) -> u32 {
    bytes.iter().fold(0, |sum, &byte| sum << 8 | u32::from(byte))
}

/// The `ToUnicode` map of a font (9.10.3): character codes to text.
fn unicode(font: &Dict<'_>) -> BTreeMap<u32, String> {
    assert_eq!(font.get::<Name<'_>>("Encoding").map(|name| name.as_str().to_owned()).as_deref(), Some("Identity-H"));
    let stream: Stream<'_> = font.get("ToUnicode").expect("every font has its Unicode map");
    let text = String::from_utf8(stream.decoded().unwrap().into_owned()).unwrap();
    let mut map = BTreeMap::new();
    for (kind, end) in [("beginbfchar", "endbfchar"), ("beginbfrange", "endbfrange")] {
        for block in text.split(kind).skip(1) {
            let list = hexes(block.split(end).next().unwrap());
            for entry in list.chunks(if kind == "beginbfchar" { 2 } else { 3 }) {
                let (first, last, to) = (&entry[0], &entry[entry.len() - 2], &entry[entry.len() - 1]);
                for step in 0..=number(last) - number(first) {
                    map.insert(number(first) + step, advanced(to, step));
                }
            }
        }
    }
    map
}

/// UTF-16 text whose last unit is raised by a step of its range.
fn advanced(to: &[u8], step: u32) -> String {
    let (head, last) = to.split_at(to.len() - 2);
    let unit = u16::try_from(number(last) + step).unwrap();
    utf16(&[head, &unit.to_be_bytes()].concat())
}

fn hexes(block: &str) -> Vec<Vec<u8>> {
    let bytes = |digits: &str| {
        let digits: Vec<char> = digits.chars().filter(char::is_ascii_hexdigit).collect();
        digits.chunks(2).map(|two| u8::from_str_radix(&two.iter().collect::<String>(), 16).unwrap()).collect()
    };
    assert!(!block.contains('['), "a range with a list of its own is not read here");
    block.split('<').skip(1).map(|rest| bytes(rest.split('>').next().unwrap())).collect()
}
