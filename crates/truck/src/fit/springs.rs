//! Changes of the spring.

use super::Fitted;
use crate::change::{
    AnchorSwap, BarAdjuster, BarReindex, BarSwap, ChangeKind, CoilSwap, CutCoil, SeatSpacer,
};
use crate::choice::BlindTooth;
use crate::field::Field;
use crate::remark::Remark;
use std::f64::consts::TAU;

/// Whether the truck has the spring that a change is for; otherwise says so.
fn has(fitted: &mut Fitted, change: ChangeKind) -> bool {
    let Some(kind) = change.spring() else { return true };
    let there = fitted.spring.kind == kind;
    if !there {
        fitted.remarks.push(Remark::NeedsSpring(change, kind));
    }
    there
}

/// The arm stands where it stood, so the new bar is twisted as the old one was.
pub(super) fn bar_swap(fitted: &mut Fitted, change: &BarSwap) {
    if has(fitted, ChangeKind::BarSwap) {
        fitted.spring.bar.diameter_mm = change.diameter_mm;
        fitted.spring.bar.length_mm = change.length_mm;
    }
}

pub(super) fn anchor_swap(fitted: &mut Fitted, change: &AnchorSwap) {
    if has(fitted, ChangeKind::AnchorSwap) {
        let bar = &mut fitted.spring.bar;
        bar.lever_mm = change.lever_mm;
        bar.lever_angle_rad = change.lever_angle_rad;
        bar.thread_pitch_mm = change.thread_pitch_mm;
        fitted.anchor_turn_rad += change.clocking_rad;
    }
}

/// One spline is a full turn over their number; with different numbers at the
/// two ends, one forth here and one back there make a finer step.
pub(super) fn bar_reindex(fitted: &mut Fitted, change: &BarReindex) {
    if !has(fitted, ChangeKind::BarReindex) {
        return;
    }
    let bar = fitted.spring.bar;
    for (splines, count, blind, field) in [
        (change.anchor, bar.splines_anchor, bar.blind_anchor, Field::BarSplinesAnchor),
        (change.arm, bar.splines_arm, bar.blind_arm, Field::BarSplinesArm),
    ] {
        match count {
            _ if splines != 0.0 && blind == Some(BlindTooth::Yes) => fitted.remarks.push(Remark::BlindTooth),
            Some(count) => fitted.anchor_turn_rad += splines * TAU / count,
            None if splines != 0.0 => {
                fitted.remarks.push(Remark::NeedsNumber(ChangeKind::BarReindex, field));
            }
            None => {}
        }
    }
}

pub(super) fn bar_adjuster(fitted: &mut Fitted, change: &BarAdjuster) {
    if !has(fitted, ChangeKind::BarAdjuster) {
        return;
    }
    let bar = &fitted.spring.bar;
    let left = if change.turns > 0.0 { bar.turns_in } else { bar.turns_out };
    if change.turns.abs() > left {
        fitted.remarks.push(Remark::PastThread { left });
    }
    fitted.anchor_turn_rad += bar.anchor_turn_rad(change.turns);
    fitted.bolt_turns += change.turns;
}

pub(super) fn coil_swap(fitted: &mut Fitted, change: &CoilSwap) {
    if has(fitted, ChangeKind::CoilSwap) {
        let coil = &mut fitted.spring.coil;
        coil.wire_mm = change.wire_mm;
        coil.mean_mm = change.mean_mm;
        coil.active = change.active;
        fitted.coil_free_mm = change.free_mm;
    }
}

pub(super) fn cut_coil(fitted: &mut Fitted, change: &CutCoil) {
    if !has(fitted, ChangeKind::CutCoil) {
        return;
    }
    let active = fitted.spring.coil.active;
    if active - change.coils < 1.0 {
        fitted.remarks.push(Remark::TooManyCoils { active });
        return;
    }
    fitted.coils_cut += change.coils;
    fitted.spring.coil.active -= change.coils;
}

pub(super) fn seat_spacer(fitted: &mut Fitted, change: &SeatSpacer) {
    if has(fitted, ChangeKind::SeatSpacer) {
        fitted.spacer_mm += change.thickness_mm;
    }
}
