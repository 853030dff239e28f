//! Colours as numbers: CIELAB and the CIEDE2000 difference. A leaf: imports nothing of ours.

/// A colour in CIELAB: L* from 0 to 100, a* and b*.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lab {
    /// Lightness.
    pub l: f64,
    /// Green to red.
    pub a: f64,
    /// Blue to yellow.
    pub b: f64,
}

impl From<[f64; 3]> for Lab {
    fn from([l, a, b]: [f64; 3]) -> Self {
        Lab { l, a, b }
    }
}

/// The mean of several readings; `None` of none.
pub fn mean(readings: &[Lab]) -> Option<Lab> {
    let count = readings.len() as f64;
    let of = |pick: fn(&Lab) -> f64| readings.iter().map(pick).sum::<f64>() / count;
    (!readings.is_empty()).then(|| Lab { l: of(|one| one.l), a: of(|one| one.a), b: of(|one| one.b) })
}

/// The difference ΔE*ab of 1976: the plain distance.
pub fn difference_1976(one: Lab, other: Lab) -> f64 {
    libm::sqrt(square(one.l - other.l) + square(one.a - other.a) + square(one.b - other.b))
}

/// The difference ΔE00 with all three parametric factors at 1.
///
/// CIE 142:2001 (ISO/CIE 11664-6), in the form that G. Sharma, W. Wu and E. N. Dalal give in Color Research and
/// Application 30(1), 21-30 (2005); the numbers of equations are theirs.
pub fn ciede2000(one: Lab, other: Lab) -> f64 {
    let (first, second) = primed(one, other);
    let chroma = f64::midpoint(first.chroma, second.chroma);
    let (turn, hue) = hues(&first, &second);
    let lightness = f64::midpoint(one.l, other.l);
    // (8) to (11)
    let d_lightness = other.l - one.l;
    let d_chroma = second.chroma - first.chroma;
    let d_hue = 2.0 * libm::sqrt(first.chroma * second.chroma) * sin(turn / 2.0);
    // (15)
    let t = 1.0 - 0.17 * cos(hue - 30.0) + 0.24 * cos(2.0 * hue) + 0.32 * cos(3.0 * hue + 6.0)
        - 0.20 * cos(4.0 * hue - 63.0);
    // (16) to (21)
    let d_theta = 30.0 * libm::exp(-square((hue - 275.0) / 25.0));
    let r_chroma = 2.0 * bend(chroma);
    let away = square(lightness - 50.0);
    let s_lightness = 1.0 + 0.015 * away / libm::sqrt(20.0 + away);
    let s_chroma = 1.0 + 0.045 * chroma;
    let s_hue = 1.0 + 0.015 * chroma * t;
    let rotation = -sin(2.0 * d_theta) * r_chroma;
    // (22)
    let (l, c, h) = (d_lightness / s_lightness, d_chroma / s_chroma, d_hue / s_hue);
    libm::sqrt(square(l) + square(c) + square(h) + rotation * c * h)
}

/// Chroma and hue angle after a* is stretched.
struct Primed {
    chroma: f64,
    /// Degrees from 0 to below 360; 0 where there is no chroma.
    hue: f64,
}

/// (2) to (7).
fn primed(one: Lab, other: Lab) -> (Primed, Primed) {
    let chroma = |lab: Lab| libm::sqrt(square(lab.a) + square(lab.b));
    let stretch = 1.0 + 0.5 * (1.0 - bend(f64::midpoint(chroma(one), chroma(other))));
    let make = |lab: Lab| {
        let a = stretch * lab.a;
        let hue = if a == 0.0 && lab.b == 0.0 { 0.0 } else { degrees(libm::atan2(lab.b, a)) };
        Primed { chroma: libm::sqrt(square(a) + square(lab.b)), hue: if hue < 0.0 { hue + 360.0 } else { hue } }
    };
    (make(one), make(other))
}

/// The difference of two hues and their mean, degrees: (10) and (14).
fn hues(first: &Primed, second: &Primed) -> (f64, f64) {
    if first.chroma * second.chroma == 0.0 {
        return (0.0, first.hue + second.hue);
    }
    let plain = second.hue - first.hue;
    let turn = if plain > 180.0 {
        plain - 360.0
    } else if plain < -180.0 {
        plain + 360.0
    } else {
        plain
    };
    let sum = first.hue + second.hue;
    let hue = if libm::fabs(plain) <= 180.0 {
        sum / 2.0
    } else if sum < 360.0 {
        (sum + 360.0) / 2.0
    } else {
        (sum - 360.0) / 2.0
    };
    (turn, hue)
}

/// √(C⁷ / (C⁷ + 25⁷)).
fn bend(chroma: f64) -> f64 {
    let seventh = |x: f64| square(x * x * x) * x;
    libm::sqrt(seventh(chroma) / (seventh(chroma) + seventh(25.0)))
}

fn square(x: f64) -> f64 {
    x * x
}

fn degrees(radians: f64) -> f64 {
    radians * 180.0 / std::f64::consts::PI
}

fn sin(degrees: f64) -> f64 {
    libm::sin(degrees * std::f64::consts::PI / 180.0)
}

fn cos(degrees: f64) -> f64 {
    libm::cos(degrees * std::f64::consts::PI / 180.0)
}
