//! Annul, undo and redo: nothing is deleted, acts stand or don't.

use crate::model::{Answer, Done, Model, State};
use crate::plain::{At, Fact, Line};

impl Model {
    pub fn annul(&mut self, target: usize, at: At) -> Answer<()> {
        let hanging = self.state().hanging;
        let Some(act) = self
            .acts
            .get(target)
            .filter(|a| a.stands && a.undid.is_none())
        else {
            return Err("no such act stands");
        };
        let line = act.line;
        self.stand(target, false);
        if self.state().hanging > hanging {
            self.stand(target, true);
            return Err("later acts hang on it");
        }
        self.acts.push(Done {
            at,
            line,
            facts: Vec::new(),
            stands: true,
            undid: None,
            annulled: Some(target),
        });
        Ok(())
    }

    /// Lets an act stand or not; an annulment takes its act the other way.
    fn stand(&mut self, index: usize, stands: bool) {
        self.acts[index].stands = stands;
        if let Some(other) = self.acts[index].annulled {
            self.stand(other, !stands);
        }
    }

    pub fn undo(&mut self, line: Line, at: At) -> Answer<()> {
        let before = self.state();
        let Some(target) = self
            .acts
            .iter()
            .rposition(|a| a.stands && a.undid.is_none() && a.line == line)
        else {
            return Err("nothing to undo");
        };
        self.stand(target, false);
        let mut facts = Vec::new();
        let after = self.state();
        if after.hanging > before.hanging {
            self.stand(target, true);
            return Err("later acts hang on it");
        }
        let then = self.state_before(target);
        for number in 1..=self.rules.platforms {
            let who = |s: &State| {
                s.on(number)
                    .call
                    .as_ref()
                    .map(|c| (c.no, c.slot, c.attempt))
            };
            if let Some(call) = &then.on(number).call
                && self.acts[target]
                    .facts
                    .iter()
                    .any(|f| matches!(f, Fact::Ruled(f) if f.is_of(call)))
                && let Some(whose) = who(&after)
                && who(&after) != who(&before)
                && let Some(left) = call.left(self.acts[target].at.ms)
            {
                facts.push(Fact::ClockBack(number, whose, left));
            }
        }
        self.acts.push(Done {
            at,
            line,
            facts,
            stands: true,
            undid: Some(target),
            annulled: None,
        });
        Ok(())
    }

    pub fn redo(&mut self, line: Line) -> Answer<()> {
        let hanging = self.state().hanging;
        let newest = self
            .acts
            .iter()
            .rposition(|a| a.undid.is_none() && a.line == line);
        let undo = self
            .acts
            .iter()
            .rposition(|a| a.stands && a.undid.is_some() && a.line == line);
        match undo {
            Some(undo) if newest.is_none_or(|n| n < undo) => {
                self.acts[undo].stands = false;
                if let Some(target) = self.acts[undo].undid {
                    self.stand(target, true);
                    if self.state().hanging > hanging {
                        self.stand(target, false);
                        self.acts[undo].stands = true;
                        return Err("later acts hang on it");
                    }
                }
                Ok(())
            }
            _ => Err("nothing to redo"),
        }
    }
}
