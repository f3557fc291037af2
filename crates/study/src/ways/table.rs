//! The parts on the table, and their combinations by number.

use truck::{
    BarAdjuster, BarReindex, Change, CutCoil, DroppedSpindle, SpringKind, StopTrim, TireSize, TireSwap, Truck,
};

/// The parts that may be used. Of each list one is taken, or none.
///
/// No ball joint is among them: turned over it lowers only on the arm with the
/// spring, and there its bolts would carry the truck.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartsTable {
    /// Drops of the spindles, mm.
    pub spindles_mm: Vec<f64>,
    /// Turns of the bar's bolt, + in.
    pub turns: Vec<f64>,
    /// Splines at the bar's anchor, + raises.
    pub splines: Vec<f64>,
    /// Coils cut off.
    pub coils: Vec<f64>,
    /// Tire sizes, on the wheels as measured.
    pub tires: Vec<TireSize>,
    /// How much the bump stop may be trimmed, mm.
    pub trims_mm: Vec<f64>,
    /// Parts of the rear that are on in every combination: [`rear_way`](super::rear_way).
    pub rear: Vec<Change>,
}

/// Where the lists stand that are swapped or cut and not only turned.
const PARTS: [usize; 5] = [0, 2, 3, 4, 5];

impl PartsTable {
    /// What people look for first: spindles of an inch and a half to three inches, the bolt turn by turn as
    /// far as it goes with a spline or two, or coils by halves, and three eighths of the bump stop off.
    #[must_use]
    pub fn usual(truck: &Truck) -> Self {
        let bar = &truck.spring.bar;
        let out = (1..=40).map(f64::from).take_while(|turns| *turns <= bar.turns_out);
        Self {
            spindles_mm: vec![38.1, 50.8, 63.5, 76.2],
            turns: out.map(|turns| -turns).collect(),
            splines: vec![-1.0, -2.0],
            coils: (1..=6).map(|halves| f64::from(halves) / 2.0).collect(),
            tires: Vec::new(),
            trims_mm: vec![9.52],
            rear: Vec::new(),
        }
    }

    /// How many choices each list gives, "none" among them, in the order of the digits of a number.
    /// The spindle's is the quickest.
    fn choices(&self, truck: &Truck) -> [usize; 6] {
        let with = |count: usize, kind: SpringKind| if truck.spring.kind == kind { count + 1 } else { 1 };
        [
            self.spindles_mm.len() + 1,
            with(self.turns.len(), SpringKind::TorsionBar),
            with(self.splines.len(), SpringKind::TorsionBar),
            with(self.coils.len(), SpringKind::Coil),
            self.tires.len() + 1,
            self.trims_mm.len() + 1,
        ]
    }

    /// How many combinations there are.
    #[must_use]
    pub fn combinations(&self, truck: &Truck) -> usize {
        self.choices(truck).into_iter().fold(1, usize::saturating_mul)
    }

    /// The combination that differs from another by its spindle alone, having none.
    pub(super) const fn without_spindle(&self, index: usize) -> usize {
        index - index % (self.spindles_mm.len() + 1)
    }

    /// The combinations that differ from another by a part left off.
    pub(super) fn less_a_part(&self, truck: &Truck, index: usize) -> Vec<usize> {
        let mut unit = 1;
        let on = self.choices(truck).map(|count| {
            let on = index / unit % count * unit;
            unit = unit.saturating_mul(count);
            on
        });
        let mut less = Vec::new();
        for list in PARTS {
            if on[list] > 0 {
                less.push(index - on[list]);
            }
        }
        less
    }

    /// The changes of a combination by its number, which is read digit by digit.
    #[must_use]
    pub fn changes(&self, truck: &Truck, index: usize) -> Vec<Change> {
        let mut remaining = index;
        let picks = self.choices(truck).map(|count| {
            let digit = remaining % count;
            remaining /= count;
            // The first choice of each is none.
            digit.checked_sub(1)
        });
        let [spindle, turns, splines, coils, tire, trim] = picks;
        let of = |list: &[f64], pick: Option<usize>| pick.and_then(|at| list.get(at)).copied();
        let mut changes = Vec::new();
        let mut add = |change: Change| changes.extend(change.kept());
        if let Some(drop_mm) = of(&self.spindles_mm, spindle) {
            add(Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() }));
        }
        if let Some(turns) = of(&self.turns, turns) {
            add(Change::BarAdjuster(BarAdjuster { turns }));
        }
        if let Some(anchor) = of(&self.splines, splines) {
            add(Change::BarReindex(BarReindex { anchor, arm: 0.0 }));
        }
        if let Some(coils) = of(&self.coils, coils) {
            add(Change::CutCoil(CutCoil { coils }));
        }
        if let Some(size) = tire.and_then(|at| self.tires.get(at)) {
            add(Change::TireSwap(TireSwap {
                size: *size,
                rim_width_mm: truck.wheel.rim_width_mm,
                offset_mm: truck.wheel.offset_mm,
                loaded_radius_mm: None,
                barrel_mm: None,
            }));
        }
        if let Some(lower_mm) = of(&self.trims_mm, trim) {
            add(Change::StopTrim(StopTrim { lower_mm, less_squash_mm: 0.0 }));
        }
        self.rear.iter().copied().for_each(add);
        changes
    }
}
