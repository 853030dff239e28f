//! Writes a scene as an SVG file in true millimetres, one user unit being one millimetre.

use std::fmt::Write;

use crate::words::Languages;

use super::{Across, Along, Fill, Item, Label, Path, Scene, Segment, grid};

/// The font families asked for, nearest to the package's own first.
const FONTS: &str = "'Noto Sans SC', 'Noto Sans', sans-serif";
/// Millimetres in a point.
const POINT: f64 = 25.4 / 72.0;
/// Height of a capital in parts of the type size, for the built-in family.
const CAPITAL: f64 = 0.733;

/// Size of the type below a drawing, in points.
const NOTE: f64 = 7.5;
/// From one line below a drawing to the next, mm.
const LINE: f64 = 3.6;
/// The width of a character on average, in parts of the type size, generously.
const CHARACTER: f64 = 0.6;

/// The scene in these languages as a complete SVG document. Text stays text; every string is escaped.
#[must_use]
pub fn svg(scene: &Scene, languages: Languages) -> String {
    let (w, h) = (grid(scene.width), grid(scene.height));
    let mut out = head(scene, languages, w, h);
    scene.items.iter().for_each(|item| write_item(&mut out, item));
    out.push_str("</svg>\n");
    out
}

/// The same on white ground, above lines that say what it is: for a drawing that lies by itself on a table.
#[must_use]
pub fn noted(scene: &Scene, languages: Languages, lines: &[String]) -> String {
    let letter = NOTE * POINT * CHARACTER;
    let text = lines.iter().map(|line| line.chars().count() as f64 * letter).fold(0.0, f64::max);
    let (w, h) = (grid(scene.width.max(text)), grid(scene.height + LINE * (lines.len() as f64 + 0.5)));
    let mut out = head(scene, languages, w, h);
    let _ = writeln!(out, "<rect width=\"{w}\" height=\"{h}\" fill=\"#fff\" stroke=\"none\"/>");
    scene.items.iter().for_each(|item| write_item(&mut out, item));
    for (line, text) in lines.iter().enumerate() {
        let at = [0.0, scene.height + LINE * (line as f64 + 1.0)];
        let label = Label {
            at,
            text: text.clone(),
            size: NOTE,
            turn: 0.0,
            along: Along::Start,
            across: Across::Base,
            strong: false,
            halo: false,
        };
        write_label(&mut out, &label, INK);
    }
    out.push_str("</svg>\n");
    out
}

/// How a label is painted.
const INK: &str = "#000\" stroke=\"none";

fn head(scene: &Scene, languages: Languages, w: f64, h: f64) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" role=\"img\">\n\
         <title>{}</title>\n",
        escape(&scene.alt.print(languages)),
    )
}

fn write_item(out: &mut String, item: &Item) {
    match item {
        Item::Path(path) => write_path(out, path),
        Item::Label(label) => {
            if label.halo {
                write_label(out, label, "#fff\" stroke=\"#fff\" stroke-width=\"0.8");
            }
            write_label(out, label, INK);
        }
    }
}

fn write_path(out: &mut String, path: &Path) {
    let fill = match path.fill {
        Fill::None => "none",
        Fill::Paper => "#fff",
        Fill::Tint => "#b2b2b2",
        Fill::Ink => "#000",
    };
    // Writing into a String cannot fail, here and below.
    let _ = write!(out, "<path fill=\"{fill}\"");
    if let Some(line) = path.line {
        let style = line.style();
        let ink = match style.ink {
            0 => "#fff",
            100 => "#000",
            _ => "#666",
        };
        let _ = write!(out, " stroke=\"{ink}\" stroke-width=\"{}\" stroke-linejoin=\"round\"", style.width);
        if !style.dash.is_empty() {
            let dashes: Vec<String> = style.dash.iter().map(f64::to_string).collect();
            let _ = write!(out, " stroke-dasharray=\"{}\"", dashes.join(" "));
        }
    } else {
        out.push_str(" stroke=\"none\"");
    }
    let _ = writeln!(out, " d=\"{}\"/>", data(&path.segments));
}

fn data(segments: &[Segment]) -> String {
    let point = |p: &[f64; 2]| format!("{} {}", grid(p[0]), grid(p[1]));
    let parts: Vec<String> = segments
        .iter()
        .map(|segment| match segment {
            Segment::Move(p) => format!("M{}", point(p)),
            Segment::Line(p) => format!("L{}", point(p)),
            Segment::Cubic(a, b, p) => format!("C{} {} {}", point(a), point(b), point(p)),
            Segment::Close => "Z".to_owned(),
        })
        .collect();
    parts.join("")
}

/// A label, painted with a fill and a stroke. Its cleared ground is the same text below it with a white edge, which
/// every reader of SVG draws alike.
fn write_label(out: &mut String, label: &Label, paint: &str) {
    let size = grid(label.size * POINT);
    let drop = match label.across {
        Across::Top => CAPITAL,
        Across::Middle => CAPITAL / 2.0,
        Across::Base => 0.0,
    };
    let anchor = match label.along {
        Along::Start => "start",
        Along::Middle => "middle",
        Along::End => "end",
    };
    let (x, y) = (grid(label.at[0]), grid(label.at[1]));
    let base = grid(label.at[1] + drop * size);
    let _ = write!(out, "<text x=\"{x}\" y=\"{base}\" font-size=\"{size}\"");
    let _ = write!(out, " fill=\"{paint}\"");
    let _ = write!(out, " text-anchor=\"{anchor}\" font-family=\"{FONTS}\"");
    if label.strong {
        out.push_str(" font-weight=\"bold\"");
    }
    if grid(label.turn) != 0.0 {
        let _ = write!(out, " transform=\"rotate({} {x} {y})\"", grid(label.turn));
    }
    let _ = writeln!(out, ">{}</text>", escape(&label.text));
}

/// Text that is safe inside an element or an attribute; characters XML 1.0 forbids are left out.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&apos;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.push(c),
        }
    }
    out
}
