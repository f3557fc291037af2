//! The limits that a combination is put to, the cheap ones first.

use super::nearest::{Room, rooms};
use super::{LeftOut, Ways};
use crate::clearance::{Against, Pair};
use crate::grid::Clearances;
use crate::rest::{HeldBy, Rest};
use crate::scrub_line::{Low, ScrubLine};
use crate::setting::{CasterBy, Steps, Target, setting};
use crate::spring_loads::spring_loads;
use crate::stance::{Rear, Stance, StandingSide};
use crate::travel_left::{Limit, Limiter, travel_left_of};
use truck::{Change, Fitted, Remark, Side};

/// A limit that is broken, by how much, and how far it comes down, mm, `None` of what does not stand.
pub(super) struct Short {
    pub(super) why: LeftOut,
    pub(super) short: f64,
    pub(super) by: Option<Limiter>,
    pub(super) drop_mm: Option<f64>,
}

impl From<LeftOut> for Short {
    /// Of what does not stand, which nothing measures.
    fn from(why: LeftOut) -> Self {
        Self { why, short: f64::INFINITY, by: None, drop_mm: None }
    }
}

/// Margin on height before shims are worked out, mm: two of them move it half a millimetre on a usual arm.
const SETUP_MARGIN_MM: f64 = 2.0;

impl Ways {
    /// Changes laid on, at rest on the spring or not.
    pub(super) fn stands(&self, changes: &[Change]) -> Result<StandingSide, LeftOut> {
        let overlay = self.overlay(changes);
        let [left, right] = Fitted::both(&self.truck, overlay).map_err(|_| LeftOut::NoStance)?;
        if left.remarks.iter().any(Remark::is_misfit) {
            return Err(LeftOut::Adjuster);
        }
        let rear = Rear::of(overlay, &left);
        let stance = Stance::of(left, right, rear).map_err(|_| LeftOut::NoStance)?;
        Ok(stance.on(Side::Left))
    }

    /// The limits in turn, the cheap ones first, the room of every pair last.
    pub(super) fn limits(
        &self,
        changes: &mut Vec<Change>,
        within_mm: f64,
    ) -> Result<(StandingSide, Limit, Clearances), Short> {
        let mut rest = self.stands(changes)?;
        self.cheap(&rest, within_mm + self.setup_margin_mm())?;
        if self.wish.shims {
            // What is set moves the height a little, and so all that hangs on it.
            *changes = self.shimmed(changes, &rest)?;
            rest = self.stands(changes)?;
            self.cheap(&rest, within_mm)?;
        }
        let room = Clearances::of(&rest, Clearances::LIVE);
        let bump = travel_left_of(&rest, &room).bump;
        let drop_mm = Some(self.drop_mm(&rest));
        let short = self.wish.bump_mm - bump.travel_mm;
        if short > 0.0 {
            return Err(Short { why: LeftOut::Bump, short, by: Some(bump.by), drop_mm });
        }
        // A room that was read may be less by what its tool gives or takes.
        let lacks = |room: Room| (room.pair, self.needs_mm(room.pair) - (room.mm - room.give_mm));
        let lacks = rooms(&rest, &room, &bump).into_iter().map(lacks);
        match lacks.max_by(|a, b| a.1.total_cmp(&b.1)) {
            Some((pair, short)) if short > 0.0 => {
                Err(Short { why: LeftOut::Room, short, by: Some(Limiter::Contact(pair)), drop_mm })
            }
            _ => Ok((rest, bump, room)),
        }
    }

    /// What setting up may still move the height by, mm.
    pub(super) const fn setup_margin_mm(&self) -> f64 {
        if self.wish.shims { SETUP_MARGIN_MM } else { 0.0 }
    }

    /// The room that a pair must have, mm.
    fn needs_mm(&self, pair: Pair) -> f64 {
        match pair.against() {
            Against::Control => self.wish.room_mm.max(self.wish.turning_mm),
            Against::Body => self.wish.room_mm,
        }
    }

    /// The limits that need no look at the room.
    fn cheap(&self, rest: &Rest, within_mm: f64) -> Result<(), Short> {
        let wish = &self.wish;
        let (low, high) = wish.frequency_hz;
        let (drop_mm, hertz) = (self.drop_mm(rest), rest.ride_frequency_hz());
        let never = |broken: bool| if broken { f64::INFINITY } else { 0.0 };
        let short = [
            (LeftOut::Height, (drop_mm - wish.drop_mm).abs() - within_mm),
            (LeftOut::NoStance, never(rest.held_by != HeldBy::Spring)),
            (LeftOut::Loose, never(spring_loads(rest).droop.is_some_and(|droop| droop.is_loose()))),
            (LeftOut::Stop, wish.bump_mm - rest.travel_at(rest.stops.touch_rad)),
            (LeftOut::Frequency, (low - hertz).max(hertz - high)),
            (LeftOut::FlatTire, if wish.flat_tire { hangs_lower_mm(rest, &self.below_before) } else { 0.0 }),
        ];
        match short.into_iter().find(|(_, short)| *short > 0.0) {
            Some((why, short)) => Err(Short { why, short, by: None, drop_mm: Some(drop_mm) }),
            None => Ok(()),
        }
    }

    /// The proposal with camber and toe brought back to as measured, at its height.
    fn shimmed(&self, changes: &[Change], rest: &StandingSide) -> Result<Vec<Change>, Short> {
        let before = Target::of(&self.before);
        let target = Target { camber_rad: before.camber_rad, toe_rad: before.toe_rad, ..Target::of(rest) };
        let set =
            setting(&self.truck, Side::Left, self.overlay(changes), &target, CasterBy::Shims, &Steps::INCHES);
        let short = match set {
            Ok(set) if set.bounds.is_empty() => return Ok(set.changes),
            Ok(set) => (set.reads.camber_rad - target.camber_rad).abs(),
            Err(_) => f64::INFINITY,
        };
        Err(Short { why: LeftOut::Shims, short, by: None, drop_mm: Some(self.drop_mm(rest)) })
    }
}

/// What hangs below the scrub line, and how far, mm.
pub(super) fn below(rest: &Rest) -> impl Iterator<Item = (Low, f64)> {
    let points = ScrubLine::worst(rest).points.into_iter();
    points.filter(|point| point.over_line_mm < 0.0).map(|point| (point.of, -point.over_line_mm))
}

/// How far something hangs below the line that did not before, mm; zero where nothing does.
fn hangs_lower_mm(rest: &Rest, before: &[Low]) -> f64 {
    below(rest).filter(|(low, _)| !before.contains(low)).fold(0.0, |most, (_, mm)| most.max(mm))
}
