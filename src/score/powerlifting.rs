//! DOTS, Wilks and IPF GL points.

use std::sync::OnceLock;

use chrono::NaiveDate;
use serde::Deserialize;

use super::Equipment;
use super::about::{About, shipped};
use crate::measure::Mass;
use crate::rules::Sex;

/// A polynomial in the bodyweight under a constant, which stands still beyond
/// two bodyweights.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
pub struct Curve {
    /// The constant above.
    pub k: f64,
    /// The bodyweight in kg that lighter athletes count as.
    pub lightest: f64,
    /// The bodyweight in kg that heavier athletes count as.
    pub heaviest: f64,
    /// The terms, the constant one first.
    pub terms: Vec<f64>,
}

impl Curve {
    /// `k` over the polynomial at a clamped bodyweight.
    fn coefficient(&self, bodyweight: Mass) -> f64 {
        let x = bodyweight.kg_f64().max(self.lightest).min(self.heaviest);
        let powers = self.terms.iter().rev();
        self.k / powers.fold(0.0, |sum, term| sum * x + term)
    }
}

/// DOTS: load in kg times 500 over a polynomial of the fourth degree in the
/// bodyweight in kg; no unit.
///
/// Source: German federation BVDK, 2019; constants and clamps checked against
/// 300 rows of a public table of results. Women count as 40 to 150 kg, men as
/// 40 to 210 kg. Rising in the load, falling in the bodyweight. Shown to 2
/// decimals.
pub fn dots(load: Mass, bodyweight: Mass, curve: &Curve) -> f64 {
    load.kg_f64() * curve.coefficient(bodyweight)
}

/// What a load is multiplied by in Wilks's formula.
///
/// Table practice rounds it to 4 decimals before it multiplies; [`wilks`]
/// doesn't.
pub fn wilks_coefficient(bodyweight: Mass, curve: &Curve) -> f64 {
    curve.coefficient(bodyweight)
}

/// Wilks, the original and that of 2020: load in kg times 500 (2020: 600) over a
/// polynomial of the fifth degree in the bodyweight in kg; no unit.
///
/// Source: Wikipedia, Wilks coefficient; the factor 600 and the clamps are from
/// memory. The original counts women as 26.51 to 154.53 kg and men as 40 to
/// 201.9 kg, that of 2020 women as 40 to 150.95 kg and men as 40 to 200.95 kg;
/// beyond, the polynomial would turn. Rising in the load, falling in the
/// bodyweight (the original for women from 26.56 kg on: it turns 0.05 kg inside
/// its bound, by less than a thousandth). Shown to 2 decimals.
pub fn wilks(load: Mass, bodyweight: Mass, curve: &Curve) -> f64 {
    load.kg_f64() * wilks_coefficient(bodyweight, curve)
}

/// The constants of one of the eight sets of IPF GL points.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct GlSet {
    /// The sex.
    pub sex: Sex,
    /// The equipment.
    pub equipment: Equipment,
    event: GlEvent,
    /// The constant A.
    pub a: f64,
    /// The constant B.
    pub b: f64,
    /// The constant C, per kg.
    pub c: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum GlEvent {
    Total,
    Bench,
}

/// IPF GL points: load in kg times `100 / (A - B e^(-C x))`, x the bodyweight in
/// kg; no unit.
///
/// Source: IPF GL formula of 2020, as published by an affiliate. Valid from 1
/// May 2020. Bodyweight from 35 kg, which is from memory. Rising in the load,
/// falling in the bodyweight. Shown to 2 decimals, as the source does.
pub fn ipf_gl(load: Mass, bodyweight: Mass, set: &GlSet) -> f64 {
    let power = libm::exp(-set.c * bodyweight.kg_f64());
    load.kg_f64() * 100.0 / (set.a - set.b * power)
}

#[derive(Deserialize, Default)]
struct CurveFile {
    about: About,
    #[serde(rename = "F")]
    f: Curve,
    #[serde(rename = "M")]
    m: Curve,
}

/// A formula whose constants are a curve for each sex.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Polynomial {
    /// DOTS.
    Dots,
    /// Wilks as first published.
    Wilks,
    /// Wilks of 2020.
    Wilks2020,
}

fn curves(which: Polynomial) -> &'static CurveFile {
    static DOTS: OnceLock<CurveFile> = OnceLock::new();
    static WILKS: OnceLock<CurveFile> = OnceLock::new();
    static WILKS_2020: OnceLock<CurveFile> = OnceLock::new();
    match which {
        Polynomial::Dots => {
            DOTS.get_or_init(|| shipped(include_str!("../../resources/scores/dots.toml")))
        }
        Polynomial::Wilks => WILKS
            .get_or_init(|| shipped(include_str!("../../resources/scores/wilks.toml"))),
        Polynomial::Wilks2020 => WILKS_2020.get_or_init(|| {
            shipped(include_str!("../../resources/scores/wilks-2020.toml"))
        }),
    }
}

/// The shipped curve of a formula and sex.
pub fn curve(which: Polynomial, sex: Sex) -> &'static Curve {
    let file = curves(which);
    match sex {
        Sex::F => &file.f,
        Sex::M => &file.m,
    }
}

pub(super) fn about(which: Polynomial) -> &'static About {
    &curves(which).about
}

#[derive(Deserialize, Default)]
struct GlFile {
    about: About,
    constants: GlConstants,
    set: Vec<GlSet>,
}

#[derive(Deserialize, Default)]
struct GlConstants {
    from: String,
}

fn gl_file() -> &'static GlFile {
    static FILE: OnceLock<GlFile> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/scores/ipf-gl.toml")))
}

pub(super) fn about_gl() -> &'static About {
    &gl_file().about
}

/// The first day on which IPF GL points hold.
pub fn gl_from() -> Option<NaiveDate> {
    gl_file().constants.from.parse().ok()
}

/// The set of a sex and equipment, for the total or the bench press alone.
pub fn gl_set(sex: Sex, equipment: Equipment, bench: bool) -> Option<&'static GlSet> {
    let event = if bench {
        GlEvent::Bench
    } else {
        GlEvent::Total
    };
    gl_file()
        .set
        .iter()
        .find(|s| s.sex == sex && s.equipment == equipment && s.event == event)
}
