//! The seven equations against their published list.

use super::*;

/// 100 kg for so many repetitions: Epley, Brzycki, Lander, Lombardi, Mayhew,
/// O'Conner, Wathan.
const HUNDRED: [(u8, [&str; 7]); 9] = [
    (
        2,
        [
            "106.67", "102.86", "104.21", "107.18", "111.44", "105.00", "105.15",
        ],
    ),
    (
        3,
        [
            "110.00", "105.88", "107.20", "111.61", "113.99", "107.50", "108.98",
        ],
    ),
    (
        4,
        [
            "113.33", "109.09", "110.36", "114.87", "116.52", "110.00", "112.80",
        ],
    ),
    (
        5,
        [
            "116.67", "112.50", "113.71", "117.46", "119.01", "112.50", "116.58",
        ],
    ),
    (
        6,
        [
            "120.00", "116.13", "117.27", "119.62", "121.47", "115.00", "120.33",
        ],
    ),
    (
        7,
        [
            "123.33", "120.00", "121.06", "121.48", "123.90", "117.50", "124.03",
        ],
    ),
    (
        8,
        [
            "126.67", "124.14", "125.11", "123.11", "126.29", "120.00", "127.67",
        ],
    ),
    (
        9,
        [
            "130.00", "128.57", "129.43", "124.57", "128.63", "122.50", "131.25",
        ],
    ),
    (
        10,
        [
            "133.33", "133.33", "134.07", "125.89", "130.93", "125.00", "134.75",
        ],
    ),
];

#[test]
fn the_equations_are_the_published_ones() {
    // Published list of the seven equations, worked out apart from this program.
    let names: Vec<&str> = equations().iter().map(|e| e.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "epley", "brzycki", "lander", "lombardi", "mayhew", "oconner", "wathan"
        ]
    );
    for (reps, published) in HUNDRED {
        let found = estimates(kg("100"), reps).unwrap();
        for ((_, max), published) in found.each.iter().zip(published) {
            same(*max, published);
        }
    }
    // 225 lb for five.
    let found = estimates(Mass::whole(225, Unit::Lb), 5).unwrap();
    let shown: Vec<String> = found
        .each
        .iter()
        .map(|(_, max)| shown_estimate(*max, Unit::Lb))
        .collect();
    assert_eq!(
        shown,
        [
            "262.5", "253.1", "255.8", "264.3", "267.8", "253.1", "262.3"
        ]
    );
    assert_eq!(shown_estimate(found.least, Unit::Lb), "253.1");
    assert_eq!(shown_estimate(found.most, Unit::Lb), "267.8");
    assert!(equations().iter().all(|e| !e.formula.is_empty()));
    assert!(spread().contains("2.7 to 3.2 kg"));
}

#[test]
fn one_repetition_is_itself_and_more_than_ten_are_none() {
    // At most ten repetitions: J Strength Cond Res 2006;20(3):584-592.
    let found = estimates(kg("82.5"), 1).unwrap();
    assert!(
        found
            .each
            .iter()
            .all(|(_, max)| max.to_bits() == 82.5_f64.to_bits())
    );
    assert!(found.least.total_cmp(&found.most).is_eq());
    for reps in [0, 11, 37, 255] {
        assert_eq!(estimates(kg("80"), reps), Err(NoEstimate::Reps(reps)));
    }
    let file: toml::Value =
        toml::from_str(include_str!("../../../resources/reps.toml")).unwrap();
    let most = file["limits"]["most"].as_integer();
    assert_eq!(most, Some(i64::from(MOST_REPS)));
    assert_eq!(estimates(Mass::ZERO, 5), Err(NoEstimate::Load));
    assert_eq!(
        NoEstimate::Reps(12).to_string(),
        "12 repetitions give no estimate; 1 to 10 do."
    );
}

#[test]
fn estimates_rise_with_load_and_repetitions() {
    for equation in equations() {
        for half in 1..=1200_i64 {
            let load = Mass::from_counts(half * 50_000_000_000);
            let maxes: Vec<f64> = (1..=MOST_REPS)
                .map(|reps| equation.max(load, reps).unwrap())
                .collect();
            assert!(maxes.windows(2).all(|w| w[0] < w[1] && w[1].is_finite()));
            let more = equation.max(load + kg("0.5"), 5).unwrap();
            assert!(more > maxes[4]);
        }
    }
}
