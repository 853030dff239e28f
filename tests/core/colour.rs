//! Colour differences against published pairs, grades against the published scales.

use backtack_core::colour::{Lab, ciede2000, difference_1976, mean};
use backtack_core::standards::grey::{CHANGE, GRADES, STAINING, Scale, find, reaches};

/// G. Sharma, W. Wu, E. N. Dalal, Color Research and Application 30(1), 21-30 (2005), Table 1: L*, a*, b* of both colours
/// and the difference.
const PAIRS: [[f64; 7]; 34] = [
    [50.0, 2.6772, -79.7751, 50.0, 0.0, -82.7485, 2.0425],
    [50.0, 3.1571, -77.2803, 50.0, 0.0, -82.7485, 2.8615],
    [50.0, 2.8361, -74.02, 50.0, 0.0, -82.7485, 3.4412],
    [50.0, -1.3802, -84.2814, 50.0, 0.0, -82.7485, 1.0],
    [50.0, -1.1848, -84.8006, 50.0, 0.0, -82.7485, 1.0],
    [50.0, -0.9009, -85.5211, 50.0, 0.0, -82.7485, 1.0],
    [50.0, 0.0, 0.0, 50.0, -1.0, 2.0, 2.3669],
    [50.0, -1.0, 2.0, 50.0, 0.0, 0.0, 2.3669],
    [50.0, 2.49, -0.001, 50.0, -2.49, 0.0009, 7.1792],
    [50.0, 2.49, -0.001, 50.0, -2.49, 0.001, 7.1792],
    [50.0, 2.49, -0.001, 50.0, -2.49, 0.0011, 7.2195],
    [50.0, 2.49, -0.001, 50.0, -2.49, 0.0012, 7.2195],
    [50.0, -0.001, 2.49, 50.0, 0.0009, -2.49, 4.8045],
    [50.0, -0.001, 2.49, 50.0, 0.001, -2.49, 4.8045],
    [50.0, -0.001, 2.49, 50.0, 0.0011, -2.49, 4.7461],
    [50.0, 2.5, 0.0, 50.0, 0.0, -2.5, 4.3065],
    [50.0, 2.5, 0.0, 73.0, 25.0, -18.0, 27.1492],
    [50.0, 2.5, 0.0, 61.0, -5.0, 29.0, 22.8977],
    [50.0, 2.5, 0.0, 56.0, -27.0, -3.0, 31.903],
    [50.0, 2.5, 0.0, 58.0, 24.0, 15.0, 19.4535],
    [50.0, 2.5, 0.0, 50.0, 3.1736, 0.5854, 1.0],
    [50.0, 2.5, 0.0, 50.0, 3.2972, 0.0, 1.0],
    [50.0, 2.5, 0.0, 50.0, 1.8634, 0.5757, 1.0],
    [50.0, 2.5, 0.0, 50.0, 3.2592, 0.335, 1.0],
    [60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644],
    [63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.263],
    [61.2901, 3.7196, -5.3901, 61.4292, 2.248, -4.962, 1.8731],
    [35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645],
    [22.7233, 20.0904, -46.694, 23.0331, 14.973, -42.5619, 2.0373],
    [36.4612, 47.858, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146],
    [90.8027, -2.0831, 1.441, 91.1528, -1.6435, 0.0447, 1.4441],
    [90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381],
    [6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377],
    [2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082],
];

#[test]
fn all_published_pairs_come_out() {
    for [l1, a1, b1, l2, a2, b2, wanted] in PAIRS {
        let (one, other) = (Lab::from([l1, a1, b1]), Lab::from([l2, a2, b2]));
        let found = ciede2000(one, other);
        assert!((found - wanted).abs() <= 0.000_05 + 1e-9, "{one:?} {other:?}: {found} instead of {wanted}");
        assert!((ciede2000(other, one) - found).abs() < 1e-12, "it is the same both ways");
    }
}

#[test]
fn a_colour_does_not_differ_from_itself() {
    for [l, a, b, ..] in PAIRS {
        assert_eq!(ciede2000(Lab::from([l, a, b]), Lab::from([l, a, b])), 0.0);
    }
}

/// 3, 4 and 12 make 13.
#[test]
fn the_difference_of_1976_is_a_distance() {
    assert_eq!(difference_1976(Lab::from([50.0, 0.0, 0.0]), Lab::from([53.0, 4.0, -12.0])), 13.0);
}

#[test]
fn readings_are_averaged() {
    let list = [Lab::from([50.0, 1.0, -2.0]), Lab::from([52.0, 3.0, 2.0])];
    assert_eq!(mean(&list), Some(Lab::from([51.0, 2.0, 0.0])));
    assert_eq!(mean(&[]), None);
}

/// Steps of both scales: ISO 105-A02:1993 and ISO 105-A03:1993, 2.4 (staining from memory). Each is doubled about every
/// second step, and none reaches its neighbour within its tolerance.
#[test]
fn grades_fall_as_differences_grow() {
    for scale in [CHANGE, STAINING] {
        assert_eq!(scale.iter().map(|step| step.grade).collect::<Vec<_>>(), GRADES);
        for pair in scale.windows(2) {
            assert!(pair[0].difference + pair[0].tolerance < pair[1].difference - pair[1].tolerance, "{pair:?}");
        }
    }
    assert_eq!(find(Scale::Change, "3").unwrap().difference, 3.4);
    assert_eq!(find(Scale::Staining, "4").unwrap().difference, 4.3);
    assert_eq!((reaches("4", "4"), reaches("4-5", "4"), reaches("3-4", "4")), (Some(true), Some(true), Some(false)));
    assert_eq!(reaches("6", "4"), None);
}
