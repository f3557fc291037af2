//! How far off any numbers may be that are worked out from a truck.

use super::{Input, Inputs, Sensitivities, Uncertainty};
use crate::figure::Trial;
use truck::Reading;

/// A search for how far off any numbers may be that are worked out from a truck: what is set, say, for what is
/// wanted. To be taken on in steps.
///
/// What was read off the truck is as far off as its tool, and moved like every other number.
#[derive(Clone, Debug)]
pub struct NumberSpreading {
    trial: Trial,
    /// What the numbers may hang on.
    inputs: Vec<(Input, Uncertainty)>,
    /// Of the truck itself.
    own: Option<Vec<f64>>,
    /// How many inputs were moved.
    next: usize,
    found: Sensitivities,
}

impl NumberSpreading {
    /// Of the numbers of a truck those are moved that `counts` says they may hang on.
    #[must_use]
    pub fn new(trial: &Trial, counts: &dyn Fn(Input) -> bool) -> Self {
        let mut inputs = Vec::new();
        for (input, uncertainty) in Inputs::of(std::slice::from_ref(trial)).list() {
            if counts(*input) {
                inputs.push((*input, *uncertainty));
            }
        }
        Self { trial: trial.clone(), inputs, own: None, next: 0, found: Sensitivities::default() }
    }

    /// Moves one number; true when all is known. `numbers_of`: the numbers of a truck, in the same order each time;
    /// none where it has none.
    pub fn step(&mut self, numbers_of: &dyn Fn(&Trial) -> Option<Vec<f64>>) -> bool {
        let Some(own) = &self.own else {
            self.own = numbers_of(&self.trial);
            return self.own.is_none();
        };
        let Some((input, uncertainty)) = self.inputs.get(self.next).copied() else { return true };
        self.next += 1;
        // One way is as good as the other; where the truck falls apart one way, the other.
        let at = |by: f64| {
            let mut moved = self.trial.clone();
            let by = shifted(input, by, &mut moved);
            (by != 0.0).then(|| (by, numbers_of(&moved)))
        };
        let there = match at(uncertainty.standard) {
            Some((by, Some(there))) => Some((by, there)),
            other => match at(-uncertainty.standard) {
                Some((by, there)) => there.map(|there| (by, there)),
                // What cannot be moved is known.
                None if other.is_none() => Some((1.0, own.clone())),
                None => None,
            },
        };
        let slope = |number: usize| {
            let (by, there) = there.as_ref()?;
            Some((there.get(number)? - own[number]) / by * uncertainty.standard)
        };
        self.found.put((0..own.len()).map(slope).collect());
        self.next >= self.inputs.len()
    }

    /// ± of each number, in its own unit. Where a number is gone when one of the truck's moves, nothing is known of
    /// how far off it is; nothing at all where the truck itself has none.
    #[must_use]
    pub fn spreads(&self) -> Vec<Option<f64>> {
        let count = self.own.as_ref().map_or(0, Vec::len);
        (0..count).map(|number| self.found.spread(number)).collect()
    }
}

/// The same in one go.
#[must_use]
pub fn spreads_of(
    trial: &Trial,
    counts: &dyn Fn(Input) -> bool,
    numbers_of: &dyn Fn(&Trial) -> Option<Vec<f64>>,
) -> Vec<Option<f64>> {
    let mut search = NumberSpreading::new(trial, counts);
    while !search.step(numbers_of) {}
    search.spreads()
}

/// Moves a number of a truck, a reading among them, and gives by how much.
fn shifted(input: Input, by: f64, trial: &mut Trial) -> f64 {
    let Input::Reading(side, of) = input else { return input.shift(by, 0, trial) };
    let Some(reading) = trial.truck.readings.get(of, side).copied() else { return 0.0 };
    // Of a sweep it is the gain of camber that was read.
    let value = reading.value + by * reading.tolerance / reading.answer_tolerance();
    match trial.truck.readings.set(of, side, Some(Reading { value, ..reading })) {
        Ok(()) => by,
        Err(_) => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{Field, Overlay, ReadWith, Readable, Side, demo};

    /// By hand: half of what the rail's bottom is above the ground is half as far off, calipers on the bar 0.2, what
    /// is not asked about is known; a sweep's caster by as much as was read of it, over twice the sine of 20°.
    #[test]
    fn is_as_far_off_as_what_it_hangs_on() {
        let mut truck = demo().truck;
        let swept = Reading {
            swept_rad: Some(20_f64.to_radians()),
            ..Reading::by(Readable::Caster, 0.03, ReadWith::AngleGauge)
        };
        truck.readings.set(Readable::Caster, Side::Left, Some(swept)).expect("it is a reading");
        let trial = Trial::new(&truck, Overlay::NOTHING);
        let numbers = |trial: &Trial| {
            let caster = trial.truck.readings.get(Readable::Caster, Side::Left)?.answer();
            Some(vec![trial.truck.body.rail.bottom_z_mm / 2.0, trial.truck.spring.bar.diameter_mm, caster])
        };
        let near = |found: Option<f64>, wanted: f64| {
            assert!(found.is_some_and(|found| (found - wanted).abs() < 0.01 * wanted), "{found:?} {wanted}");
        };
        let found = spreads_of(&trial, &|_| true, &numbers);
        near(found[0], 1.5875 / 2.0);
        near(found[1], 0.2);
        near(found[2], 0.1_f64.to_radians() / (2.0 * libm::sin(20_f64.to_radians())));
        let without = spreads_of(&trial, &|input| input != Input::Number(Field::RailBottomZ), &numbers);
        assert_eq!((without[0], without[1]), (Some(0.0), found[1]));
        assert_eq!(spreads_of(&trial, &|_| true, &|_| None), []);
    }
}
