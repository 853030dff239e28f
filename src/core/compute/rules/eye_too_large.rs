//! Rule: an eye or nose is large for the product it is on.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::ArticleKind;
use crate::words::{say, words};

use super::{Ground, in_size, mm, of_size, sizes};

/// The largest share of the shorter side of the largest piece that an eye has (*common practice*, wide on purpose).
const MOST: f64 = 0.5;

/// An eye of another product.
pub const RULE: Rule = Rule {
    code: "eye-too-large",
    family: "piece",
    severity: Severity::Should,
    summary: "an eye or nose is large for the product it is on",
    explanation: "An eye that is wider than half of the widest piece, across its shorter side, is as wide as half the face: its diameter is \
                  that of another size, or was written in another unit.",
    failing: "[trim.eye]\ntype = \"eye\"\ndiameter = \"60 mm\"\n[piece.HEAD]\noutline = { shape = \"circle\", diameter = \"100 mm\" }",
    passing: "[trim.eye]\ntype = \"eye\"\ndiameter = \"9 mm\"\n[piece.HEAD]\noutline = { shape = \"circle\", diameter = \"100 mm\" }",
    source: "common practice: half",
};

words! {
    MESSAGE "eye-too-large.message" = "trim {id} is {diameter} wide{size}, and no piece is more than {across} across";
    HERE "eye-too-large.here" = "of this product?";
    HELP "eye-too-large.help" = "look at the unit, and at the size it is of";
}

/// Reports each eye and nose once, in the first size in which it is too large.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let model = ground.model;
    for (id, article) in model.articles.iter().filter(|(_, one)| one.kind == ArticleKind::Trim && one.is_eye()) {
        let Some(diameter) = article.quantity("diameter") else { continue };
        let found = sizes(model).find_map(|size| {
            let stated = diameter.of(of_size(size))?;
            let wide = stated.known()?.si_f64() * 1000.0;
            let across = across(ground, size)?;
            (wide > MOST * across).then_some((size, stated, wide, across))
        });
        let Some((size, stated, wide, across)) = found else { continue };
        let message = say!(MESSAGE, id, diameter = mm(wide), size = in_size(model, size), across = mm(across));
        findings.push(Finding::new(&RULE, message).at(stated.span, HERE).help(HELP));
    }
}

/// The greatest shorter side of a piece, mm; none where a piece is not known.
fn across(ground: &Ground<'_>, size: &str) -> Option<f64> {
    let outlines: Option<Vec<_>> =
        ground.model.pieces.keys().map(|piece| ground.drawn.sew(piece, size).known().copied()).collect();
    let across = outlines?.into_iter().map(|one| one.bbox().width().min(one.bbox().height()));
    across.max_by(f64::total_cmp)
}
