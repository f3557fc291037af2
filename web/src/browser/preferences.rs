//! The reader's preferences, kept in the browser.

use crate::browser::storage;
use crate::dom;
use crate::signals::Value;
use crate::state::Preferences;
use drawing::Units;

const UNITS: &str = "units";
const SNAP: &str = "snap";

/// The kept preferences; inches and snapping where none are kept.
pub(crate) fn load() -> Preferences {
    let units = storage::kept(UNITS);
    let chosen = if units.as_deref() == Some("mm") { Units::Millimetres } else { Units::Inches };
    Preferences {
        units: Value::new(chosen),
        units_chosen: Value::new(units.is_some()),
        snap: Value::new(storage::kept(SNAP).as_deref() != Some("off")),
    }
}

/// Keeps the preferences as they change.
pub(crate) fn follow(preferences: Preferences) {
    dom::follow(move || {
        if preferences.units_chosen.get() {
            let inches = preferences.units.get() == Units::Inches;
            let _ = storage::keep(UNITS, if inches { "in" } else { "mm" });
        }
    });
    dom::follow(move || {
        let _ = storage::keep(SNAP, if preferences.snap.get() { "on" } else { "off" });
    });
}
