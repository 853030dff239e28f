//! Equal allowances against a table made with another library; `tests/core/offset_table/make.py` says how.

use super::offset::polygon;
use backtack_core::geom::{Corner, Outline, offset};
use std::collections::BTreeMap;

const TABLE: &str = include_str!("../offset_table/areas.csv");

fn shapes() -> BTreeMap<&'static str, Outline> {
    let shape = |line: &'static str| {
        let (name, corners) = line.split_once(',').expect("a name and corners");
        let corner = |(n, corner): (usize, &str)| {
            let (x, y) = corner.split_once(' ').expect("x and y");
            (format!("p{n:02}"), x.parse::<f64>().expect("x"), y.parse::<f64>().expect("y"))
        };
        let corners: Vec<_> = corners.split(',').enumerate().map(corner).collect();
        let corners: Vec<_> = corners.iter().map(|(id, x, y)| (id.as_str(), *x, *y)).collect();
        (name, polygon(&corners))
    };
    TABLE.lines().filter_map(|line| line.strip_prefix('#')).map(shape).collect()
}

#[test]
fn twenty_shapes_agree_with_another_library() {
    let shapes = shapes();
    assert_eq!(shapes.len(), 20);
    let mut seen = 0;
    for line in TABLE.lines().skip(1).filter(|line| !line.starts_with('#')) {
        let [name, allowance, style, area, length] = line.split(',').collect::<Vec<_>>()[..] else { panic!("{line}") };
        let number = |text: &str| text.parse::<f64>().expect("a number");
        let (outline, width) = (&shapes[name], number(allowance));
        let corner = if style == "mitre" { Corner::Mitre { limit: 50.0 } } else { Corner::Round };
        let widths = vec![width.abs(); outline.runs().len()];
        let found = match width > 0.0 {
            true => offset::outset(outline, &widths, corner),
            false => offset::inset(outline, &widths, corner),
        };
        let found = found.unwrap_or_else(|error| panic!("{line}: {error:?}"));
        // Half a micrometre of rounding to either side of each edge, and arcs within 2.5 µm.
        let slack = 0.003 * number(length);
        assert!((found.area() - number(area)).abs() <= slack, "{line}: {}", found.area());
        assert!((found.perimeter() - number(length)).abs() <= 0.05, "{line}: {}", found.perimeter());
        seen += 1;
    }
    assert_eq!(seen, 120);
}
