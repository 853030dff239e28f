//! What quantities are called, and what is wrong with a written one.

use crate::units::{Dimension, Fault};

use super::{Phrase, Word, say};

crate::words! {
    LENGTH "dimension.length" = "a length";
    AREA "dimension.area" = "an area";
    MASS "dimension.mass" = "a mass";
    MASS_PER_AREA "dimension.mass-per-area" = "a mass per area";
    MASS_PER_LENGTH "dimension.mass-per-length" = "a mass per length";
    DENSITY "dimension.density" = "a stitch density";
    FORCE "dimension.force" = "a force";
    TORQUE "dimension.torque" = "a torque";
    TIME "dimension.time" = "a time";
    TEMPERATURE "dimension.temperature" = "a temperature";
    PRESSURE "dimension.pressure" = "a pressure";
    VOLUME "dimension.volume" = "a volume";
    PERCENT "dimension.percent" = "a percentage";
    COUNT "dimension.count" = "a number of pieces";
    ANGLE "dimension.angle" = "an angle";
}

crate::words! {
    EMPTY "quantity.empty" = "{dimension} is wanted, such as \"10 {unit}\"";
    EMPTY_ANY "quantity.empty-any" = "a quantity is wanted, such as \"10 mm\"";
    LONG "quantity.long" = "a quantity has at most {most} bytes, this has {found}";
    FOREIGN "quantity.foreign" = "`{written}` is not accepted: quantities are written in plain ASCII and ±";
    NO_NUMBER "quantity.no-number" = "a number is wanted, found `{written}`";
    DIGITS "quantity.digits" = "a number has at most 9 digits before the point and 9 after it";
    AMBIGUOUS "quantity.ambiguous" = "`{written}` can be read in two ways: write the number with a decimal point, without separators";
    NUMBER "quantity.number" = "`{written}` is not accepted as a number: write digits with at most one decimal point";
    FRACTION "quantity.fraction" = "pieces are counted in whole numbers";
    NO_UNIT "quantity.no-unit" = "`{written}` has no unit";
    UNKNOWN_UNIT "quantity.unknown-unit" = "`{written}` is no unit known here";
    OTHER_UNIT "quantity.other-unit" = "`{written}` is no unit known here: is `{unit}` meant?";
    MEASURES "quantity.measures" = "`{unit}` measures {found}, {wanted} is wanted here";
    EITHER "quantity.either" = "{first} or {other}";
    TOLERANCE "quantity.tolerance" = "a tolerance is written ±5 mm, +5/-3 mm or ±max(5 mm, 3 %)";
    BEHIND "quantity.behind" = "`{written}` behind the unit is no tolerance: {tolerance}";
    MAX "quantity.max" = "`max` takes two amounts: ±max(5 mm, 3 %)";
    ONE_WAY "quantity.one-way" = "a tolerance needs both directions";
    NO_MARGIN "quantity.no-margin" = "the tolerance has no number";
    BARE_MARGIN "quantity.bare-margin" = "the tolerance has no unit";
    OTHER_MARGIN "quantity.other-margin" = "`{unit}` measures {found}, the target {target}";
    NEGATIVE "quantity.negative" = "a tolerance cannot be negative";
    OTHER_DIMENSION "quantity.other-dimension" = "the tolerance measures something else than its target";
    SHARE_OF_TEMPERATURE "quantity.share-of-temperature" = "a percentage of a Celsius temperature means nothing";
    INEXACT "quantity.inexact" = "more digits than can be held exactly";
}

/// The name of a dimension in a sentence: "a length is wanted".
pub fn dimension(of: Dimension) -> Word {
    match of {
        Dimension::Length => LENGTH,
        Dimension::Area => AREA,
        Dimension::Mass => MASS,
        Dimension::MassPerArea => MASS_PER_AREA,
        Dimension::MassPerLength => MASS_PER_LENGTH,
        Dimension::Density => DENSITY,
        Dimension::Force => FORCE,
        Dimension::Torque => TORQUE,
        Dimension::Time => TIME,
        Dimension::Temperature => TEMPERATURE,
        Dimension::Pressure => PRESSURE,
        Dimension::Volume => VOLUME,
        Dimension::Percent => PERCENT,
        Dimension::Count => COUNT,
        Dimension::Angle => ANGLE,
    }
}

impl From<Dimension> for Phrase {
    fn from(of: Dimension) -> Self {
        dimension(of).into()
    }
}

/// `a length`, `a length or a percentage`.
pub fn either(dimensions: &[Dimension]) -> Phrase {
    let names = dimensions.iter().map(|one| Phrase::from(*one));
    names.reduce(|first, other| say!(EITHER, first, other)).unwrap_or_default()
}

/// What is wrong with a written quantity, as one clause for a person; no full stop.
impl From<&Fault> for Phrase {
    fn from(fault: &Fault) -> Self {
        match fault {
            Fault::Empty(Some(dimension)) => say!(EMPTY, dimension = *dimension, unit = dimension.usual().symbol()),
            Fault::Empty(None) => EMPTY_ANY.into(),
            Fault::Long { most, found } => say!(LONG, most = *most, found = *found),
            Fault::Foreign(written) => say!(FOREIGN, written),
            Fault::NoNumber(written) => say!(NO_NUMBER, written),
            Fault::Digits => DIGITS.into(),
            Fault::Ambiguous(written) => say!(AMBIGUOUS, written),
            Fault::Number(written) => say!(NUMBER, written),
            Fault::Fraction => FRACTION.into(),
            Fault::NoUnit(written) => say!(NO_UNIT, written),
            Fault::UnknownUnit { written, meant: None } => say!(UNKNOWN_UNIT, written),
            Fault::UnknownUnit { written, meant: Some(unit) } => say!(OTHER_UNIT, written, unit = unit.symbol()),
            Fault::Measures { unit, wanted } => {
                say!(MEASURES, unit = unit.symbol(), found = unit.dimension(), wanted = either(wanted))
            }
            Fault::Tolerance => TOLERANCE.into(),
            Fault::Behind(written) => say!(BEHIND, written, tolerance = TOLERANCE),
            Fault::Max => MAX.into(),
            Fault::OneWay => ONE_WAY.into(),
            Fault::NoMargin => NO_MARGIN.into(),
            Fault::BareMargin => BARE_MARGIN.into(),
            Fault::OtherMargin { unit, target } => {
                say!(OTHER_MARGIN, unit = unit.symbol(), found = unit.dimension(), target = *target)
            }
            Fault::Negative => NEGATIVE.into(),
            Fault::OtherDimension => OTHER_DIMENSION.into(),
            Fault::ShareOfTemperature => SHARE_OF_TEMPERATURE.into(),
            Fault::Inexact => INEXACT.into(),
        }
    }
}
