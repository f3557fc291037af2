//! What follows from the design: each memo one call into a library.

use crate::signals::{Derived, Same, Value};
use crate::state::{Page, Panel, Selected};
use crate::told::Known;
use drawing::{Aspect, Broken, Ends, Scene, Sketch, Units, View};
use linkage::{Pose, Vector3};
use std::ops::Deref;
use study::{
    Clearances, Gap, Gauged, LeftRight, Limit, NoStance, Rear, Rest, Span, Stance, StandingSide, Steering,
    Sweep, TravelLeft, clearances, left_and_right, steer_sweep, sweep, travel_left_of,
};
use truck::{Design, Fitted, MOST_PROPOSALS, Overlay, Proposal, ProposalId, Side, Truck, fit};

/// Half of the travel that curves are drawn over, mm: three inches.
pub(crate) const CURVE_MM: f64 = 76.2;
/// Stations of a curve.
const STATIONS: u32 = 61;

/// The side of a truck that is looked at, at rest, or why it cannot stand.
pub(crate) type Standing = Same<Result<StandingSide, NoStance>>;

/// What says how far the rear comes down. By its parts it is in the second module: whose plan has none does not
/// wait for it, and until it is there what is read against the ground holds if the rear stays up, and says so.
pub(crate) type RearOf = fn(Overlay<'_>, &Fitted) -> Rear;
/// What draws the truck from the side and from above, or a linkage that does not close, in the second module
/// too: a phone shows it from the front first.
pub(crate) type DrawnAside = fn(Aspect, Ends, Result<&Sketch<'_>, &Broken<'_>>, &View) -> Scene;

/// What every view reads, which stands as long as the page does. Copies are the same answers, and a pointer.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Answers(&'static Memos);

impl Deref for Answers {
    type Target = Memos;

    fn deref(&self) -> &Memos {
        self.0
    }
}

/// The answers themselves. A memo that no mounted view reads computes nothing.
#[derive(Debug)]
pub(crate) struct Memos {
    /// The truck as measured.
    pub(crate) before: Derived<Standing>,
    /// Each proposal in the order of the list; nothing where there are fewer, or where parts do not fit.
    pub(crate) proposed: [Derived<Option<Standing>>; MOST_PROPOSALS],
    /// What is on the sketch: a proposal, or as measured.
    pub(crate) standing: Derived<Standing>,
    /// The truck on the sketch with its parts, standing or not.
    pub(crate) fitted: Derived<Option<Same<Fitted>>>,
    /// The steering of the truck as measured, where its numbers are stated.
    pub(crate) steering: Derived<Option<Steering>>,
    /// The pose on the sketch.
    pub(crate) pose: Derived<Option<Pose>>,
    /// The pose of the truck as measured at the same travel and steer.
    pub(crate) pose_before: Derived<Option<Pose>>,
    /// The room at that pose.
    pub(crate) gaps: Derived<Vec<Gap>>,
    /// The least room over travel and steer, on the grid that keeps up with a drag.
    pub(crate) clearances: Derived<Option<Same<Clearances>>>,
    /// What is left of the travel.
    pub(crate) travel_left: Derived<Option<TravelLeft>>,
    /// What a proposal's parts make of the rear, once the second module is there.
    pub(crate) rear_of: Value<Option<RearOf>>,
    /// What draws all but the front view, once it is there.
    pub(crate) drawn_aside: Value<Option<DrawnAside>>,
    /// The trucks whose figures' guesses were narrowed, while nothing moved.
    pub(crate) known: Value<Vec<Known>>,
    /// As measured, moved through the travel.
    pub(crate) sweep_before: Derived<Option<Same<Sweep>>>,
    /// What is on the sketch, moved through the travel.
    pub(crate) sweep_now: Derived<Option<Same<Sweep>>>,
    /// Each proposal, moved through the travel.
    pub(crate) sweeps: [Derived<Option<Same<Sweep>>>; MOST_PROPOSALS],
    /// As measured, steered from lock to lock.
    pub(crate) steered_before: Derived<Same<Vec<Gauged>>>,
    /// Each proposal, steered from lock to lock.
    pub(crate) steered: [Derived<Same<Vec<Gauged>>>; MOST_PROPOSALS],
}

impl Answers {
    /// How far the wheel goes down and up, mm: to the stops, whatever meets on the way there.
    pub(crate) fn travel_ends(&self) -> (f64, f64) {
        self.travel_left.with(|left| match left {
            Some(left) => (-left.droop_stop_mm.max(1.0), left.solid_mm.max(1.0)),
            None => (-CURVE_MM, CURVE_MM),
        })
    }

    /// What is free of it, mm, what ends that upward, and where the bump stop is first touched.
    pub(crate) fn travel_free(&self) -> Option<(f64, Limit, f64)> {
        self.travel_left
            .with(|left| left.as_ref().map(|left| (-left.droop.travel_mm, left.bump, left.touch_mm)))
    }

    pub(crate) fn new(page: Page) -> Self {
        let shown = page.store.shown();
        let side = page.session.side;
        let measured = Derived::new(move || shown.with(|design| design.truck.clone()));
        let before = Derived::new(move || {
            let stance = measured.with(Stance::as_measured);
            Same::new(stance.map(|stance| stance.on(side.get())))
        });
        let selected = Derived::new(move || {
            let id = page.selected().proposal();
            shown.with(|design| id.and_then(|id| design.proposal(id)).map(unnamed))
        });
        let fitted = Derived::new(move || {
            let here = measured.with(|truck| truck.on(side.get()));
            let laid =
                selected.with(|found| fit(here, found.as_ref().map_or(Overlay::NOTHING, Overlay::from)));
            laid.ok().map(Same::new)
        });
        let rear_of = Value::new(None);
        let proposed = std::array::from_fn(|at| proposed(page, measured, before, rear_of, at));
        let now = Derived::new(move || {
            let id = page.selected().proposal();
            let at = shown.with(|design| design.proposals.iter().position(|found| Some(found.id) == id));
            at.and_then(|at| proposed[at].get()).unwrap_or_else(|| before.get())
        });
        let session = page.session;
        let steering_of = |standing: Derived<Standing>| {
            Derived::new(move || standing.with(|rest| Steering::of(rest.as_ref().as_ref().ok()?).ok()))
        };
        let (steering_now, steering) = (steering_of(now), steering_of(before));
        let pose_of = |standing: Derived<Standing>, steering: Derived<Option<Steering>>| {
            Derived::new(move || {
                let standing = standing.get();
                let rest = standing.as_ref().as_ref().ok()?;
                let (travel_mm, steer_rad) = (session.travel_mm.get(), page.sign() * session.steer_rad.get());
                let steered = || {
                    // Straight ahead needs no steering, and a frame of a drag no search for the locks.
                    let steering = (steer_rad.abs() > 1e-9).then(|| steering.get())??;
                    steering.pose(rest, travel_mm, steering.steer_at(rest, steer_rad)).ok()
                };
                steered().or_else(|| reachable(rest, travel_mm))
            })
        };
        let (pose, pose_before) = (pose_of(now, steering_now), pose_of(before, steering));
        let gaps = Derived::new(move || {
            let now = now.get();
            match (now.as_ref(), pose.get()) {
                (Ok(rest), Some(pose)) => clearances(rest, &pose),
                _ => Vec::new(),
            }
        });
        let clearances_of = |rest: &StandingSide| Same::new(Clearances::of(rest, Clearances::LIVE));
        let room = Derived::new(move || now.with(|now| now.as_ref().as_ref().ok().map(clearances_of)));
        let travel_left = Derived::new(move || {
            let now = now.get();
            let rest = now.as_ref().as_ref().ok()?;
            // The whole grid is a third of a frame: a drag waits for it only where it is shown.
            let in_a_drag = session.is_moving.get() && session.panel.get() != Panel::Clearance;
            let meet = || Some(Same::new(Clearances::that_meet_in_a_drag(rest)));
            let room = if in_a_drag { meet() } else { room.get() };
            Some(travel_left_of(rest, &*room?))
        });
        let sweep_of = |standing: Derived<Standing>| Derived::new(move || standing.with(swept));
        let sweeps = proposed.map(|one: Derived<Option<Standing>>| {
            Derived::new(move || one.with(|standing| standing.as_ref().and_then(swept)))
        });
        Self(Box::leak(Box::new(Memos {
            before,
            proposed,
            standing: now,
            fitted,
            steering,
            pose,
            pose_before,
            gaps,
            clearances: room,
            travel_left,
            rear_of,
            drawn_aside: Value::new(None),
            known: Value::new(Vec::new()),
            sweep_before: sweep_of(before),
            sweep_now: sweep_of(now),
            sweeps,
            steered_before: Derived::new(move || before.with(steered)),
            steered: proposed.map(|one: Derived<Option<Standing>>| {
                Derived::new(move || {
                    one.with(|standing| standing.as_ref().map_or_else(|| Same::new(Vec::new()), steered))
                })
            }),
        })))
    }
}

/// The proposal at a place of the list, at rest. What is done to the others does not make it anew.
fn proposed(
    page: Page,
    measured: Derived<Truck>,
    before: Derived<Standing>,
    rear_of: Value<Option<RearOf>>,
    at: usize,
) -> Derived<Option<Standing>> {
    let proposal =
        Derived::new(move || page.store.shown().with(|design| design.proposals.get(at).map(unnamed)));
    Derived::new(move || {
        let proposal = proposal.get()?;
        let overlay = Overlay::from(&proposal);
        if overlay.is_nothing() {
            return Some(before.get());
        }
        let [left, right] = measured.with(|truck| Fitted::both(truck, overlay)).ok()?;
        // Where nothing is done to the rear what comes later is not waited for, and changes nothing.
        let of = if left.rear.is_empty() { None } else { rear_of.get() };
        let rear = of.map_or_else(|| Rear::stated(overlay, &left), |of| of(overlay, &left));
        let stance = Stance::of(left, right, rear);
        Some(Same::new(stance.map(|stance| stance.on(page.session.side.get()))))
    })
}

/// A plan but for what it is called: by another name nothing is worked out anew.
fn unnamed(plan: &Proposal) -> Proposal {
    let mut plan = plan.clone();
    plan.name.clear();
    plan
}

fn swept(standing: &Standing) -> Option<Same<Sweep>> {
    let span = Span { from_mm: -CURVE_MM, to_mm: CURVE_MM, count: STATIONS };
    standing.as_ref().as_ref().ok().map(|rest| Same::new(sweep(rest, &span, Vector3::zeros())))
}

/// Lock to lock with the truck at rest; nothing where its steering is not stated.
fn steered(standing: &Standing) -> Same<Vec<Gauged>> {
    let Ok(rest) = standing.as_ref() else { return Same::new(Vec::new()) };
    let Ok(steering) = Steering::of(rest) else { return Same::new(Vec::new()) };
    Same::new(steer_sweep(rest, &steering, 0.0, STATIONS))
}

/// A side of a truck with a proposal laid over it, at rest.
pub(crate) fn rest_of(truck: &Truck, side: Side, overlay: Overlay<'_>) -> Result<StandingSide, NoStance> {
    Ok(Stance::laid(truck, overlay)?.on(side))
}

/// Left and right of what is on the sketch, at rest, and each of them compared; `None` where it
/// does not stand.
pub(crate) fn both_sides(page: Page) -> Option<([StandingSide; 2], [LeftRight; 7])> {
    let which = page.selected();
    page.store.shown().with(|design| {
        let stance = Stance::of_design(design, which).ok()?;
        let [left, right] = Side::ALL.map(|side| stance.on(side));
        let compared = left_and_right(&left, &right);
        Some(([left, right], compared))
    })
}

/// The pose at a travel, or at the nearest that can be reached.
fn reachable(rest: &Rest, travel_mm: f64) -> Option<Pose> {
    rest.at_travel(travel_mm).ok().or_else(|| {
        let range = rest.corner.range();
        let height = (rest.pose.wheel_centre.z + travel_mm).clamp(range.low_mm, range.high_mm);
        rest.corner.at_height(height, Vector3::zeros()).ok()
    })
}

/// What each proposal is called. While one is dragged its name waits: it would move what stands beside it.
pub(crate) fn proposal_names(page: Page) -> Vec<(ProposalId, String)> {
    names(page, drawing::proposal_names)
}

/// The same where there is little room.
pub(crate) fn short_names(page: Page) -> Vec<(ProposalId, String)> {
    names(page, drawing::short_names)
}

fn names(page: Page, of: fn(&Design, Units) -> Vec<String>) -> Vec<(ProposalId, String)> {
    let units = page.units();
    page.store.with_committed(|design| {
        design.proposals.iter().map(|found| found.id).zip(of(design, units)).collect()
    })
}

/// What a proposal is called.
pub(crate) fn name_of(page: Page, id: ProposalId) -> String {
    let found = proposal_names(page).into_iter().find(|(of, _)| *of == id);
    found.map_or_else(|| "Plan".to_owned(), |(_, name)| name)
}

/// The name of what is selected.
pub(crate) fn selected_name(page: Page) -> String {
    let name = match page.selected() {
        Selected::AsMeasured => "As it sits".to_owned(),
        Selected::Proposal(id) => name_of(page, id),
    };
    if page.session.side.get() == Side::Right { name + ", right side" } else { name }
}
