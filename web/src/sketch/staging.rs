//! What stands on the sketch, as the pictures of it are drawn.

use crate::derive::{Answers, Standing, short_names};
use crate::state::{Page, Selected};
use crate::told::guessed;
use drawing::{
    Aspect, Broken, Caption, DragNote, Other, Scene, Shown, Sketch, Theme, View, Zoom, captioned, front_view,
    front_view_broken, write_svg,
};
use leptos::prelude::untrack;
use linkage::Pose;
use truck::{Change, ChangeKind, ProposalId};

/// Said where a picture's code has not come.
const NOT_THERE: &str =
    "From here it is drawn once the rest of the page has come. If it does not come, press again.";

/// The picture for a file: light, as wide as a thread shows it, with what it says under it.
pub(crate) fn picture_file(page: Page, answers: &Answers, caption: &Caption) -> String {
    let view = View {
        width_px: 600.0,
        height_px: 430.0,
        type_px: 13.0,
        units: page.units(),
        prefix: "file".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let scene = untrack(|| draw(page.session.aspect.get(), page, answers, &view));
    write_svg(&captioned(scene, caption, view.type_px), Theme::Light)
}

/// What stands on the sketch, seen from one side.
pub(crate) fn draw(aspect: Aspect, page: Page, answers: &Answers, view: &View) -> Scene {
    let now = answers.standing.get();
    let before = answers.before.get();
    let gaps = answers.gaps.get();
    let left = answers.travel_left.get();
    let selected = page.selected();
    let beneath = (selected != Selected::AsMeasured).then_some(before.as_ref().as_ref().ok()).flatten();
    let travel_mm = page.session.travel_mm.get();
    let before_pose = beneath.and_then(|_| answers.pose_before.get());
    let beneath = beneath.zip(before_pose.as_ref()).map(|(rest, pose)| Shown {
        rest,
        pose,
        gaps: &[],
        travel_left: None,
        travel_mm,
    });
    let drawn_aside = |drawn: Result<&Sketch<'_>, &Broken<'_>>| match answers.drawn_aside.get() {
        Some(draw) => draw(aspect, page.ends(), drawn, view),
        None => Scene::message(NOT_THERE, view),
    };
    match (now.as_ref(), answers.pose.get()) {
        (Ok(rest), Some(pose)) => {
            let shown = Shown { rest, pose: &pose, gaps: &gaps, travel_left: left.as_ref(), travel_mm };
            let beside = if aspect == Aspect::Front { beside(page, answers) } else { Vec::new() };
            let others: Vec<Other<'_>> = beside
                .iter()
                .filter_map(|Beside { place, name, standing, pose }| {
                    let rest = standing.as_ref().as_ref().ok()?;
                    let shown = Shown { rest, pose, gaps: &[], travel_left: None, travel_mm };
                    Some(Other { name, place: *place, shown })
                })
                .collect();
            let only = page.session.written_alone();
            let guessed = answers.known.with(|known| guessed(known, rest, pose));
            let sketch = Sketch {
                now: shown,
                before: beneath,
                others: &others,
                selected: page.session.handle.get(),
                dragging: page
                    .session
                    .dragging
                    .get()
                    .filter(|(on, _)| *on == aspect)
                    .map(|(_, text)| DragNote { text }),
                drop_mm: drop_of(page),
                guessed: &guessed,
                only: only.as_deref(),
            };
            if aspect == Aspect::Front { front_view(&sketch, view) } else { drawn_aside(Ok(&sketch)) }
        }
        (standing, _) => {
            let message = match standing {
                Err(why) => why.to_string(),
                Ok(_) => "the wheel cannot be brought to this travel".to_owned(),
            };
            let fitted = answers.fitted.get();
            let corner = fitted.as_ref().and_then(|fitted| fitted.corner().ok());
            match (fitted, corner) {
                (Some(fitted), Some(corner)) => {
                    let broken = Broken { corner: &corner, fitted: &fitted, before: beneath, message };
                    if aspect == Aspect::Front {
                        front_view_broken(&broken, view)
                    } else {
                        drawn_aside(Err(&broken))
                    }
                }
                _ => Scene::message(&message, view),
            }
        }
    }
}

/// Another proposal than the one on the sketch, in a pose.
struct Beside {
    place: usize,
    name: String,
    standing: Standing,
    pose: Pose,
}

/// The other proposals that stand, at the travel of the sketch.
fn beside(page: Page, answers: &Answers) -> Vec<Beside> {
    let selected = page.selected().proposal();
    let names = short_names(page);
    let travel_mm = page.session.travel_mm.get();
    let other = |(place, (id, name)): (usize, (ProposalId, String))| {
        let standing = answers.proposed.get(place).filter(|_| Some(id) != selected)?.get()?;
        let pose = standing.as_ref().as_ref().ok()?.at_travel(travel_mm).ok()?;
        Some(Beside { place, name, standing, pose })
    };
    // As measured it is looked at alone.
    names.into_iter().enumerate().filter(|_| selected.is_some()).filter_map(other).collect()
}

/// Drop of the selected proposal's spindle, mm.
fn drop_of(page: Page) -> f64 {
    let Some(id) = page.selected().proposal() else { return 0.0 };
    page.store.shown().with(|design| {
        match design.proposal(id).and_then(|proposal| proposal.change(ChangeKind::DroppedSpindle, None)) {
            Some(Change::DroppedSpindle(spindle)) => spindle.drop_mm,
            _ => 0.0,
        }
    })
}
