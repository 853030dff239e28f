//! Colour readings held against the target of a colour.

use serde::Serialize;

use crate::colour::{Lab, ciede2000, mean};
use crate::compute::Number;
use crate::model::{Colour, LabReadings, Model};
use crate::source::Spanned;

use super::judge::Verdict;

/// Differences are told and held against limits in hundredths.
const HUNDREDTHS: f64 = 100.0;

/// One reading of a colour.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ColourRead {
    /// L*, a*, b*; absent where it was not read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lab: Option<[Number; 3]>,
    /// CIEDE2000 difference from the target, in hundredths; absent without a target.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub difference: Option<Number>,
    /// How it stands to the limit of the colour.
    pub verdict: Verdict,
}

/// Readings of one colour on all pieces.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ColourLine {
    /// Role, article or colour, as written.
    pub of: String,
    /// The colour; absent where it cannot be told which.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub colour: Option<String>,
    /// Its target L*, a*, b*.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub target: Option<[Number; 3]>,
    /// The largest difference that is accepted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<Number>,
    /// One for each piece.
    pub readings: Vec<ColourRead>,
    /// Of the mean of all readings.
    pub mean: ColourRead,
}

/// The colour that is meant: `plush/soot`, `colour.soot`, `soot`, a role in a colourway, an article bought in one colour.
pub(crate) fn meant<'a>(model: &'a Model, of: &str, colourway: Option<&str>) -> Option<&'a Colour> {
    if let Some((_, colour)) = of.split_once('/') {
        return model.colours.get(colour.trim());
    }
    let of = match of.split_once('.') {
        Some(("colour" | "role" | "fabric" | "thread" | "filling" | "trim", id)) => id,
        _ => of,
    };
    if model.roles.contains_key(of) {
        let only = || model.colourways.keys().next().filter(|_| model.colourways.len() == 1);
        let (_, colour) = model.resolve(of, colourway.or(only().map(String::as_str))?)?;
        return model.colours.get(colour?);
    }
    if let Some(article) = model.articles.get(of) {
        let [colour] = article.colours.as_slice() else { return None };
        return model.colours.get(&colour.value);
    }
    model.colours.get(of)
}

/// Readings against the target and the limit of a colour.
pub(crate) fn line(model: &Model, readings: &LabReadings, colourway: Option<&str>) -> ColourLine {
    held(meant(model, &readings.of.value, colourway), &readings.of.value, &readings.list)
}

/// The same for a colour that is known.
pub(crate) fn held(colour: Option<&Colour>, of: &str, list: &[Spanned<Option<[f64; 3]>>]) -> ColourLine {
    let target = colour.and_then(|colour| colour.lab.as_ref()?.known().copied());
    let limit = colour.and_then(|colour| colour.limit.as_ref()?.known().copied());
    let read: Vec<Lab> = list.iter().filter_map(|one| one.value.map(Lab::from)).collect();
    ColourLine {
        of: of.to_string(),
        colour: colour.map(|colour| colour.entry.id.value.clone()),
        target: target.map(|lab| lab.map(Number::new)),
        limit: limit.map(Number::new),
        readings: list.iter().map(|one| judged(one.value.map(Lab::from), target, limit)).collect(),
        mean: judged(mean(&read), target, limit),
    }
}

fn judged(read: Option<Lab>, target: Option<[f64; 3]>, limit: Option<f64>) -> ColourRead {
    let Some(read) = read else { return ColourRead { lab: None, difference: None, verdict: Verdict::Unread } };
    let hundredths = |value: f64| libm::round(value * HUNDREDTHS);
    let difference = target.map(|target| hundredths(ciede2000(target.into(), read)));
    let verdict = match (difference, limit.map(hundredths)) {
        (Some(difference), Some(limit)) if difference > limit => Verdict::Above,
        (Some(difference), Some(limit)) if difference == limit => Verdict::OnLimit,
        (Some(_), Some(_)) => Verdict::Inside,
        _ => Verdict::Unjudged,
    };
    let lab = Some([read.l, read.a, read.b].map(Number::new));
    ColourRead { lab, difference: difference.map(|difference| Number::new(difference / HUNDREDTHS)), verdict }
}
