//! The verbs, one file each.

pub(super) mod acts;
pub(super) mod apply;
pub(super) mod check;
pub(super) mod desk;
pub(super) mod erase;
pub(super) mod export;
pub(super) mod formulas;
pub(super) mod history;
pub(super) mod know;
pub(super) mod new;
pub(super) mod norms;
pub(super) mod papers;
pub(super) mod records;
pub(super) mod recover;
pub(super) mod roster;
pub(super) mod school;
pub(super) mod score;
pub(super) mod show;
pub(super) mod training;
