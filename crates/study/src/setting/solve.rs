//! Newton's method on height, camber, caster and toe.

use super::{Aim, Amounts, Bound, CasterBy, Target};
use crate::stance::{NoStance, Rear, Stance, StandingSide};
use linkage::Vector3;
use nalgebra::{Matrix4, Vector4};
use truck::{Change, Fitted, ShimChange, Side, SpringKind, StrutRodChange, TieRodChange};

/// Iterations after which a target counts as out of reach.
const MOST_STEPS: u32 = 25;
/// Met to this, mm and rad.
const MET: f64 = 1e-10;
/// Where no step comes nearer, met to this, mm and rad.
const MET_AT_WORST: f64 = 1e-7;
/// The least share of a step that is tried.
const LEAST_SHARE: f64 = 1e-3;
/// Steps either way by which slopes are had: of an anchor's turn, rad, and of all else, mm.
const SLOPE_RAD: f64 = 1e-4;
const SLOPE_MM: f64 = 1e-2;
/// Halvings in the search for how far a target can be followed.
const HALVINGS: u32 = 12;
/// Places of the readings among [`Target::numbers`].
const HEIGHT: usize = 0;
const CAMBER: usize = 1;
const CASTER: usize = 2;
const TOE: usize = 3;

/// A truck to be set up, so that one of its sides reads as wanted.
pub(super) struct Job {
    /// Both sides with the proposal's parts and nothing set, the left one first.
    pub(super) base: [Fitted; 2],
    aim: Aim,
    rear: Rear,
    pub(super) bounds: Vec<Bound>,
    target: Target,
    caster_by: CasterBy,
}

/// One thing that is moved for one reading: which reading, and how all amounts
/// go with it. The list of them is square.
#[derive(Clone, Copy)]
struct Adjustment {
    reading: usize,
    amounts: Amounts,
}

const NOTHING: Amounts =
    Amounts { height: 0.0, shim_front_mm: 0.0, shim_rear_mm: 0.0, strut_mm: 0.0, tie_mm: 0.0 };

impl Amounts {
    fn plus(&self, other: &Self, by: f64) -> Self {
        Self {
            height: self.height + other.height * by,
            shim_front_mm: self.shim_front_mm + other.shim_front_mm * by,
            shim_rear_mm: self.shim_rear_mm + other.shim_rear_mm * by,
            strut_mm: self.strut_mm + other.strut_mm * by,
            tie_mm: self.tie_mm + other.tie_mm * by,
        }
    }

    /// The changes of shims and rods; none where nothing is moved.
    pub(super) fn alignment(&self, inner_mm: Vector3<f64>) -> Vec<Change> {
        let mut changes = Vec::new();
        if self.shim_front_mm != 0.0 || self.shim_rear_mm != 0.0 {
            changes
                .push(Change::Shims(ShimChange { front_mm: self.shim_front_mm, rear_mm: self.shim_rear_mm }));
        }
        if self.strut_mm != 0.0 {
            changes.push(Change::StrutRod(StrutRodChange { longer_mm: self.strut_mm }));
        }
        if self.tie_mm != 0.0 || inner_mm != Vector3::zeros() {
            changes.push(Change::TieRod(TieRodChange { longer_mm: self.tie_mm, inner_mm }));
        }
        changes
    }
}

impl Job {
    pub(super) const fn new(
        base: [Fitted; 2],
        aim: Aim,
        rear: Rear,
        caster_by: CasterBy,
        target: Target,
    ) -> Self {
        Self { base, aim, rear, bounds: Vec::new(), target, caster_by }
    }

    /// The side that is to read as wanted, with nothing set.
    pub(super) const fn here(&self) -> &Fitted {
        let [left, right] = &self.base;
        match self.aim.side {
            Side::Left => left,
            Side::Right => right,
        }
    }

    /// What meets the target, or the nearest on the straight line to it from `start`.
    pub(super) fn solve(&mut self, from: Amounts, start: &Target) -> Amounts {
        let goal = self.target;
        let mut adjustments = self.alignment_adjustments();
        if self.here().spring.kind != SpringKind::WheelRate {
            adjustments.push(Adjustment { reading: HEIGHT, amounts: Amounts { height: 1.0, ..NOTHING } });
        }
        if let Some(met) = self.newton(&adjustments, from, &goal) {
            return self.within_packs(met, &adjustments);
        }
        // Out of reach: as far towards it as it goes, each step from the last that held.
        let (mut held, mut share, mut beyond) = (from, 0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(share, beyond);
            match self.newton(&adjustments, held, &start.towards(&goal, middle)) {
                Some(met) => (held, share) = (met, middle),
                None => beyond = middle,
            }
        }
        self.bounds.push(Bound::Reached(share));
        self.target = start.towards(&goal, share);
        self.within_packs(held, &adjustments)
    }

    /// Shims and rods anew, with the height as it is set.
    pub(super) fn aligned(&mut self, from: Amounts) -> Amounts {
        let adjustments = self.alignment_adjustments();
        let met = self.newton(&adjustments, from, &self.target).unwrap_or(from);
        self.within_packs(met, &adjustments)
    }

    /// The tie rod anew, with all else as it is set.
    pub(super) fn toe(&self, from: Amounts) -> Amounts {
        self.newton(&[TIE_ROD], from, &self.target).unwrap_or(from)
    }

    fn alignment_adjustments(&self) -> Vec<Adjustment> {
        let by = |reading, amounts| Adjustment { reading, amounts };
        let front = Amounts { shim_front_mm: 1.0, ..NOTHING };
        match self.caster_by {
            CasterBy::Shims => {
                vec![by(CAMBER, Amounts { shim_rear_mm: 1.0, ..front }), by(CASTER, front), TIE_ROD]
            }
            CasterBy::StrutRod => vec![
                by(CAMBER, Amounts { shim_rear_mm: 1.0, ..front }),
                by(CASTER, Amounts { strut_mm: 1.0, ..NOTHING }),
                TIE_ROD,
            ],
        }
    }

    /// Packs that are no packs are left at their ends; camber then goes before caster.
    fn within_packs(&mut self, met: Amounts, adjustments: &[Adjustment]) -> Amounts {
        let (held, stuck) = self.clamped(met);
        let free = match stuck {
            [false, false] => return met,
            [true, false] => Some(Amounts { shim_rear_mm: 1.0, ..NOTHING }),
            [false, true] => Some(Amounts { shim_front_mm: 1.0, ..NOTHING }),
            [true, true] => None,
        };
        // The strut rod still sets caster; otherwise the pack that is free sets camber alone.
        let strut = self.caster_by == CasterBy::StrutRod;
        let mut remaining: Vec<Adjustment> = adjustments
            .iter()
            .copied()
            .filter(|adjustment| adjustment.reading != CAMBER && (strut || adjustment.reading != CASTER))
            .collect();
        remaining.extend(free.filter(|_| !strut).map(|amounts| Adjustment { reading: CAMBER, amounts }));
        self.newton(&remaining, held, &self.target).map_or(held, |met| self.clamped(met).0)
    }

    /// Each pack as far as it goes, what keeps it there among the bounds; and which of them end, the front
    /// one first.
    fn clamped(&mut self, amounts: Amounts) -> (Amounts, [bool; 2]) {
        let shims = self.here().measured.shims;
        let (mut held, mut stuck) = (amounts, [false; 2]);
        let packs = [(shims.front_mm, &mut held.shim_front_mm), (shims.rear_mm, &mut held.shim_rear_mm)];
        for ((now, added), stuck) in packs.into_iter().zip(&mut stuck) {
            let (least, most) = shims.room_mm(now);
            let bound = if *added < least {
                Bound::NoShimsLeft
            } else if *added > most {
                Bound::ShimsTooThick
            } else {
                continue;
            };
            *added = added.clamp(least, most);
            *stuck = true;
            if !self.bounds.contains(&bound) {
                self.bounds.push(bound);
            }
        }
        (held, stuck)
    }

    /// The truck with these amounts, at rest, as a gauge reads it.
    pub(super) fn reads(&self, amounts: &Amounts) -> Option<Target> {
        self.rest(amounts).ok().map(|rest| Target::of(&rest))
    }

    /// The side with these amounts on the truck, at rest.
    pub(super) fn rest(&self, amounts: &Amounts) -> Result<StandingSide, NoStance> {
        let Aim { side, alone } = self.aim;
        let set = |base: &Fitted| {
            if alone && base.measured.side() != side { base.clone() } else { with(base, amounts) }
        };
        let [left, right] = self.base.each_ref().map(set);
        Ok(Stance::of(left, right, self.rear)?.on(side))
    }

    /// The amounts at which the readings of `adjustments` are met, from a start; `None`
    /// where the steps do not get there.
    fn newton(&self, adjustments: &[Adjustment], from: Amounts, goal: &Target) -> Option<Amounts> {
        let miss = |amounts: &Amounts| -> Option<Vector4<f64>> {
            let (reads, goal) = (self.reads(amounts)?.numbers(), goal.numbers());
            let mut miss = Vector4::zeros();
            for (at, adjustment) in adjustments.iter().enumerate() {
                miss[at] = reads[adjustment.reading] - goal[adjustment.reading];
            }
            Some(miss)
        };
        let mut amounts = from;
        let mut here = miss(&amounts)?;
        for _ in 0..MOST_STEPS {
            if here.amax() <= MET {
                return Some(amounts);
            }
            let mut slopes = Matrix4::identity();
            for (at, adjustment) in adjustments.iter().enumerate() {
                let step =
                    if adjustment.reading == HEIGHT && self.here().spring.kind == SpringKind::TorsionBar {
                        SLOPE_RAD
                    } else {
                        SLOPE_MM
                    };
                let after = miss(&amounts.plus(&adjustment.amounts, step))?;
                let before = miss(&amounts.plus(&adjustment.amounts, -step))?;
                slopes.set_column(at, &((after - before) / (2.0 * step)));
            }
            for unused in adjustments.len()..4 {
                slopes[(unused, unused)] = 1.0;
            }
            let full = slopes.try_inverse()? * here;
            // A step that leaves what can be posed, or makes it worse, is halved.
            let mut share = 1.0;
            (amounts, here) = loop {
                let next = adjustments.iter().enumerate().fold(amounts, |amounts, (at, adjustment)| {
                    amounts.plus(&adjustment.amounts, -full[at] * share)
                });
                match miss(&next) {
                    Some(there) if there.amax() < here.amax() => break (next, there),
                    _ if share < LEAST_SHARE => return (here.amax() <= MET_AT_WORST).then_some(amounts),
                    _ => share /= 2.0,
                }
            };
        }
        None
    }
}

/// One side with these amounts on.
fn with(base: &Fitted, amounts: &Amounts) -> Fitted {
    let mut fitted = base.clone();
    match fitted.spring.kind {
        SpringKind::TorsionBar => fitted.anchor_turn_rad += amounts.height,
        SpringKind::Coil => fitted.spacer_mm += amounts.height,
        SpringKind::WheelRate => {}
    }
    for change in amounts.alignment(Vector3::zeros()) {
        fitted = fitted.with(&change);
    }
    fitted
}

const TIE_ROD: Adjustment = Adjustment { reading: TOE, amounts: Amounts { tie_mm: 1.0, ..NOTHING } };

impl Target {
    /// Between it and another reading.
    fn towards(&self, goal: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + (b - a) * share;
        Self {
            ride_height_mm: between(self.ride_height_mm, goal.ride_height_mm),
            camber_rad: between(self.camber_rad, goal.camber_rad),
            caster_rad: between(self.caster_rad, goal.caster_rad),
            toe_rad: between(self.toe_rad, goal.toe_rad),
        }
    }
}
