//! What the factory gets holds nothing that is not shown, and means the same.

use backtack_core::diag::Findings;
use backtack_core::model::Samples;
use backtack_core::read::{self, Loaded};

const SECRET: &str = "4711";

fn given(name: &str, bytes: &[u8]) -> Vec<u8> {
    let style = b"[style]\nid = \"A\"\n[view.front]\npicture = \"front.png\"\nalt = \"it\"\n[view.side]\npicture = \"side.jpg\"\nalt = \"it\"\n\
                  [view.drawn]\npicture = \"drawn.svg\"\nalt = \"it\"\n";
    let loaded = read::files(&[("style.toml", style), (name, bytes)]);
    backtack_core::editions::factory_edition(&loaded).into_iter().find(|(path, _)| path == name).unwrap().1
}

fn toml(text: &str) -> String {
    String::from_utf8(given("more.toml", text.as_bytes())).unwrap()
}

#[test]
fn comments_go_and_strings_stay() {
    for (text, wanted) in [
        ("# 4711\n[a]\n", "\n[a]\n"),
        ("[a] # 4711\r\nb = 1 \t# 4711", "[a]\r\nb = 1"),
        ("b = \"# no\" # 4711\n", "b = \"# no\"\n"),
        ("b = \"\\\"# no\" # 4711\n", "b = \"\\\"# no\"\n"),
        ("b = '\\' # 4711\n", "b = '\\'\n"),
        ("b = \"\"\"\n# no \"\" # no\"\"\"\"\" # 4711\n", "b = \"\"\"\n# no \"\" # no\"\"\"\"\"\n"),
        ("b = '''# no\n'# no''''' # 4711\n", "b = '''# no\n'# no'''''\n"),
        ("b = \"\"\"\\\"\"\"\"# 4711\n", "b = \"\"\"\\\"\"\"\"\n"),
        ("\"# no\" = { c = [ # 4711\n 1 ] } # ž 4711\n", "\"# no\" = { c = [\n 1 ] }\n"),
        ("\u{feff}# 4711\n[a]\n", "\u{feff}\n[a]\n"),
        ("b = \"\" # 4711\nc = '' # 4711\n", "b = \"\"\nc = ''\n"),
    ] {
        assert!(text.contains(SECRET) && toml::Table::try_from(text.parse::<toml::Table>().unwrap()).is_ok(), "{text}");
        assert_eq!(toml(text), wanted, "{text}");
        assert_eq!(wanted.parse::<toml::Table>(), text.parse::<toml::Table>(), "{text}");
    }
    // What cannot be read whole may hide a comment in a string.
    assert!(toml("[a\nb = \"# 4711\n").starts_with("# Withheld"));
}

fn example(name: &str) -> Loaded {
    crate::folder(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name)).unwrap()
}

/// Every file of the examples means the same without them.
#[test]
fn the_examples_mean_the_same() {
    for name in ["puffin", "floor-cushion", "juggling-ball"] {
        let mut own = example(name);
        let files = backtack_core::editions::factory_edition(&own);
        // Samples, like orders, are no part of it.
        own.model.samples = Samples::default();
        let shown = crate::closure(&own.style, files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())));
        let (mut before, after) = (crate::checked(&own), crate::checked(&shown));
        before.figures.orders.clear();
        assert_eq!(before.figures.json(), after.figures.json(), "{name}");
        let said =
            |findings: &Findings| -> Vec<String> { findings.iter().map(|finding| finding.message.english()).collect() };
        assert_eq!(said(&after.firm), said(&before.firm), "{name}");
        for (path, bytes) in files.iter().filter(|(path, _)| path.ends_with(".toml")) {
            let text = std::str::from_utf8(bytes).unwrap();
            let own = own.closure.iter().find(|(one, _)| one == path).unwrap();
            let before = std::str::from_utf8(&own.1).unwrap();
            assert_eq!(text.parse::<toml::Table>().unwrap(), before.parse::<toml::Table>().unwrap(), "{path}");
            assert!(before.contains('#') && text.lines().all(|line| !line.trim_start().starts_with('#')), "{path}");
            assert_eq!(text.lines().count(), before.lines().count(), "{path}");
        }
    }
}

fn chunk(kind: &[u8; 4], data: &[u8]) -> Vec<u8> {
    let body = [kind.as_slice(), data].concat();
    let length = u32::try_from(data.len()).unwrap().to_be_bytes();
    [length.as_slice(), &body, &crc32fast::hash(&body).to_be_bytes()].concat()
}

/// A block of camera data with an orientation and a maker's text (Exif 2.32, 4.6).
fn camera(turned: u8) -> Vec<u8> {
    let mut block = b"MM\0\x2a\0\0\0\x08\0\x02".to_vec();
    block.extend([1, 0x0f, 0, 2, 0, 0, 0, 5, 0, 0, 0, 38]);
    block.extend([1, 0x12, 0, 3, 0, 0, 0, 1, 0, turned, 0, 0]);
    block.extend(b"\0\0\0\x004711\0");
    block
}

fn pixels(bytes: &[u8]) -> image::DynamicImage {
    use image::ImageDecoder as _;
    let reader = image::ImageReader::new(std::io::Cursor::new(bytes)).with_guessed_format().unwrap();
    let mut decoder = reader.into_decoder().unwrap();
    let turned = decoder.orientation().unwrap();
    let mut picture = image::DynamicImage::from_decoder(decoder).unwrap();
    picture.apply_orientation(turned);
    picture
}

fn holds(bytes: &[u8]) -> bool {
    bytes.windows(SECRET.len()).any(|part| part == SECRET.as_bytes())
}

#[test]
fn pictures_lose_everything_but_the_picture() {
    let picture = image::RgbImage::from_fn(9, 5, |x, y| image::Rgb([x as u8 * 20, y as u8 * 40, 7]));
    let mut png = Vec::new();
    picture.write_to(&mut std::io::Cursor::new(&mut png), image::ImageFormat::Png).unwrap();
    let (head, rest) = png.split_at(33);
    for turned in [1, 6] {
        let more = [
            chunk(b"tEXt", b"Author\x004711"),
            chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\x004711"),
            chunk(b"tIME", b"4711..."),
            chunk(b"eXIf", &camera(turned)),
            chunk(b"prVt", b"4711"),
        ];
        let full = [head, &more.concat(), rest, b"4711"].concat();
        let bare = given("front.png", &full);
        assert!(holds(&full) && !holds(&bare), "{turned}");
        assert_eq!(pixels(&bare), pixels(&full), "{turned}");
        assert_eq!(pixels(&bare).width(), if turned == 6 { 5 } else { 9 });
    }
    let mut jpeg = Vec::new();
    picture.write_to(&mut std::io::Cursor::new(&mut jpeg), image::ImageFormat::Jpeg).unwrap();
    let segment = |marker: u8, data: &[u8]| {
        let length = u16::try_from(data.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], length.as_slice(), data].concat()
    };
    let (start, rest) = jpeg.split_at(2);
    for turned in [1, 3, 6] {
        let exif = [b"Exif\0\0".as_slice(), &camera(turned)].concat();
        let more = [
            segment(0xe1, &exif),
            segment(0xe1, b"http://ns.adobe.com/xap/1.0/\x004711"),
            segment(0xe2, b"MPF\x004711"),
            segment(0xed, b"Photoshop 3.0\x004711"),
            segment(0xfe, b"4711"),
        ];
        let full = [start, &more.concat(), rest, b"4711"].concat();
        let bare = given("side.jpg", &full);
        assert!(holds(&full) && !holds(&bare), "{turned}");
        assert_eq!(pixels(&bare), pixels(&full), "{turned}");
    }
    assert_eq!(given("front.png", b"\x89PNG\r\n\x1a\n4711"), b"");
}

#[test]
fn drawings_lose_everything_but_the_drawing() {
    let drawn = "<?xml version=\"1.0\"?><!-- 4711 --><?mine 4711?>\n\
        <svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:e=\"http://editor.example/ns\" e:file=\"/home/4711\" width=\"10mm\" \
        height=\"10mm\" viewBox=\"0 0 10 10\"><title>4711</title><metadata><e:a>4711</e:a></metadata><e:view e:zoom=\"4711\"/>\
        <!-- 4711 --><g e:label=\"SIDE.a\"><desc>4711</desc><path id=\"p\" d=\"M0 0h5v5z\" e:nodes=\"4711\"/></g></svg><!-- 4711 -->\n";
    let bare = String::from_utf8(given("drawn.svg", drawn.as_bytes())).unwrap();
    assert!(!bare.contains(SECRET), "{bare}");
    assert!(
        bare.contains("label=\"SIDE.a\"") && bare.contains("d=\"M0 0h5v5z\"") && bare.contains("viewBox"),
        "{bare}"
    );
    roxmltree::Document::parse(&bare).unwrap();
    assert_eq!(given("drawn.svg", b"<svg 4711"), b"");
}
