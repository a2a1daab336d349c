//! Chooses what is done away from the bar: entries, limits, settings.

use crate::compare::Pair;
use crate::drive::{Chooser, Kind};
use crate::model::{Person, State};
use crate::plain::{Act, Cleared, Edit, Fact, Line, No, Roll};
use crate::rng::Rng;
use crate::rules::{Bar, Categories, Gate, Key, NoGood, Setting, Tie};

impl Chooser<'_> {
    pub fn number(&self, r: &mut Rng, s: &State) -> Act {
        if r.percent(60) {
            return Act::Number(Vec::new());
        }
        let numbers: Vec<No> = s.people.values().map(|p| p.number).collect();
        let one = r.pick(&numbers);
        let other = r.pick(&numbers);
        Act::Number(if r.percent(50) && one != other {
            vec![(one, other), (other, one)]
        } else {
            vec![(one, r.pick(&[1, 2, 30, 31]))]
        })
    }

    /// What isn't done at the bar.
    pub fn frame(
        &self,
        r: &mut Rng,
        pair: &Pair,
        s: &State,
        (kind, platform, p, slot): (Kind, u8, &Person, usize),
    ) -> Act {
        let no = p.number;
        let one = |r: &mut Rng| r.percent(60).then_some(slot);
        let near = |r: &mut Rng| self.start + self.steps(r, 8);
        match kind {
            Kind::Weigh => Act::Weigh(no, r.pick(&[5700, 6100, 6101, 7000, 8600])),
            Kind::Roll => {
                let gone = s.people.values().find(|p| !p.is_present());
                let no = match gone {
                    Some(gone) if r.percent(60) => gone.number,
                    _ => no,
                };
                let roll = [Roll::Here, Roll::Absent, Roll::Away, Roll::Back, Roll::Back];
                Act::Roll(no, r.pick(&roll))
            }
            Kind::Withdraw => Act::Withdraw(no, r.percent(70).then_some(slot)),
            Kind::Disqualify => Act::Disqualify(no, r.percent(70).then_some(slot)),
            Kind::Number => self.number(r, s),
            Kind::Clear => Act::Clear {
                no,
                slot: one(r),
                cleared: match r.below(5) {
                    0 => Cleared::No,
                    1 | 2 => Cleared::Yes,
                    _ => Cleared::UpTo(near(r)),
                },
                over: r.percent(15),
                signed: r.percent(75),
            },
            Kind::Cap => Act::Cap {
                no,
                slot: one(r),
                load: r.percent(75).then(|| near(r)),
                signed: r.percent(75),
            },
            Kind::Edit => {
                // Left out: a lift that somebody was called for is taken away,
                // and the call comes back.
                let id = p.athlete.no;
                let called = pair.model.acts.iter().flat_map(|a| &a.facts).any(|f| {
                    matches!(f, Fact::Called { no, slot: of, .. }
                        if (*no, *of) == (id, slot))
                });
                self.edit(r, p, slot, called)
            }
            Kind::Place => Act::Place(no, r.below(2)),
            Kind::Set => Act::Set(self.setting(r)),
            Kind::Check => Act::Check(platform),
            Kind::Break => Act::Break(platform, r.percent(70).then_some(5)),
            Kind::Close => {
                let session = r
                    .percent(70)
                    .then(|| self.rules.session_of(p.athlete.flight));
                if r.percent(70) {
                    Act::Close(session)
                } else {
                    Act::Reopen(session)
                }
            }
            Kind::Note => Act::Note(r.percent(50).then_some(no)),
            Kind::Add => {
                let no = u16::try_from(21 + pair.steps.len()).unwrap();
                Act::Add(crate::draw::athlete(r, self.rules, no, self.start))
            }
            _ => Act::Redo(Line::Roster),
        }
    }

    fn edit(&self, r: &mut Rng, p: &Person, slot: usize, stays: bool) -> Act {
        let load = self.start + self.steps(r, 4);
        let variant = r.below(self.rules.slots[slot]);
        let edit = match r.below(8) {
            0 | 1 => Edit::Guest(!p.athlete.guest),
            2 => Edit::Category(r.pick(&["57", "65", ""]).to_owned()),
            3 => Edit::Bodyweight(r.percent(70).then_some(6100)),
            4 => Edit::EntryTotal(r.percent(70).then_some(3 * load)),
            5 => Edit::Last(slot, variant, r.percent(70).then_some(load)),
            6 => Edit::Slot(slot, Some((variant, Some(load)))),
            _ => Edit::Slot(slot, (stays || r.percent(50)).then_some((variant, None))),
        };
        Act::Edit(p.number, edit)
    }

    fn setting(&self, r: &mut Rng) -> Setting {
        use Key::{Attempt, Load as ByLoad, Number, Previous, Rest};
        let yes = r.percent(50);
        match r.below(24) {
            0 => Setting::Law(yes),
            1 => Setting::Bar(r.pick(&[Bar::Rising, Bar::Rounds, Bar::Free])),
            2 => Setting::Order(r.pick(&[
                vec![ByLoad, Attempt, Previous, Number],
                vec![Attempt, ByLoad, Number],
                vec![Rest, Number],
            ])),
            3 => Setting::Attempts(r.pick(&[2, 3, 4])),
            4 => Setting::Judges(r.pick(&[1, 3])),
            5 => Setting::Step(r.pick(&[self.rules.step, 250, 500])),
            6 => Setting::Least(yes),
            7 => Setting::Automatic(yes),
            8 => Setting::Changes(r.pick(&[None, Some(0), Some(2)])),
            9 => Setting::ChangeCalled(yes),
            10 => Setting::ChangeRuns(yes),
            11 => Setting::Clock(r.pick(&[None, Some(60), Some(90)])),
            12 => Setting::FinalCall(r.pick(&[None, Some(30)])),
            13 => Setting::RoundEnd(yes),
            14 => Setting::CreditStep(yes),
            15 => Setting::Challenges(r.pick(&[None, Some(0), Some(1)])),
            16 => Setting::Reclassify(yes),
            17 => Setting::TiesLift(r.pick(&[
                vec![Tie::BestAttempt, Tie::Shared],
                vec![Tie::Bodyweight, Tie::Earlier],
            ])),
            18 => Setting::Total(yes),
            19 => Setting::NoGood(r.pick(&[NoGood::NoTotal, NoGood::Out])),
            20 => Setting::Weighed(yes),
            21 => Setting::Categories(r.pick(&[
                Categories::None,
                Categories::Flight,
                Categories::Ipf,
                Categories::Own,
            ])),
            22 => Setting::Clearance(r.pick(&[Gate::Off, Gate::Owed, Gate::Required])),
            _ => Setting::StationCheck(r.pick(&[Gate::Off, Gate::Required])),
        }
    }
}
