//! What a person finds who lays every combination of a table on the sketch, reads, and crosses out.

use study::{
    Against, CasterBy, Clearances, HeldBy, LeftOut, PartsTable, Rest, ScrubLine, Stance, StandingSide, Steps,
    Target, Wish, setting, spring_loads, travel_left_of,
};
use truck::{
    BarAdjuster, BarReindex, Change, CutCoil, DroppedSpindle, Remark, Side, SpringKind, StopTrim, TireSwap,
    Truck, fit,
};

/// Which of each list is on, nothing among them: spindle, turns, splines, coils, tire, trim.
pub(crate) type Picks = [Option<usize>; 6];

/// A combination, and what became of it.
#[derive(Clone, Debug)]
pub(crate) struct Tried {
    pub(crate) picks: Picks,
    pub(crate) changes: Vec<Change>,
    /// Lower than as measured, mm; not a number of parts that do not stand.
    pub(crate) drop_mm: f64,
    /// Why it is left out, and how far it is short of that limit.
    pub(crate) why: Option<(LeftOut, f64)>,
    /// What it loses: bump travel, mm, camber and caster, degrees, frequency, Hz.
    pub(crate) losses: [f64; 4],
    pub(crate) cost: f64,
}

/// Every combination of a table.
pub(crate) fn all(truck: &Truck, table: &PartsTable) -> Vec<Picks> {
    let choices = |count: usize| [None].into_iter().chain((0..count).map(Some)).collect::<Vec<_>>();
    let only = |kind: SpringKind, count: usize| choices(if truck.spring.kind == kind { count } else { 0 });
    let mut all = Vec::new();
    for trim in choices(table.trims_mm.len()) {
        for tire in choices(table.tires.len()) {
            for coil in only(SpringKind::Coil, table.coils.len()) {
                for spline in only(SpringKind::TorsionBar, table.splines.len()) {
                    for turn in only(SpringKind::TorsionBar, table.turns.len()) {
                        for spindle in choices(table.spindles_mm.len()) {
                            all.push([spindle, turn, spline, coil, tire, trim]);
                        }
                    }
                }
            }
        }
    }
    all
}

/// The parts of a combination.
pub(crate) fn parts(truck: &Truck, table: &PartsTable, picks: &Picks) -> Vec<Change> {
    let [spindle, turn, spline, coil, tire, trim] = *picks;
    let swap = |size| TireSwap {
        size,
        rim_width_mm: truck.wheel.rim_width_mm,
        offset_mm: truck.wheel.offset_mm,
        loaded_radius_mm: None,
        barrel_mm: None,
    };
    let parts = [
        spindle
            .map(|at| table.spindles_mm[at])
            .map(|drop_mm| Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })),
        turn.map(|at| Change::BarAdjuster(BarAdjuster { turns: table.turns[at] })),
        spline.map(|at| Change::BarReindex(BarReindex { anchor: table.splines[at], arm: 0.0 })),
        coil.map(|at| Change::CutCoil(CutCoil { coils: table.coils[at] })),
        tire.map(|at| Change::TireSwap(swap(table.tires[at]))),
        trim.map(|at| Change::StopTrim(StopTrim { lower_mm: table.trims_mm[at], less_squash_mm: 0.0 })),
    ];
    parts.into_iter().flatten().collect()
}

/// In one order, to be compared.
pub(crate) fn sorted(changes: &[Change]) -> Vec<Change> {
    let mut changes = changes.to_vec();
    changes.sort_by_key(Change::slot);
    changes
}

/// Every combination tried by itself; what is as good with a part less, and what comes
/// to the same as one before it, are crossed out last.
pub(crate) fn tried(truck: &Truck, wish: &Wish, table: &PartsTable) -> Vec<Tried> {
    let hand = Hand::of(truck, *wish);
    let mut all: Vec<Tried> = all(truck, table)
        .into_iter()
        .map(|picks| hand.tries(picks, parts(truck, table, &picks), wish.within_mm))
        .collect();
    let kept: Vec<Tried> = all.iter().filter(|tried| tried.why.is_none()).cloned().collect();
    let mut seen: Vec<Vec<Change>> = Vec::new();
    for tried in all.iter_mut().filter(|tried| tried.why.is_none()) {
        let less = |other: &&Tried| {
            let off: Vec<usize> = (0..6).filter(|list| other.picks[*list] != tried.picks[*list]).collect();
            // A turn of the bolt is no part.
            off.len() == 1 && off[0] != 1 && other.picks[off[0]].is_none()
        };
        let no_worse = |other: &Tried| {
            let gains = other.losses.iter().zip(tried.losses).map(|(less, with)| less - with);
            other.cost <= tried.cost && gains.zip([0.5, 0.05, 0.05, 0.01]).all(|(gain, none)| gain <= none)
        };
        if kept.iter().filter(less).any(no_worse) {
            tried.why = Some((LeftOut::Spare, f64::INFINITY));
        } else if seen.contains(&sorted(&tried.changes)) {
            tried.why = Some((LeftOut::Same, f64::INFINITY));
        } else {
            seen.push(sorted(&tried.changes));
        }
    }
    all
}

/// A person with the truck as measured at hand.
pub(crate) struct Hand {
    truck: Truck,
    wish: Wish,
    before: StandingSide,
    bump_before_mm: f64,
}

impl Hand {
    pub(crate) fn of(truck: &Truck, wish: Wish) -> Self {
        let before = Stance::laid(truck, &[]).unwrap().on(Side::Left);
        let room = Clearances::of(&before, Clearances::LIVE);
        let bump_before_mm = travel_left_of(&before, &room).bump.travel_mm;
        Self { truck: truck.clone(), wish, before, bump_before_mm }
    }

    /// A combination by itself; `within_mm` of the height is near enough.
    pub(crate) fn tries(&self, picks: Picks, changes: Vec<Change>, within_mm: f64) -> Tried {
        let mut tried =
            Tried { picks, changes, drop_mm: f64::NAN, why: None, losses: [0.0; 4], cost: f64::NAN };
        tried.why = self.crossed_out(&mut tried, within_mm).err();
        tried
    }

    fn crossed_out(&self, tried: &mut Tried, within_mm: f64) -> Result<(), (LeftOut, f64)> {
        let none = f64::INFINITY;
        let stands = |changes: &[Change]| {
            let fitted = fit(&self.truck, changes).map_err(|_| (LeftOut::NoStance, none))?;
            if fitted.remarks.iter().any(Remark::is_misfit) {
                return Err((LeftOut::Adjuster, none));
            }
            let stance = Stance::laid(&self.truck, changes).map_err(|_| (LeftOut::NoStance, none))?;
            Ok(stance.on(Side::Left))
        };
        let mut rest = stands(&tried.changes)?;
        tried.drop_mm = self.before.ride_height_mm() - rest.ride_height_mm();
        // What the shims move it by is seen once they are in.
        let near_mm = if self.wish.shims { 2.0 } else { 0.0 };
        self.at_rest(&rest, tried.drop_mm, within_mm + near_mm)?;
        if self.wish.shims {
            let was = self.before.attitude();
            let target = Target { camber_rad: was.camber_rad, toe_rad: was.toe_rad, ..Target::of(&rest) };
            let set =
                setting(&self.truck, Side::Left, &tried.changes, &target, CasterBy::Shims, &Steps::INCHES)
                    .map_err(|_| (LeftOut::Shims, none))?;
            if !set.bounds.is_empty() {
                return Err((LeftOut::Shims, (set.reads.camber_rad - was.camber_rad).abs()));
            }
            tried.changes = set.changes;
            rest = stands(&tried.changes)?;
            tried.drop_mm = self.before.ride_height_mm() - rest.ride_height_mm();
            self.at_rest(&rest, tried.drop_mm, within_mm)?;
        }
        let room = Clearances::of(&rest, Clearances::LIVE);
        let bump_mm = travel_left_of(&rest, &room).bump.travel_mm;
        if bump_mm < self.wish.bump_mm {
            return Err((LeftOut::Bump, self.wish.bump_mm - bump_mm));
        }
        let control = room.found.iter().filter(|found| found.pair.against() == Against::Control);
        let least = control.map(|found| found.gap.distance_mm).fold(f64::INFINITY, f64::min);
        if least < self.wish.turning_mm {
            return Err((LeftOut::Room, self.wish.turning_mm - least));
        }
        self.counts(tried, &rest, bump_mm);
        Ok(())
    }

    fn at_rest(&self, rest: &Rest, drop_mm: f64, within_mm: f64) -> Result<(), (LeftOut, f64)> {
        let none = f64::INFINITY;
        let wish = &self.wish;
        let off_mm = (drop_mm - wish.drop_mm).abs();
        if off_mm > within_mm {
            return Err((LeftOut::Height, off_mm - within_mm));
        }
        if rest.held_by != HeldBy::Spring {
            return Err((LeftOut::NoStance, none));
        }
        if spring_loads(rest).droop.unwrap().is_loose() {
            return Err((LeftOut::Loose, none));
        }
        let touch_mm = rest.travel_at(rest.stops.touch_rad);
        if touch_mm < wish.bump_mm {
            return Err((LeftOut::Stop, wish.bump_mm - touch_mm));
        }
        let hertz = rest.ride_frequency_hz();
        if hertz < wish.frequency_hz.0 {
            return Err((LeftOut::Frequency, wish.frequency_hz.0 - hertz));
        }
        if hertz > wish.frequency_hz.1 {
            return Err((LeftOut::Frequency, hertz - wish.frequency_hz.1));
        }
        let line = |rest: &Rest| ScrubLine::worst(rest).points;
        let was_above =
            |of| line(&self.before).iter().any(|point| point.of == of && point.over_line_mm >= 0.0);
        let under = line(rest)
            .iter()
            .filter(|point| point.over_line_mm < 0.0 && was_above(point.of))
            .map(|point| -point.over_line_mm)
            .fold(0.0, f64::max);
        if wish.flat_tire && under > 0.0 { Err((LeftOut::FlatTire, under)) } else { Ok(()) }
    }

    /// What it loses, and what that counts by the usual weights.
    fn counts(&self, tried: &mut Tried, rest: &StandingSide, bump_mm: f64) {
        let off = |now: f64, was: f64| (now - was).to_degrees().abs();
        let (now, was) = (rest.attitude(), self.before.attitude());
        let [lost_mm, camber, caster, hertz] = [
            (self.bump_before_mm - bump_mm).max(0.0),
            off(now.camber_rad, was.camber_rad),
            off(rest.attitude_on_ground().caster_rad, self.before.attitude_on_ground().caster_rad),
            (rest.ride_frequency_hz() - self.before.ride_frequency_hz()).abs(),
        ];
        tried.losses = [lost_mm, camber, caster, hertz];
        tried.cost = lost_mm / 10.0 + camber + 0.5 * caster + 5.0 * hertz;
        for change in &tried.changes {
            tried.cost += match change {
                Change::CutCoil(_) | Change::StopTrim(_) => 2.5,
                Change::DroppedSpindle(_) | Change::BarReindex(_) | Change::TireSwap(_) => 0.5,
                _ => 0.0,
            };
        }
    }
}
