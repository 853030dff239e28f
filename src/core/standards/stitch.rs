//! Stitch types by number: ISO 4915:1991 (as also read in ASTM D6193).
//!
//! Not the whole standard: the types that sewn toys, cushions and bags are made with. A number that is missing here may
//! still be a type of the standard; [`class_of`] says which class it would belong to.

use super::Basis;

/// The six classes of ISO 4915, by the first digit of the number. *Seen* in college and thread makers' texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// 100: one thread, looped with itself.
    SingleChain,
    /// 200: made by hand, or imitating it.
    Hand,
    /// 300: two groups of threads interlaced in the fabric.
    Lock,
    /// 400: needle threads interlooped with a looper thread.
    MultiChain,
    /// 500: thread passed round the edge.
    Overedge,
    /// 600: both faces covered.
    Cover,
}

impl Class {
    /// The name of the class in the standard.
    pub fn name(self) -> &'static str {
        match self {
            Class::SingleChain => "single-thread chainstitches",
            Class::Hand => "stitches originating as hand stitches",
            Class::Lock => "lockstitches",
            Class::MultiChain => "multi-thread chainstitches",
            Class::Overedge => "overedge chainstitches",
            Class::Cover => "covering chainstitches",
        }
    }
}

/// One stitch type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stitch {
    /// Three digits.
    pub number: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// Whether number and name were read in a source.
    pub basis: Basis,
}

const fn seen(number: &'static str, name: &'static str) -> Stitch {
    Stitch { number, name, basis: Basis::Seen }
}

const fn memory(number: &'static str, name: &'static str) -> Stitch {
    Stitch { number, name, basis: Basis::Memory }
}

/// The stitch types known here, in order of their numbers.
pub const STITCHES: &[Stitch] = &[
    seen("101", "single-thread chainstitch"),
    memory("103", "single-thread blind stitch"),
    memory("107", "single-thread zigzag chainstitch"),
    seen("301", "lockstitch, two threads"),
    seen("304", "zigzag lockstitch, two threads"),
    seen("401", "two-thread chainstitch"),
    memory("404", "two-thread zigzag chainstitch"),
    seen("406", "two-needle three-thread coverstitch"),
    memory("407", "three-needle four-thread coverstitch"),
    memory("501", "single-thread overedge"),
    memory("503", "two-thread overedge"),
    seen("504", "three-thread overedge"),
    memory("512", "two-needle four-thread overedge (mock safety)"),
    memory("514", "two-needle four-thread overedge"),
    memory("515", "four-thread safety stitch (401 with 503)"),
    seen("516", "five-thread safety stitch"),
    seen("602", "two-needle four-thread coverstitch"),
    seen("605", "three-needle five-thread coverstitch"),
    memory("607", "four-needle six-thread flat seam"),
];

impl Stitch {
    /// The class its first digit puts it in.
    pub fn class(&self) -> Option<Class> {
        class_of(self.number)
    }
}

/// The stitch type with exactly this number.
pub fn find(number: &str) -> Option<&'static Stitch> {
    STITCHES.iter().find(|stitch| stitch.number == number)
}

/// The class a three-digit number belongs to, whether the type is known here or not.
pub fn class_of(number: &str) -> Option<Class> {
    match number.as_bytes() {
        [class, b, c] if b.is_ascii_digit() && c.is_ascii_digit() => match class {
            b'1' => Some(Class::SingleChain),
            b'2' => Some(Class::Hand),
            b'3' => Some(Class::Lock),
            b'4' => Some(Class::MultiChain),
            b'5' => Some(Class::Overedge),
            b'6' => Some(Class::Cover),
            _ => None,
        },
        _ => None,
    }
}

/// The stitch type most likely meant by `written`: one whose number stands in it, one whose name holds it, or one whose
/// number differs by one slip of the hand (of several, one of the same class, then the nearest number).
pub fn nearest(written: &str) -> Option<&'static Stitch> {
    let wanted = written.trim().to_lowercase();
    if wanted.is_empty() {
        return None;
    }
    let inside = STITCHES.iter().find(|stitch| wanted.contains(stitch.number));
    let named = || STITCHES.iter().find(|stitch| wanted.len() > 3 && stitch.name.contains(&wanted));
    inside.or_else(named).or_else(|| slip(&wanted))
}

fn slip(wanted: &str) -> Option<&'static Stitch> {
    let value = wanted.parse::<u32>().ok();
    let distance = |stitch: &Stitch| strsim::osa_distance(stitch.number, wanted);
    let far = |stitch: &Stitch| match (value, stitch.number.parse::<u32>()) {
        (Some(value), Ok(number)) => value.abs_diff(number),
        _ => u32::MAX,
    };
    let class = |stitch: &Stitch| stitch.number.chars().next() != wanted.chars().next();
    STITCHES.iter().filter(|stitch| distance(stitch) <= 1).min_by_key(|stitch| (class(stitch), far(stitch)))
}
