//! The drawing's colours as a style sheet of the page.

use drawing::Theme;
use leptos::prelude::document;

/// Puts the drawing's colours on the page, light and dark.
pub(crate) fn put_on() {
    let rules = drawing::css(Theme::Light, ".drawing")
        + "@media (prefers-color-scheme: dark){"
        + &drawing::css(Theme::Dark, ".drawing")
        + "}";
    if let (Ok(style), Some(head)) = (document().create_element("style"), document().head()) {
        style.set_text_content(Some(&rules));
        let _ = head.append_child(&style);
    }
}
