//! Words planted wherever the factory must not read: none of them is in any byte of what it gets.

use crate::folder::Scratch;
use crate::pdf::Pdf;

/// Makes words that stand nowhere else.
#[derive(Default)]
struct Planted(Vec<String>);

impl Planted {
    fn word(&mut self) -> String {
        let word = format!("Qz{:03}Wren", self.0.len());
        self.0.push(word.clone());
        word
    }
}

fn chunk(kind: &[u8; 4], data: &[u8]) -> Vec<u8> {
    let body = [kind.as_slice(), data].concat();
    let sum = !body.iter().fold(!0u32, |sum, &byte| {
        (0..8).fold(sum ^ u32::from(byte), |sum, _| (sum >> 1) ^ (0xedb8_8320 & (sum & 1).wrapping_neg()))
    });
    [u32::try_from(data.len()).unwrap().to_be_bytes().as_slice(), &body, &sum.to_be_bytes()].concat()
}

/// Text data of a program in a PNG (ISO/IEC 15948, 11.3.4), and bytes behind its end.
fn picture(bytes: &[u8], planted: &mut Planted) -> Vec<u8> {
    let (head, rest) = bytes.split_at(33);
    let mut out = head.to_vec();
    for kind in [b"tEXt", b"iTXt", b"prIv", b"tIME"] {
        out.extend(chunk(kind, format!("Comment\0{}", planted.word()).as_bytes()));
    }
    out.extend(rest);
    out.extend(planted.word().into_bytes());
    out
}

/// The cushion with a word in everything that is not for the factory.
fn made(scratch: &Scratch) -> Planted {
    let mut planted = Planted::default();
    let cushion = crate::built::example("floor-cushion");
    for (path, bytes) in &cushion.loaded.closure {
        let bytes = match path {
            path if path.ends_with(".png") => picture(bytes, &mut planted),
            path if path.ends_with(".toml") => {
                let text = String::from_utf8(bytes.to_vec()).unwrap();
                let mut lines = Vec::new();
                for line in text.lines() {
                    if line.starts_with('[') {
                        lines.push(format!("# {}", planted.word()));
                        lines.push(format!("{line} # {}", planted.word()));
                    } else {
                        lines.push(line.to_owned());
                    }
                }
                (lines.join("\n") + "\n").into_bytes()
            }
            _ => bytes.to_vec(),
        };
        scratch.write(&format!("tarn/{path}"), bytes);
    }
    for _ in 0..20 {
        let (file, fabric, name, comment) = (planted.word(), planted.word(), planted.word(), planted.word());
        let text = format!("# {comment}\n[fabric.{fabric}]\nname = \"{name}\"\n");
        scratch.write(&format!("tarn/private/{file}.toml"), text);
    }
    let (maker, name, street, number) = (planted.word(), planted.word(), planted.word(), planted.word());
    let text = format!(
        "[party.{maker}]\nname = \"{name}\"\nrole = \"sub-supplier\"\nprocess = \"dyeing\"\naddress = [\"{street}\"]\n"
    );
    scratch.write("tarn/private/maker.toml", text);
    let text = String::from_utf8(scratch.read("tarn/parties.toml")).unwrap();
    let text = format!("{text}number = {{ value = \"{number}\", audience = \"own\" }}\n");
    scratch.write("tarn/parties.toml", text);
    let (own, seen) = (planted.word(), planted.word());
    let text = String::from_utf8(scratch.read("tarn/materials.toml")).unwrap();
    let text =
        text.replacen("article = \"QL-10-PD\"", &format!("article = {{ value = \"{own}\", audience = \"own\" }}"), 1);
    assert!(text.contains(&own));
    scratch.write("tarn/materials.toml", text);
    let front = scratch.read("tarn/pictures/front.png");
    scratch.write(&format!("tarn/private/{seen}.png"), &front);
    let alt = planted.word();
    let view = format!("[view.mood]\npicture = \"private/{seen}.png\"\nalt = \"{alt}\"\n");
    scratch.write("tarn/private/mood.toml", view);
    for order in 0..6 {
        let (file, number, po, comment) = (planted.word(), planted.word(), planted.word(), planted.word());
        let text = format!(
            "# {comment}\n[order.o{order}]\nnumber = \"{number}\"\npo = \"{po}\"\ncut-extra = \"2 %\"\n[order.o{order}.line.a]\n\
             size = \"S\"\ncolourway = \"moss\"\nquantity = 40\n"
        );
        scratch.write(&format!("tarn/orders/{file}.toml"), text);
    }
    planted
}

/// Every part of an edition by a name for the message.
fn parts(pdf: &[u8]) -> Vec<(String, Vec<u8>)> {
    let read = Pdf::of(pdf);
    let mut all = vec![("the PDF as it stands".to_owned(), pdf.to_vec())];
    all.extend(read.streams().into_iter().enumerate().map(|(n, bytes)| (format!("stream {n}"), bytes)));
    all.extend(read.everything().into_iter().map(|text| ("an object".to_owned(), text.into_bytes())));
    for (n, page) in read.pages().into_iter().enumerate() {
        all.push((format!("page {}", n + 1), page.squeezed().into_bytes()));
    }
    all.extend(read.attachments().into_iter().map(|(name, attached)| (name, attached.bytes)));
    all
}

/// A word as it stands, as UTF-16 both ways, and as hexadecimal digits.
fn forms(word: &str) -> [Vec<u8>; 4] {
    let units: Vec<u16> = word.encode_utf16().collect();
    let hex: String = word.bytes().map(|byte| format!("{byte:02x}")).collect();
    [
        word.as_bytes().to_vec(),
        units.iter().flat_map(|unit| unit.to_be_bytes()).collect(),
        units.iter().flat_map(|unit| unit.to_le_bytes()).collect(),
        hex.into_bytes(),
    ]
}

fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|one| one == part)
}

#[test]
fn none_of_two_hundred_words_is_in_the_factorys_edition() {
    let scratch = Scratch::new();
    let planted = made(&scratch);
    assert!(planted.0.len() >= 200, "{}", planted.0.len());
    let ran = scratch.run(&["seal", "tarn", "B", "--by", "Maren Oake", "--reason", "Sample approved"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let sealed = scratch.read("tarn/revisions/B.sealed");
    let all = parts(&scratch.read("tarn/revisions/B.pdf"));
    // All words begin alike, so that one search finds any of them.
    for form in forms("Qz") {
        for (place, bytes) in all.iter().filter(|(_, bytes)| holds(bytes, &form)) {
            let found: Vec<&String> =
                planted.0.iter().filter(|word| forms(word).iter().any(|one| holds(bytes, one))).collect();
            assert!(found.is_empty(), "{found:?} in {place}");
        }
    }
    // The own edition holds every one, and what is for everyone is found by the same search.
    let missing: Vec<&String> = planted.0.iter().filter(|word| !holds(&sealed, word.as_bytes())).collect();
    assert!(missing.is_empty(), "{missing:?}");
    assert!(all.iter().filter(|(_, bytes)| holds(bytes, b"HF-118")).count() >= 20);
    // What `build` attaches is the same edition.
    assert_eq!(scratch.run(&["build", "tarn"]).code, 0);
    let built = Pdf::of(&scratch.read("tarn/out/HF-118-B.pdf")).attachments();
    let given = Pdf::of(&scratch.read("tarn/revisions/B.pdf")).attachments();
    assert_eq!(built["specification.zip"], given["specification.zip"]);
    assert_eq!(built["figures.json"], given["figures.json"]);
}
