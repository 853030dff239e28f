//! Small revisions made by hand: a PDF of a few objects with the attachments, and the sealed file round it.

use backtack_core::revision::manifest::{Inner, Title};
use backtack_core::revision::seal::{Own, own_digests, salt, sealed};
use backtack_core::revision::{Digest, stored};

pub const SECRET: [u8; 32] = [7; 32];
pub const FINDINGS: &str = "{\"findings\": []}\n";

/// Files of the own edition; `private/cost.toml` is in no other, `style.toml` has a comment that the factory's has not.
pub fn own_files() -> Vec<(&'static str, &'static [u8])> {
    vec![
        ("pieces.toml", b"[piece.A]\n"),
        ("private/cost.toml", b"# 4711\n"),
        ("style.toml", b"[style] # 4712\nid = \"HF-118\"\n"),
    ]
}

/// Files of the factory's edition.
pub fn factory_files() -> Vec<(&'static str, &'static [u8])> {
    vec![("pieces.toml", b"[piece.A]\n"), ("style.toml", b"[style]\nid = \"HF-118\"\n")]
}

pub fn title(revision: &str, date: &str) -> Title {
    Title {
        tool: "0.1.0".into(),
        style: "HF-118".into(),
        revision: revision.into(),
        stage: "bulk".into(),
        date: date.parse().unwrap(),
        by: "Maren Oake".into(),
        reason: "Second sample approved".into(),
    }
}

/// One object after the other, their table, and a trailer with these entries.
pub fn pdf_of(objects: &[Vec<u8>], trailer: &str) -> Vec<u8> {
    let mut out = b"%PDF-1.7\n".to_vec();
    let mut places = Vec::new();
    for (number, object) in objects.iter().enumerate() {
        places.push(out.len());
        out.extend(format!("{} 0 obj\n", number + 1).into_bytes());
        out.extend(object);
        out.extend(b"\nendobj\n");
    }
    let table = out.len();
    out.extend(format!("xref\n0 {}\n0000000000 65535 f \n", objects.len() + 1).into_bytes());
    places.iter().for_each(|at| out.extend(format!("{at:010} 00000 n \n").into_bytes()));
    out.extend(format!("trailer\n<<{trailer}>>\nstartxref\n{table}\n%%EOF").into_bytes());
    out
}

pub fn stream(entries: &str, bytes: &[u8]) -> Vec<u8> {
    let mut out = format!("<</Length {}{entries}>>\nstream\n", bytes.len()).into_bytes();
    out.extend(bytes);
    out.extend(b"\nendstream");
    out
}

/// A PDF with nothing but these attachments.
pub fn pdf(attachments: &[(&str, &[u8])]) -> Vec<u8> {
    let names: String = (0..attachments.len()).map(|n| format!("({}) {} 0 R ", attachments[n].0, 2 + 2 * n)).collect();
    let mut objects = vec![format!("<</Type/Catalog/Names<</EmbeddedFiles<</Names[{names}]>>>>>>").into_bytes()];
    for (n, (name, bytes)) in attachments.iter().enumerate() {
        let spec = format!("<</Type/Filespec/F({name})/UF({name})/EF<</F {} 0 R>>>>", 3 + 2 * n);
        objects.extend([spec.into_bytes(), stream("/Type/EmbeddedFile", bytes)]);
    }
    pdf_of(&objects, "/Root 1 0 R/Size 9")
}

/// What is attached to the PDF of a revision.
pub struct Parts {
    pub archive: Vec<u8>,
    pub figures: Vec<u8>,
    pub inner: Inner,
}

pub fn parts(title: Title) -> Parts {
    let figures = "{\"mass\": 1}\n";
    let own_figures = "{\"mass\": 1, \"cost\": 4713}\n";
    let mut inner = Inner::of("", figures, factory_files());
    let files = own_files();
    let own = Own { findings: FINDINGS, figures: own_figures, files: &files };
    inner.own = own_digests(&salt(&SECRET, &title.revision), &inner, &own);
    inner.title = Some(title);
    Parts { archive: stored(factory_files()).unwrap(), figures: figures.into(), inner }
}

impl Parts {
    pub fn pdf(&self) -> Vec<u8> {
        let manifest = self.inner.text();
        pdf(&[
            ("specification.zip", &self.archive),
            ("figures.json", &self.figures),
            ("manifest.txt", manifest.as_bytes()),
        ])
    }

    pub fn sealed(&self, before: Option<Digest>) -> (Vec<u8>, Digest) {
        let files = own_files();
        let own = Own { findings: FINDINGS, figures: "{\"mass\": 1, \"cost\": 4713}\n", files: &files };
        let revision = &self.inner.title.as_ref().unwrap().revision;
        sealed(&self.inner, before, &salt(&SECRET, revision), &own, &self.pdf()).unwrap()
    }
}

/// A sealed file and its digest.
pub fn revision(name: &str, date: &str, before: Option<Digest>) -> (Vec<u8>, Digest) {
    parts(title(name, date)).sealed(before)
}
