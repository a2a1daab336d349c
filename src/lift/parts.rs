//! What a lift is made of.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Declares an enum whose variants each have one word, used in files and CSV.
macro_rules! words {
    (
        $(#[$about:meta])*
        $name:ident { $($(#[$note:meta])* $variant:ident = $word:literal,)+ }
    ) => {
        $(#[$about])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
        )]
        pub enum $name {
            $($(#[$note])* #[serde(rename = $word)] $variant,)+
        }

        impl $name {
            /// Every variant, in the order of declaration.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// Returns the word for it in files and CSV.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)+
                }
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(self.word())
            }
        }
    };
}

words! {
    /// The movement that a lift belongs to.
    Family {
        /// From below to overhead in one movement.
        Snatch = "snatch",
        /// From below to the shoulders in one movement.
        Clean = "clean",
        /// From the shoulders to overhead with a drive and a re-bend under the bar.
        Jerk = "jerk",
        /// A clean and then a jerk, judged as one lift.
        CleanAndJerk = "clean-and-jerk",
        /// From the shoulders to overhead without going under the bar.
        Press = "press",
        /// Down and up with the bar on the back, in front or overhead.
        Squat = "squat",
        /// Lying on a bench, from the chest to straight arms.
        Bench = "bench",
        /// From the floor until standing erect.
        Deadlift = "deadlift",
        /// Pulled to the trunk, or to the bench on which the athlete lies.
        Row = "row",
    }
}

words! {
    /// Where the bar is when the lift begins.
    Start {
        /// At rest on the floor.
        Floor = "floor",
        /// In the hands of the standing athlete, height not said.
        Hang = "hang",
        /// In the hands, bar just above or below the knee.
        LowHang = "low-hang",
        /// In the hands, bar at mid-thigh.
        MidHang = "mid-hang",
        /// In the hands, in the power position with the bar at the hip.
        HighHang = "high-hang",
        /// At rest on blocks.
        Blocks = "blocks",
        /// On stands or in a rack.
        Rack = "rack",
    }
}

words! {
    /// How the bar is received.
    Catch {
        /// As the athlete likes: the receiving depth is free.
        Any = "any",
        /// In a full squat.
        Full = "full",
        /// With the thighs above parallel.
        Power = "power",
        /// With one foot forward and one back.
        Split = "split",
        /// With the knees re-bent under the bar, then extended.
        Push = "push",
        /// Locked out with the knees straight.
        Press = "press",
        /// The lift has no catch.
        None = "none",
    }
}

words! {
    /// What tells lifts of one family apart besides start and catch.
    Form {
        /// Squat with the bar on the back.
        Back = "back",
        /// Squat with the bar on the front of the shoulders.
        Front = "front",
        /// Squat with the bar held overhead.
        Overhead = "overhead",
        /// Squat down to a box.
        Box = "box",
        /// Deadlift with the hands outside the legs.
        Conventional = "conventional",
        /// Deadlift with the hands between the legs.
        Sumo = "sumo",
        /// Deadlift standing inside a hexagonal bar.
        HexBar = "hex-bar",
        /// Bench press on a flat bench.
        Flat = "flat",
        /// Bench press with the head end raised.
        Incline = "incline",
        /// Bench press with the head end lowered.
        Decline = "decline",
        /// Bench press on a flat bench with a narrow grip.
        CloseGrip = "close-grip",
        /// Press without help of the legs.
        Strict = "strict",
        /// Press begun with a dip and drive of the legs.
        Push = "push",
        /// Row standing, with the trunk inclined.
        BentOver = "bent-over",
        /// Row lying face down on a raised bench.
        Prone = "prone",
    }
}

words! {
    /// Which advice on jumps between attempts a lift follows.
    ///
    /// Whole-body lifts that are pulled from the floor or the hang count as lower.
    Body {
        /// Presses, bench presses, rows and jerks: small jumps.
        Upper = "upper",
        /// Squats, deadlifts, snatches and cleans: larger jumps.
        Lower = "lower",
    }
}

/// What a lift is made of: two lifts are the same only if all four are equal.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(deny_unknown_fields)]
pub struct Parts {
    /// The movement.
    pub family: Family,
    /// Where the bar is when it begins.
    pub start: Start,
    /// How the bar is received.
    pub catch: Catch,
    /// What else tells it apart, where the family needs that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub form: Option<Form>,
}
