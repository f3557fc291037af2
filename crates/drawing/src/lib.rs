//! Drawing: a study's answers as a scene of shapes, and a scene as SVG.
//!
//! Pure functions from numbers to [`Scene`]s. One writer serves the page, which
//! keeps a scene's [`elements`], and a file, a print and the command line, which
//! [`write_svg`]; one table of colours, [`css`], dresses all of them, light and dark.
//!
//! | picture | function |
//! |---|---|
//! | the left front corner from the front | [`front_view`] |
//! | the same where the parts do not reach each other | [`front_view_broken`] |
//! | the corner from the front, the side or above | [`view_of`], [`view_of_broken`] |
//! | curves over the travel | [`chart()`] |
//! | the room of a pair over travel and steer | [`clearance_map()`] |
//!
//! The front view stands on the ground: picture coordinates are `y` of the body
//! axes and the height above the ground of the pose shown, mm. Ground and wheel
//! stand still, the body moves. A viewer stands in front of the truck, so the
//! left wheel is at the right of the picture. A right corner ([`truck::OneSide`]) is
//! seen from the same places, as the mirror image that it is.
//!
//! ```
//! use drawing::{Scene, Theme, Units, View, Zoom, write_svg};
//!
//! let view = View {
//!     width_px: 360.0,
//!     height_px: 300.0,
//!     type_px: 12.0,
//!     units: Units::Inches,
//!     prefix: "doc".to_owned(),
//!     zoom: Zoom::default(),
//!     covered_px: (0.0, 0.0),
//! };
//! let svg = write_svg(&Scene::message("nothing is measured yet", &view), Theme::Light);
//! assert!(svg.starts_with("<svg") && svg.contains("measured"));
//! ```

mod as_built;
mod aspect;
mod board;
mod bolt_up;
mod caption;
mod chart;
mod clearance_map;
mod dimension;
mod front;
mod front_points;
mod geometry;
mod hits;
mod how_sure;
mod labelling;
mod labels;
mod lean;
mod names;
mod palette;
mod parts;
mod path;
mod pattern;
mod projection;
mod rear;
mod scene;
mod shown;
mod spread;
mod stage;
mod svg;
mod taped;
mod text;
mod transform;
mod views;
mod wheel_size;
mod whole_truck;
mod words;
mod work;

pub use as_built::{
    EACH_CAUSE, NO_INSPECTION, NO_ONE_CAUSE, READ_AS_BUILT, asked_in_words, built_danger, built_dangers,
    built_in_words, built_next, cause_in_words, off_in_words, planned_in_words, settled_in_words,
    verdict_in_words,
};
pub use aspect::{Aspect, Handle};
pub use bolt_up::{
    caliper_size, callout_drawing, doubts_in_words, next_in_words, row_in_words, sketched_in_words,
    verdict_word,
};
pub use caption::{Caption, captioned};
pub use chart::{Band, Chart, NumberFormat, Series, SeriesStyle, chart};
pub use clearance_map::{ClearanceMap, Mark, clearance_map};
pub use front::{front_view, front_view_broken};
pub use hits::{WhatHits, Wheel, part_ends};
pub use how_sure::{
    MEND_FIRST, NOTHING_MOVES, ONE_OF_THESE, READ_AGAIN, READINGS_DISAGREE, THESE_WERE_OFF, contest_in_words,
    disagreement_in_words, doubtful_in_words, fitted_in_words, give_in_words, moved_in_words,
    next_reading_in_words, set_if_read_in_words, set_spreads_in_words,
};
pub use lean::{lean_in_words, lean_notes, leaning};
pub use measure::Units;
pub use names::{proposal_name, proposal_names, short_names, truck_name, whole_name};
pub use palette::{Ink, Theme, css, proposal_hues};
pub use path::{Path, Step};
pub use rear::rear_verdict;
pub use scene::{Form, Label, Run, Scene, Shape, Trace};
pub use shown::{Broken, DragNote, Other, SKETCHED, Shown, Sketch};
pub use spread::{
    CANNOT_TELL, bump_mm, in_how_many, is_lost, range_in_words, share_in_words, spread_in_words, without_unit,
};
pub use study::capital;
pub use svg::{Element, elements, write_svg};
pub use taped::{Taped, taped};
pub use transform::{Transform, View, Zoom};
pub use views::{view_of, view_of_broken};
pub use whole_truck::{Ends, whole_truck};
pub use words::{
    MANY_PIECES, bound_in_words, change_in_words, changes_in_words, danger_in_words, each_in_words,
    harder_in_words, held_in_words, lowest_in_words, marked, no_rear_way_in_words, on_side, overlay_in_words,
    preload_in_words, rear_in_words, sides_in_words, size_in_words, unseen_in_words,
};
pub use work::{
    NO_MANUAL, NO_TORQUE, before_work, dangers, early_in_words, part_replaced, task_early_in_words,
    torque_in_words, work_lists,
};
