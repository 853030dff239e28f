//! Rule: a trim that is put in is wider than every opening of its part.

use crate::compute::lengths::side_length;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, ArticleKind, Deed, JointKind, Step};
use crate::words::{say, words};

use super::{Ground, in_size, mm, of_size, sizes};

/// Something hard that does not go through any opening of its part.
pub const RULE: Rule = Rule {
    code: "opening-under-trim",
    family: "sewing",
    severity: Severity::Should,
    summary: "a trim that is put in is wider than every opening of its part",
    explanation: "A squeaker, a bell or a stiffening disc does not fold: it goes through an opening only if the opening is \
                  at least as long as the trim is wide. The ends of an opening tear when it is forced.",
    failing: "[trim.bell]\ndiameter = \"45 mm\"\n[step.bell]\ndo = \"insert\"\npart = \"body\"\ntrim = \"bell\"\n[opening.back]\na = \
              \"SIDE.l:u-v\"  # 40 mm",
    passing: "[trim.bell]\ndiameter = \"45 mm\"\n[step.bell]\ndo = \"insert\"\npart = \"body\"\ntrim = \"bell\"\n[opening.back]\na = \
              \"SIDE.l:u-v\"  # 60 mm",
    source: "plane geometry",
};

words! {
    MESSAGE "opening-under-trim.message" = "{id} of {wide} does not go through the widest opening of {part}, {widest} long{size}";
    HERE "opening-under-trim.here" = "put in here";
    HELP "opening-under-trim.help" = "make an opening at least {wide} long, or put it in before";
}

/// Reports each step once, in the first product.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for step in ground.model.steps.values().filter(|step| step.deed == Deed::Insert) {
        if let Some(finding) = too_wide(ground, step) {
            findings.push(finding);
        }
    }
}

fn too_wide(ground: &Ground<'_>, step: &Step) -> Option<Finding> {
    let (part, trim) = (step.part.as_ref()?, step.trim.as_ref()?);
    for size in sizes(ground.model) {
        let Some(widest) = widest(ground, &part.value, size) else { continue };
        for colourway in ground.model.colourways.keys() {
            let Some((article, _)) = ground.model.resolve(&trim.value, colourway) else { continue };
            let Some(wide) = wide(article, size) else { continue };
            if wide > widest + 0.001 {
                let message = say!(
                    MESSAGE,
                    id = &article.entry.id.value,
                    wide = mm(wide),
                    part = &part.value,
                    widest = mm(widest),
                    size = in_size(ground.model, size)
                );
                let finding = Finding::new(&RULE, message).at(trim.span, HERE);
                return Some(finding.help(say!(HELP, wide = mm(wide))));
            }
        }
    }
    None
}

/// What has to go through an opening, mm: the diameter of a trim, else its width.
fn wide(article: &Article, size: &str) -> Option<f64> {
    let stated = article.quantity("diameter").or_else(|| article.quantity("width"));
    let stated = stated.filter(|_| article.kind == ArticleKind::Trim)?;
    stated.known(of_size(size)).map(|one| one.si_f64() * 1000.0)
}

/// Length of the longest opening of a part, mm.
fn widest(ground: &Ground<'_>, part: &str, size: &str) -> Option<f64> {
    let assembly = ground.assembly;
    let lengths = assembly.joints.iter().filter_map(|joint| {
        let opening = ground.model.joints.get(&joint.joint)?.kind == JointKind::Opening;
        let first = joint.a.runs.first()?;
        let own = assembly.instances.get(first.instance)?.part == part;
        if !opening || !own {
            return None;
        }
        side_length(ground, &joint.a, size).get()
    });
    lengths.max_by(f64::total_cmp)
}
