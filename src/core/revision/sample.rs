//! The file of a new sample, to be filled in: what is measured, within what, and room for each piece.

use crate::compute::Figures;
use crate::diag::plain;
use crate::model::{Article, ArticleKind, Colour, CommentState, Model, PointOfMeasure, Stated, Variant};
use crate::units::Date;
use crate::units::Quantity;

/// What a sample is asked to be.
#[derive(Debug, Clone, Default)]
pub struct Ask {
    /// Its id.
    pub id: String,
    /// What kind of sample, a word of the grammar.
    pub kind: String,
    /// Size; may be left out where the style has one.
    pub size: Option<String>,
    /// Colourway; may be left out.
    pub colourway: Option<String>,
    /// How many pieces.
    pub pieces: u32,
    /// When it is due.
    pub due: Option<Date>,
}

/// Most pieces of a sample.
const MOST: u32 = 500;

/// The text of the file.
///
/// # Errors
/// In one line: an id that is none or taken, a size or colourway the style does not have.
pub fn blank(model: &Model, figures: &Figures, ask: &Ask) -> Result<String, String> {
    let variant = checked(model, ask)?;
    let form = Form { model, figures, ask, variant };
    let mut out = form.head();
    out.push_str(&form.readings());
    out.push_str(&form.masses());
    out.push_str(&form.colours());
    out.push_str(&form.checks());
    Ok(out)
}

fn checked<'a>(model: &'a Model, ask: &'a Ask) -> Result<Variant<'a>, String> {
    let letters = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    if !ask.id.starts_with(|c: char| c.is_ascii_alphabetic()) || !ask.id.chars().all(letters) {
        return Err(format!("{} cannot be an id: write a letter, then letters, digits, - and _", ask.id));
    }
    if model.samples.samples.contains_key(&ask.id) {
        return Err(format!("there is a sample {} already; choose another id", ask.id));
    }
    if !(1..=MOST).contains(&ask.pieces) {
        return Err(format!("a sample has 1 to {MOST} pieces"));
    }
    let sizes: Vec<&str> = model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect();
    let size = match (&ask.size, sizes.as_slice()) {
        (Some(size), _) => sizes.iter().find(|one| *one == size),
        (None, [only]) => Some(only),
        (None, _) => None,
    };
    let size = size.ok_or_else(|| format!("name one of the sizes: {}", sizes.join(", ")))?;
    let colourways: Vec<&str> = model.colourways.keys().map(String::as_str).collect();
    let wanted = |id: &String| {
        let known = colourways.iter().find(|one| *one == id).copied();
        known.ok_or_else(|| format!("there is no colourway {id}; there are: {}", colourways.join(", ")))
    };
    let colourway = ask.colourway.as_ref().map(wanted).transpose()?;
    Ok(Variant { size, colourway: colourway.or(colourways.first().copied()).unwrap_or_default() })
}

struct Form<'a> {
    model: &'a Model,
    figures: &'a Figures,
    ask: &'a Ask,
    variant: Variant<'a>,
}

impl Form<'_> {
    fn head(&self) -> String {
        let (ask, style) = (self.ask, &self.model.style);
        let known = |text: &Option<Stated<String>>| text.as_ref().and_then(|text| text.known()).cloned();
        let of = known(&self.model.revision.id);
        let title = [known(&style.id), known(&style.name)].into_iter().flatten().collect::<Vec<_>>().join(" ");
        let mut out = remark(&format!("{title}: a sample, to be filled in. Take the # away where you write."));
        out.push_str(&remark("One reading for each piece, first to last; \"\" where it was not read."));
        out.push_str(&format!("\n[sample.{}]\nkind = {}\n", ask.id, quoted(&ask.kind)));
        let mut key = |name: &str, value: Option<String>| {
            if let Some(value) = value {
                out.push_str(&format!("{name} = {value}\n"));
            }
        };
        key("of", of.map(|of| quoted(&of)));
        // A size or colourway that the style does not write down has no code of its own.
        key("size", self.written_size().map(quoted));
        key("colourway", self.colourway().map(quoted));
        key("pieces", Some(ask.pieces.to_string()));
        key("due", ask.due.map(|date| date.to_string()));
        for line in [
            "material = \"real\"            # or \"substitute\"",
            "to = \"who gets it\"",
            "received = 2026-01-31         # year, month, day",
            "measured = 2026-01-31",
            "by = \"who measured\"",
            "tool = \"steel tape\"",
            "rest = \"24 h\"                 # after it was unpacked and shaken",
        ] {
            out.push_str(&format!("# {line}\n"));
        }
        out
    }

    fn written_size(&self) -> Option<&str> {
        let size = self.model.size(self.variant.size)?;
        (size.entry.span().end > size.entry.span().start).then_some(self.variant.size)
    }

    /// The colourway, where it is named or the style writes down just one.
    fn colourway(&self) -> Option<&str> {
        let written = |id: &str| {
            let entry = &self.model.colourways.get(id)?.entry;
            (entry.span().end > entry.span().start).then_some(())
        };
        let sure = self.ask.colourway.is_some() || self.model.colourways.len() == 1;
        written(self.variant.colourway).filter(|()| sure).map(|()| self.variant.colourway)
    }

    /// `["", "", ""]`.
    fn blanks(&self, one: &str) -> String {
        format!("[{}]", vec![one; self.ask.pieces as usize].join(", "))
    }

    fn readings(&self) -> String {
        let mut out = format!("\n[sample.{}.readings]\n", self.ask.id);
        if self.model.measures.is_empty() {
            out.push_str(&remark("The style has no points of measure yet."));
        }
        for (id, point) in &self.model.measures {
            out.push_str(&remark(&self.told(id, point)));
            let blanks = self.blanks("\"\"");
            let row = match point.difference {
                Some(_) => format!("{{ left = {blanks}, right = {blanks} }}"),
                None => blanks,
            };
            out.push_str(&format!("{id} = {row}\n"));
        }
        out
    }

    /// What is measured, how, and within what.
    fn told(&self, id: &str, point: &PointOfMeasure) -> String {
        let mut parts = vec![point.entry.title().to_string()];
        parts.extend(point.method.as_ref().and_then(|method| method.known().cloned()));
        parts.extend(point.state.as_ref().and_then(|state| state.known().cloned()));
        let sizes = self.figures.measures.get(id).map(|line| &line.sizes);
        let key = format!("{}/{}", self.variant.size, self.variant.colourway);
        let line = sizes.and_then(|sizes| sizes.get(self.variant.size).or_else(|| sizes.get(&key)));
        if let Some(line) = line {
            parts.extend(line.text.known().cloned());
            let unit = line.unit.known().map_or("", String::as_str);
            if let (Some(lower), Some(upper)) = (line.lower.get(), line.upper.get()) {
                parts.push(format!("{lower} to {upper} {unit}"));
            }
        }
        if let Some(most) = point.difference.as_ref().and_then(|most| most.known()) {
            parts.push(format!("left and right within {most}"));
        }
        let flag = |flag: &Option<crate::source::Spanned<bool>>| flag.as_ref().is_some_and(|flag| flag.value);
        parts.extend(flag(&point.critical).then(|| "critical".to_string()));
        parts.extend(flag(&point.reference).then(|| "for reference".to_string()));
        parts.join("; ")
    }

    fn masses(&self) -> String {
        let mass = self.figures.mass.get(self.variant.size).and_then(|by| by.get(self.variant.colourway));
        let range = |limited: Option<&crate::compute::Limited>| {
            let known = limited.and_then(|limited| Some((limited.lower.get()?, limited.upper.get()?)));
            let told = |(lower, upper): (f64, f64)| format!("{lower} to {upper} g");
            known.map_or_else(|| "no limits yet".to_string(), told)
        };
        let mut out = format!("\n[sample.{}.masses]\n", self.ask.id);
        out.push_str(&remark(&format!(
            "Each finished piece, without hangtag and packing; {}: {}",
            if mass.is_some_and(|mass| mass.stated.is_some()) { "stated" } else { "worked out" },
            range(mass.map(|mass| &mass.product))
        )));
        out.push_str(&format!("finished = {}\n", self.blanks("\"\"")));
        if !self.model.stuffings.is_empty() {
            out.push_str(&self.filled(range(mass.map(|mass| &mass.shell))));
        }
        out + &self.fabrics()
    }

    /// Fabrics with a stated mass per area.
    fn fabrics(&self) -> String {
        let stated = |article: &Article| Some(article.quantity("mass")?.known(self.variant)?.text.clone());
        let fabrics = self.model.articles.values().filter(|article| article.kind == ArticleKind::Fabric);
        let known: Vec<(&Article, String)> = fabrics.filter_map(|article| Some((article, stated(article)?))).collect();
        if known.is_empty() {
            return String::new();
        }
        let mut out = format!("\n[sample.{}.masses.fabric]\n", self.ask.id);
        for (article, text) in known {
            out.push_str(&remark(&format!("{}: {text}", article.entry.title())));
            out.push_str(&format!("{} = {}\n", article.entry.id.value, self.blanks("\"\"")));
        }
        out
    }

    /// Shell and stuffings of what is filled.
    fn filled(&self, shell: String) -> String {
        let mut out = String::new();
        out.push_str(&remark(&format!("Each shell before it is filled; worked out: {shell}")));
        out.push_str(&format!("shell = {}\n", self.blanks("\"\"")));
        out.push_str(&format!("\n[sample.{}.masses.stuffings]\n", self.ask.id));
        for (id, stuffing) in &self.model.stuffings {
            let stated: Option<&Quantity> = stuffing.mass.as_ref().and_then(|mass| mass.known(self.variant));
            let text = stated.map_or("no mass yet", |mass| &mass.text);
            out.push_str(&remark(&format!("{}: {text}", stuffing.entry.title())));
            out.push_str(&format!("{id} = {}\n", self.blanks("\"\"")));
        }
        out
    }

    /// Roles of the colourway with the colours they stand for.
    fn coloured(&self) -> Vec<(&str, String, &Colour)> {
        let Some(colourway) = self.colourway() else { return Vec::new() };
        let roles = self.model.colourways.get(colourway).into_iter().flat_map(|one| one.roles.keys());
        let mut all: Vec<(&str, String, &Colour)> = Vec::new();
        for role in roles {
            let Some((article, Some(colour))) = self.model.resolve(role, colourway) else { continue };
            let Some(colour) = self.model.colours.get(colour) else { continue };
            let what = format!("{}, {}", article.entry.title(), colour.entry.title());
            if all.iter().all(|(_, other, _)| *other != what) {
                all.push((role, what, colour));
            }
        }
        all
    }

    fn colours(&self) -> String {
        let mut rows = String::new();
        for (role, what, colour) in self.coloured() {
            let Some(lab) = colour.lab.as_ref().and_then(|lab| lab.known()) else { continue };
            let limit = colour.limit.as_ref().and_then(|limit| limit.known());
            let limit = limit.map_or_else(String::new, |limit| format!(", within {limit} (CIEDE2000)"));
            rows.push_str(&remark(&format!("{what}: L* {}, a* {}, b* {}{limit}", lab[0], lab[1], lab[2])));
            rows.push_str(&format!("{role} = {}\n", self.blanks("[]")));
        }
        if rows.is_empty() {
            return rows;
        }
        let how = remark(
            "Brushed, folded until opaque, the mean of four directions: [\"L*\", \"a*\", \"b*\"] for each piece.",
        );
        format!("\n[sample.{}.colours]\n{how}{rows}", self.ask.id)
    }

    /// What is looked at: comments that want to be seen again, and colours that only a swatch shows.
    fn checks(&self) -> String {
        let mut texts = Vec::new();
        for (id, comment) in &self.model.samples.comments {
            if !matches!(comment.state(), CommentState::Dropped | CommentState::Agreed) && !comment.own {
                let text = comment.text.as_ref().map_or("", |text| text.value.as_str());
                texts.push(format!("Comment {id}: {text}"));
            }
        }
        for (_, what, colour) in self.coloured() {
            if colour.lab.is_none()
                && let Some(reference) = colour.reference.as_ref().and_then(|reference| reference.known())
            {
                texts.push(format!("{what}: against {reference}"));
            }
        }
        texts.push("Looks as on the views".to_string());
        let mut out = String::from("\n");
        out.push_str(&remark("Add result = \"pass\" or result = \"fail\" to each."));
        for text in texts {
            out.push_str(&format!("[[sample.{}.checks]]\ntext = {}\n", self.ask.id, quoted(&text)));
        }
        out
    }
}

/// One comment line, whatever the text holds.
fn remark(text: &str) -> String {
    let single = text.split_whitespace().collect::<Vec<_>>().join(" ");
    format!("# {}\n", plain(&single))
}

/// Text as a TOML string. JSON escapes are TOML escapes, except for U+007F, which JSON leaves as it is.
fn quoted(text: impl AsRef<str>) -> String {
    serde_json::Value::from(text.as_ref()).to_string().replace('\u{7f}', "\\u007f")
}
