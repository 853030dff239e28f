//! The confirmation: what the factory confirms, what must be there before the next stage, and who signs for what.

use std::collections::BTreeSet;

use crate::model::property::{self, Property};
use crate::model::{Binding, Colour, Given, Stated, Value};
use crate::samples::figures::{ApprovalLine, SealedLine, Standing};
use crate::words::number::quantity;
use crate::words::{Phrase, head as heads, say, sheet as sentences, words};

use super::choice::{begun, said};
use super::data::{Callout, Confirmation, Required, Sheet};
use super::package::{Fact, Head};
use super::view::View;
use super::written::day as on;
use crate::samples::rows::comments::{point, submission};

words! {
    LEAD "confirmation.lead" = "Whatever is to be confirmed or filled in is here once more. Sign this sheet; one chop across the edges of all sheets.";
    OWNER "confirmation.owner" = "For the owner";
    FACTORY "confirmation.factory" = "For the factory";
    ASKED "confirmation.asked" = "{item}, {what}: {request}";
    ASKED_OF "confirmation.asked-of" = "{item}, {what} ({code}): {request}";
    OUTLINE "confirmation.outline" = "outline";
    FILLING_MASS "confirmation.filling-mass" = "filling mass";
    MEASUREMENT "confirmation.measurement" = "measurement";
    AS_DRAWN "confirmation.as-drawn" = "as drawn";
    CONFIRM "confirmation.confirm" = "{value}, to be confirmed";
    FILL_IN "confirmation.fill-in" = "{value}, or what the factory gives";
    GIVE "confirmation.give" = "to be given by the factory";
    APPROVED "confirmation.approved" = "approved";
    OPEN "confirmation.open" = "{what}: {standing}";
    OF_KIND "confirmation.of-kind" = "approval, {kind}";
    APPROVAL "confirmation.approval" = "approval";
    PAST "confirmation.past" = "past its date";
    IN_COLOUR "confirmation.in-colour" = "{article} in {colour}";
    COLOUR "confirmation.colour" = "colour approved";
    COLOUR_AGAINST "confirmation.colour-against" = "colour against {reference}";
    SAMPLE "confirmation.sample" = "Sample inside the limits";
    CRITICAL "confirmation.critical" = "critical points {points}";
    SEALED_ON "confirmation.sealed-on" = "Sealed on";
    PLACE "confirmation.place" = "Place";
    SETS "confirmation.sets" = "Sets with";
    SIGNED_BY "confirmation.signed-by" = "Signed by";
    DEVIATIONS "confirmation.deviations" = "Not as the figures, which decide";
    BEFORE_WORK "confirmation.before-work" = "before work begins";
    ANSWERED_BY "confirmation.answered-by" = "Answered by (name)";
    DEVIATION "confirmation.deviation" = "We deviate from what is written here as follows. What is not agreed by the owner in writing is not made so.";
    DEVIATION_SHEET "confirmation.deviation-sheet" = "Sheet";
    DEVIATION_POINT "confirmation.deviation-point" = "Point";
    DEVIATION_INSTEAD "confirmation.deviation-instead" = "What we make instead, and why";
    UNTIL "confirmation.until" = "Valid until";
}

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let items = asked(view);
    vec![Sheet::Confirmation(Confirmation {
        head: Head {
            title: sentences::CONFIRMATION_TITLE.into(),
            name: sentences::CONFIRMATION.into(),
            lead: LEAD.into(),
        },
        items: items.into_iter().enumerate().map(|(n, text)| Callout { number: (n + 1).to_string(), text }).collect(),
        required: required(view),
        checklist: view.samples.checklist.iter().map(point).collect(),
        sealed: view.samples.approvals.iter().filter_map(|one| one.sealed.as_ref()).map(sealed).collect(),
        manifest: view.sealed.unwrap_or_default().into(),
        covers: [sentences::SIGNATURE_COVERS, sentences::SIGNATURE_EXCEPT, sentences::SIGNATURE_CHANGE]
            .map(Phrase::from)
            .to_vec(),
        signed: signed(view),
        // What the other sheets leave blank is known when they are filled.
        blanks: Vec::new(),
        answer: vec![
            Fact::of(heads::ANSWER_BY, by(view)),
            Fact::of(ANSWERED_BY, Phrase::none()),
            Fact::of(heads::DATE, Phrase::none()),
        ],
        deviation: DEVIATION.into(),
        deviations: [DEVIATION_SHEET, DEVIATION_POINT, DEVIATION_INSTEAD].map(Phrase::from).to_vec(),
        parties: vec![OWNER.into(), FACTORY.into()],
    })]
}

/// By when the factory answers; where no day is stated, in words.
fn by(view: &View<'_>) -> Phrase {
    let day = view.date(view.model.revision.answer.as_ref());
    day.map_or_else(|| BEFORE_WORK.into(), |day| on(Some(day)).into())
}

/// How much is to be confirmed, filled in or approved before the next stage.
pub(super) fn open(view: &View<'_>) -> usize {
    asked(view).len() + required(view).iter().filter(|one| !one.done).count()
}

/// One line for each value that the factory confirms or fills in.
fn asked(view: &View<'_>) -> Vec<Phrase> {
    let mut all = Vec::new();
    for article in view.model.articles.values() {
        let title = article.entry.title();
        for spec in property::of(article.kind) {
            match article.properties.get(spec.key) {
                Some(Property::Text(value)) => ask(&mut all, title, spec.title, value, |text| text.into()),
                Some(Property::Quantity(value)) => {
                    ask(&mut all, title, spec.title, value, |one| quantity(one).into());
                }
                None => {}
            }
        }
    }
    for piece in view.model.pieces.values() {
        if let Some(outline) = &piece.outline {
            ask(&mut all, piece.entry.title(), OUTLINE, outline, |_| AS_DRAWN.into());
        }
    }
    for stuffing in view.model.stuffings.values() {
        if let Some(mass) = &stuffing.mass {
            ask(&mut all, stuffing.entry.title(), FILLING_MASS, mass, |one| quantity(one).into());
        }
    }
    for point in view.model.measures.values() {
        if let Some(target) = &point.target {
            ask(&mut all, point.entry.title(), MEASUREMENT, target, |one| quantity(one).into());
        }
    }
    all
}

fn ask<T>(
    all: &mut Vec<Phrase>,
    item: &str,
    what: impl Into<Phrase>,
    value: &Value<T>,
    written: impl Fn(&T) -> Phrase,
) {
    let what = what.into();
    let coded = value.by.iter().map(|(code, (_, stated))| (Some(code), stated));
    for (code, stated) in value.otherwise.iter().map(|stated| (None, stated)).chain(coded) {
        let Some(request) = request(stated, &written) else { continue };
        let what = what.clone();
        all.push(match code {
            Some(code) => say!(ASKED_OF, item, what, code, request),
            None => say!(ASKED, item, what, request),
        });
    }
}

fn request<T>(stated: &Stated<T>, written: &impl Fn(&T) -> Phrase) -> Option<Phrase> {
    match (&stated.given, stated.binding) {
        (Given::Known(value), Binding::Confirm) => Some(say!(CONFIRM, value = written(value))),
        (Given::Known(value), Binding::FillIn) => Some(say!(FILL_IN, value = written(value))),
        (Given::ByFactory, _) => Some(GIVE.into()),
        _ => None,
    }
}

/// What is approved and what is to be: colours with a target, everything that an approval is asked for, and the points for which a
/// product is refused.
fn required(view: &View<'_>) -> Vec<Required> {
    let mut all: Vec<Required> = Vec::new();
    let mut used: BTreeSet<&str> = BTreeSet::new();
    for way in view.model.ways() {
        for role in view.model.colourways.get(way).into_iter().flat_map(|way| way.roles.keys()) {
            let Some((article, Some(colour))) = view.model.resolve(role, way) else { continue };
            let Some(found) = view.model.colours.get(colour) else { continue };
            let label = say!(IN_COLOUR, article = article.entry.title(), colour = found.entry.title());
            let names = [role.clone(), format!("{}/{colour}", article.entry.id.value)];
            let of_it = |one: &&ApprovalLine| {
                let here = one.colourway.as_deref().is_none_or(|one| one == way);
                here && one.of.as_ref().is_some_and(|of| names.contains(of))
            };
            let listed = view.samples.approvals.iter().find(of_it);
            used.extend(listed.map(|one| one.approval.as_str()));
            // What has no target and no approval is as its reference says, undyed or by a shade card.
            let one = match listed {
                Some(line) => approval(label, line),
                None if found.lab.is_some() => Required { label, value: colour_asked(view, found), done: false },
                None => continue,
            };
            if all.iter().all(|other| other.label != one.label) {
                all.push(one);
            }
        }
    }
    let others = view.samples.approvals.iter().filter(|one| one.required && !used.contains(one.approval.as_str()));
    all.extend(others.map(|one| approval((&one.name).into(), one)));
    let critical = view.model.measures.values().filter(|point| point.critical.as_ref().is_some_and(|flag| flag.value));
    let names: Vec<&str> = critical.map(|point| point.entry.id.value.as_str()).collect();
    if !names.is_empty() {
        all.push(Required { label: SAMPLE.into(), value: say!(CRITICAL, points = Phrase::list(names)), done: false });
    }
    all.sort_by_key(|one| one.done);
    all
}

fn colour_asked(view: &View<'_>, colour: &Colour) -> Phrase {
    match view.text(colour.reference.as_ref()) {
        "" => COLOUR.into(),
        reference => say!(COLOUR_AGAINST, reference),
    }
}

/// An approval: done where the last submission was approved and still holds.
fn approval(label: Phrase, line: &ApprovalLine) -> Required {
    let given = matches!(line.standing, Standing::Approved | Standing::ApprovedWithCorrections);
    if given && !line.expired {
        let last = line.submissions.iter().max_by_key(|one| one.number);
        let value = last.map_or_else(|| APPROVED.into(), submission);
        return Required { label, value, done: true };
    }
    let what = line.kind.as_deref().map_or_else(|| APPROVAL.into(), |kind| say!(OF_KIND, kind = said(kind)));
    let standing = if line.expired { PAST.into() } else { said(line.standing.words()) };
    Required { label, value: say!(OPEN, what, standing), done: false }
}

/// The record of a sealed sample.
fn sealed(one: &SealedLine) -> Vec<Fact> {
    let text = |text: &Option<String>| text.as_ref().map_or_else(Phrase::none, Phrase::from);
    vec![
        Fact::of(heads::SEAL_TAG, text(&one.tag)),
        Fact::of(SEALED_ON, on(one.date)),
        Fact::of(PLACE, text(&one.place)),
        Fact::of(SETS, Phrase::list(&one.sets)),
        Fact::of(SIGNED_BY, Phrase::list(&one.signatories)),
        Fact::of(DEVIATIONS, Phrase::row(&one.deviations, "; ")),
        Fact::of(UNTIL, on(one.until)),
    ]
}

fn signed(view: &View<'_>) -> Vec<Fact> {
    let (style, revision) = (&view.model.style, &view.model.revision);
    vec![
        Fact::of(heads::STYLE_NUMBER, view.text(style.id.as_ref())),
        Fact::of(heads::REVISION, view.text(revision.id.as_ref())),
        Fact::of(heads::STAGE, begun(view.text(revision.stage.as_ref()))),
        Fact::of(heads::ISSUED, on(view.date(revision.date.as_ref()))),
        Fact::of(heads::DIGEST, view.digest),
    ]
}
