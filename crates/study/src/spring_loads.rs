//! How hard the spring works: at rest, at the stop and hanging.

use crate::rest::Rest;
use linkage::Vector3;
use truck::SpringKind;

/// What a spring bears at one pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringLoad {
    /// Bar: torque, N·mm. Coil: force, N. Rate at the wheel: force, N.
    pub effort: f64,
    /// Shear stress, N/mm²; `None` of a plain rate.
    pub stress_n_per_mm2: Option<f64>,
    /// Stress over what the part may bear, where that is stated.
    pub share: Option<f64>,
}

impl SpringLoad {
    /// Whether nothing is left of it: a coil can leave its seat, an anchor come out.
    #[must_use]
    pub fn is_loose(&self) -> bool {
        self.effort <= 0.0
    }

    /// How much more it is stressed than another that has any stress, as a share of that one.
    #[must_use]
    pub fn harder_than(&self, other: &Self) -> Option<f64> {
        let other = other.stress_n_per_mm2.filter(|stress| *stress > 0.0)?;
        Some(self.stress_n_per_mm2? / other - 1.0)
    }
}

/// By how much a spring holds where the wheel hangs; below zero where it is loose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Preload {
    /// A torsion bar.
    Bar {
        /// Twist that is left, rad.
        twist_rad: f64,
        /// Turns of the anchor's bolt, out, until none is left; `None` where its end never gets there.
        turns: Option<f64>,
    },
    /// How far a coil is still pressed together, mm.
    Coil(f64),
}

impl Preload {
    /// Whether nothing is left.
    #[must_use]
    pub const fn is_loose(&self) -> bool {
        match self {
            Self::Bar { twist_rad: remaining, .. } | Self::Coil(remaining) => *remaining <= 0.0,
        }
    }
}

/// How hard the spring works.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringLoads {
    /// At rest.
    pub rest: SpringLoad,
    /// At the bump stop solid.
    pub bump: Option<SpringLoad>,
    /// At full droop.
    pub droop: Option<SpringLoad>,
    /// By how much it holds at full droop; `None` of a plain rate.
    pub preload: Option<Preload>,
    /// Room of the coil to solid with the bump stop solid, mm; negative where it
    /// binds before. Only of a coil whose ends are stated.
    pub room_to_bind_mm: Option<f64>,
}

/// How hard the spring of a truck works, straight ahead.
#[must_use]
pub fn spring_loads(rest: &Rest) -> SpringLoads {
    let at = |angle: f64| {
        let pose = rest.corner.pose(angle, Vector3::zeros()).ok()?;
        rest.spring_state.at_pose(&rest.corner, &pose).ok()
    };
    let of = |effort: f64| spring_load(rest, effort);
    let bump = at(rest.stops.solid_rad);
    let spring = &rest.fitted.spring;
    let solid_mm = spring.coil.solid_mm().filter(|_| spring.kind == SpringKind::Coil);
    let droop = at(rest.stops.droop_rad);
    SpringLoads {
        preload: droop.and_then(|found| preload(rest, found.effort, found.movement)),
        rest: of(rest.effort),
        bump: bump.map(|found| of(found.effort)),
        droop: droop.map(|found| of(found.effort)),
        room_to_bind_mm: bump
            .zip(solid_mm)
            .map(|(found, solid_mm)| found.movement - rest.fitted.spacer_mm - solid_mm),
    }
}

/// The anchor turned back by the twist that is left takes all of it off.
fn preload(rest: &Rest, effort: f64, movement: f64) -> Option<Preload> {
    let spring = &rest.fitted.spring;
    match spring.kind {
        SpringKind::TorsionBar => {
            let now = rest.fitted.bolt_turns;
            let slack = spring.bar.turns_for(spring.bar.anchor_turn_rad(now) - movement);
            Some(Preload::Bar { twist_rad: movement, turns: slack.map(|slack| now - slack) })
        }
        SpringKind::Coil => Some(Preload::Coil(effort / spring.coil_rate())),
        SpringKind::WheelRate => None,
    }
}

fn spring_load(rest: &Rest, effort: f64) -> SpringLoad {
    let spring = &rest.fitted.spring;
    let stress_n_per_mm2 = rest.spring_state.stress_n_per_mm2(effort);
    let allowable = match spring.kind {
        SpringKind::TorsionBar => spring.bar.allowable_n_per_mm2,
        SpringKind::Coil => spring.coil.allowable_n_per_mm2,
        SpringKind::WheelRate => None,
    };
    let share = stress_n_per_mm2.zip(allowable).map(|(stress, allowable)| stress / allowable);
    SpringLoad { effort, stress_n_per_mm2, share }
}
