//! The units that may be written, and what each measures.
//!
//! Symbols follow ISO 80000-1 with `2` and `3` for the superscripts, so that a file stays plain
//! ASCII. Inch and pound units are exact by the international yard and pound agreement of 1959
//! (0.9144 m, 0.45359237 kg); the pound-force uses standard gravity 9.80665 m/s2 (NIST SP 811).

use std::fmt;

use super::Rational;

/// What a quantity measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Length, held in m.
    Length,
    /// Area, held in m2.
    Area,
    /// Mass, held in kg.
    Mass,
    /// Mass per area of fabric, held in kg/m2.
    MassPerArea,
    /// Linear density of yarn, thread and length goods, held in kg/m.
    MassPerLength,
    /// Stitches per length, held in 1/m.
    Density,
    /// Force, held in N.
    Force,
    /// Torque, held in N m.
    Torque,
    /// Time, held in s.
    Time,
    /// Temperature on the Celsius scale, held in degrees Celsius.
    Temperature,
    /// Pressure, held in Pa.
    Pressure,
    /// Volume, held in m3.
    Volume,
    /// A share of something, held as a fraction: 3 % is 0.03.
    Percent,
    /// Whole pieces, held as their number.
    Count,
    /// Plane angle, held in degrees: the radian of SI is no rational multiple of them.
    Angle,
}

impl Dimension {
    /// The unit usual in the trade, proposed where a number stands without one (*common practice*).
    pub fn usual(self) -> Unit {
        match self {
            Self::Length => Unit::Mm,
            Self::Area => Unit::Cm2,
            Self::Mass => Unit::G,
            Self::MassPerArea => Unit::GPerM2,
            Self::MassPerLength => Unit::Tex,
            Self::Density => Unit::StPerCm,
            Self::Force => Unit::N,
            Self::Torque => Unit::Nm,
            Self::Time => Unit::Min,
            Self::Temperature => Unit::C,
            Self::Pressure => Unit::KPa,
            Self::Volume => Unit::Cm3,
            Self::Percent => Unit::Percent,
            Self::Count => Unit::Pc,
            Self::Angle => Unit::Deg,
        }
    }

    /// Every unit of the dimension, in the order of [`Unit::ALL`].
    pub fn units(self) -> impl Iterator<Item = Unit> {
        Unit::ALL.into_iter().filter(move |unit| unit.dimension() == self)
    }
}

/// Declares the units once: name, symbol, dimension, and the exact factor to the unit in which the
/// dimension is held.
macro_rules! units {
    ($($name:ident $symbol:literal $dimension:ident $numerator:literal / $denominator:literal,)*) => {
        /// A unit that may be written in a specification.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Unit {
            $(#[doc = concat!("`", $symbol, "`")] $name,)*
        }

        impl Unit {
            /// Every unit.
            pub const ALL: [Unit; [$($symbol),*].len()] = [$(Self::$name),*];

            /// The symbol as it is written: `mm`, `g/m2`, `N m`.
            pub fn symbol(self) -> &'static str {
                match self { $(Self::$name => $symbol,)* }
            }

            /// What the unit measures.
            pub fn dimension(self) -> Dimension {
                match self { $(Self::$name => Dimension::$dimension,)* }
            }

            /// Numerator and denominator of the factor, above zero.
            fn factor(self) -> (i128, i128) {
                match self { $(Self::$name => ($numerator, $denominator),)* }
            }
        }
    };
}

units! {
    Mm "mm" Length 1 / 1_000,
    Cm "cm" Length 1 / 100,
    M "m" Length 1 / 1,
    Um "um" Length 1 / 1_000_000,
    In "in" Length 254 / 10_000,
    Ft "ft" Length 3_048 / 10_000,
    Yd "yd" Length 9_144 / 10_000,
    Mm2 "mm2" Area 1 / 1_000_000,
    Cm2 "cm2" Area 1 / 10_000,
    M2 "m2" Area 1 / 1,
    G "g" Mass 1 / 1_000,
    Kg "kg" Mass 1 / 1,
    Mg "mg" Mass 1 / 1_000_000,
    Oz "oz" Mass 45_359_237 / 1_600_000_000,
    Lb "lb" Mass 45_359_237 / 100_000_000,
    GPerM2 "g/m2" MassPerArea 1 / 1_000,
    // An ounce over 0.83612736 m2, the square of 0.9144 m.
    OzPerYd2 "oz/yd2" MassPerArea 45_359_237 / 1_337_803_776,
    Tex "tex" MassPerLength 1 / 1_000_000,
    Dtex "dtex" MassPerLength 1 / 10_000_000,
    GPerM "g/m" MassPerLength 1 / 1_000,
    StPerCm "st/cm" Density 100 / 1,
    StPerIn "st/in" Density 10_000 / 254,
    N "N" Force 1 / 1,
    // 0.45359237 kg times 9.80665 m/s2.
    Lbf "lbf" Force 44_482_216_152_605 / 10_000_000_000_000,
    Nm "N m" Torque 1 / 1,
    // A pound-force times 0.0254 m.
    InLbf "in lbf" Torque 1_129_848_290_276_167 / 10_000_000_000_000_000,
    S "s" Time 1 / 1,
    Min "min" Time 60 / 1,
    H "h" Time 3_600 / 1,
    D "d" Time 86_400 / 1,
    C "C" Temperature 1 / 1,
    KPa "kPa" Pressure 1_000 / 1,
    Bar "bar" Pressure 100_000 / 1,
    L "l" Volume 1 / 1_000,
    Ml "ml" Volume 1 / 1_000_000,
    Cm3 "cm3" Volume 1 / 1_000_000,
    M3 "m3" Volume 1 / 1,
    Percent "%" Percent 1 / 100,
    Pc "pc" Count 1 / 1,
    Deg "deg" Angle 1 / 1,
}

impl Unit {
    /// The exact factor to the unit in which the dimension is held (see [`Dimension`]).
    #[expect(clippy::expect_used, reason = "the table above is checked by a test over every unit")]
    pub fn si_factor(self) -> Rational {
        let (numerator, denominator) = self.factor();
        Rational::new(numerator, denominator).expect("unit factors have denominators above zero")
    }

    /// The unit with this symbol; spaces must be single.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.symbol())
    }
}
