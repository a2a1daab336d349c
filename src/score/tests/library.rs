//! Constants and results against an independent library of such formulas:
//! liftmath 2.6.0 (GPL-3.0-or-later) from the Python package index. Only figures
//! that it has or prints are copied here; it has Wilks, DOTS, IPF GL for classic
//! totals, and six of the seven equations.

use super::*;

/// For 412.5 kg, by bodyweight: Wilks, Wilks of 2020, DOTS, IPF GL.
const MEN: [(&str, [f64; 4]); 8] = [
    (
        "40",
        [
            550.8619323434692,
            573.1811554891382,
            524.3328794789958,
            84.1038,
        ],
    ),
    (
        "45.5",
        [
            469.4983940490839,
            513.4880211540049,
            452.2477610667674,
            78.4966875,
        ],
    ),
    (
        "63.2",
        [
            335.9442655090582,
            395.61421997273567,
            334.014217966615,
            65.797875,
        ],
    ),
    (
        "82.5",
        [
            276.33644238834995,
            331.83073387092395,
            279.42445701583165,
            57.275625,
        ],
    ),
    (
        "100.3",
        [
            250.74383011466708,
            300.468451716636,
            253.5719205249736,
            52.036875,
        ],
    ),
    (
        "140",
        [
            230.50775401798262,
            270.00734826335946,
            226.05819814436492,
            44.9662125,
        ],
    ),
    (
        "205",
        [
            219.24492434170594,
            252.52483722564867,
            205.33166658789773,
            39.4906875,
        ],
    ),
    (
        "215",
        [
            219.24492434170594,
            252.52483722564867,
            204.4435229876556,
            38.98125,
        ],
    ),
];

const WOMEN: [(&str, [f64; 4]); 8] = [
    (
        "36",
        [
            649.2725400317906,
            762.5620277981743,
            612.4785843336596,
            157.844775,
        ],
    ),
    (
        "40",
        [
            616.1064253495651,
            762.5620277981743,
            612.4785843336596,
            136.86585,
        ],
    ),
    (
        "45.5",
        [
            567.6872953459471,
            674.8432816647027,
            553.8533716960447,
            118.170525,
        ],
    ),
    (
        "63.2",
        [
            441.946869384392,
            526.4049585945978,
            442.79555258254874,
            90.064425,
        ],
    ),
    (
        "82.5",
        [
            371.23734603838574,
            461.21896968904747,
            382.8538610725787,
            78.459975,
        ],
    ),
    (
        "100.3",
        [
            343.14099547794495,
            433.8028468158028,
            351.5964229371595,
            73.508325,
        ],
    ),
    (
        "160",
        [
            316.861554920701,
            397.11327031323776,
            317.9371166975412,
            68.480775,
        ],
    ),
    (
        "215",
        [
            316.861554920701,
            397.11327031323776,
            317.9371166975412,
            67.7518875,
        ],
    ),
];

#[test]
fn results_are_the_librarys() {
    for (sex, rows) in [(Sex::M, MEN), (Sex::F, WOMEN)] {
        for (body, [original, of_2020, dots, gl]) in rows {
            let close = |formula, theirs: f64, by: f64| {
                let ours = of(formula, sex, body, "412.5").value;
                assert!((ours - theirs).abs() < by, "{formula:?} {body}: {ours}");
            };
            close(Formula::Wilks, original, 1e-9);
            close(Formula::Wilks2020, of_2020, 1e-9);
            close(Formula::Dots, dots, 1e-9);
            // It rounds the coefficient to six decimals before it multiplies.
            close(Formula::IpfGl, gl, 412.5 * 0.000_000_51);
        }
    }
}

#[test]
fn constants_are_the_librarys() {
    let terms = |which, sex| curve(which, sex).terms.clone();
    for (which, sex, theirs) in [
        (
            Polynomial::Wilks,
            Sex::M,
            vec![
                -216.0475144,
                16.2606339,
                -0.002388645,
                -0.00113732,
                7.01863e-06,
                -1.291e-08,
            ],
        ),
        (
            Polynomial::Wilks,
            Sex::F,
            vec![
                594.31747775582,
                -27.23842536447,
                0.82112226871,
                -0.00930733913,
                4.731582e-05,
                -9.054e-08,
            ],
        ),
        (
            Polynomial::Wilks2020,
            Sex::M,
            vec![
                47.46178854,
                8.472061379,
                0.07369410346,
                -0.001395833811,
                7.07665973070743e-06,
                -1.20804336482315e-08,
            ],
        ),
        (
            Polynomial::Wilks2020,
            Sex::F,
            vec![
                -125.4255398,
                13.71219419,
                -0.03307250631,
                -0.001050400051,
                9.38773881462799e-06,
                -2.3334613884954e-08,
            ],
        ),
        (
            Polynomial::Dots,
            Sex::M,
            vec![
                -307.75076,
                24.0900756,
                -0.1918759221,
                0.0007391293,
                -0.0000010930,
            ],
        ),
        (
            Polynomial::Dots,
            Sex::F,
            vec![
                -57.96288,
                13.6175032,
                -0.1126655495,
                0.0005158568,
                -0.0000010706,
            ],
        ),
    ] {
        assert_eq!(terms(which, sex), theirs, "{which:?} {sex}");
    }
    for (which, sex, lightest, heaviest) in [
        (Polynomial::Wilks, Sex::M, 40.0, 201.9),
        (Polynomial::Wilks, Sex::F, 26.51, 154.53),
        (Polynomial::Wilks2020, Sex::M, 40.0, 200.95),
        (Polynomial::Wilks2020, Sex::F, 40.0, 150.95),
        (Polynomial::Dots, Sex::M, 40.0, 210.0),
        (Polynomial::Dots, Sex::F, 40.0, 150.0),
    ] {
        let curve = curve(which, sex);
        assert_eq!((curve.lightest, curve.heaviest), (lightest, heaviest));
    }
    for (sex, theirs) in [
        (Sex::M, (1199.72839, 1025.18162, 0.00921)),
        (Sex::F, (610.32796, 1045.59282, 0.03048)),
    ] {
        let set = gl_set(sex, Equipment::Classic, false).unwrap();
        assert_eq!((set.a, set.b, set.c), theirs);
    }
}

#[test]
fn equations_are_the_librarys() {
    // 100 kg: Epley, Brzycki, Lombardi, O'Conner, Lander, Mayhew.
    for (reps, theirs) in [
        (
            3,
            [
                110.00000000000001,
                105.88235294117646,
                111.61231740339043,
                107.5,
                107.19686522063098,
                113.9903214585847,
            ],
        ),
        (
            8,
            [
                126.66666666666666,
                124.13793103448276,
                123.11444133449163,
                120.0,
                125.10922034936499,
                126.28634315137971,
            ],
        ),
    ] {
        let names = [
            "epley", "brzycki", "lombardi", "oconner", "lander", "mayhew",
        ];
        for (name, theirs) in names.into_iter().zip(theirs) {
            let equation = equations().iter().find(|e| e.name == name).unwrap();
            let ours = equation.max(kg("100"), reps).unwrap();
            assert!((ours - theirs).abs() < 1e-9, "{name} {reps}: {ours}");
        }
    }
}
