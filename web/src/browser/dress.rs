//! The drawing's colours as a style sheet of the page.

use drawing::Theme;
use leptos::prelude::document;

/// Puts the drawing's colours on the page, light and dark.
pub(crate) fn put_on() {
    let of = |theme| {
        let [first, second, third] = drawing::proposal_hues(theme);
        [":root{--plan-0:", first, ";--plan-1:", second, ";--plan-2:", third, "}"].concat()
            + &drawing::css(theme, ".drawing")
    };
    let rules = of(Theme::Light) + "@media (prefers-color-scheme: dark){" + &of(Theme::Dark) + "}";
    if let (Ok(style), Some(head)) = (document().create_element("style"), document().head()) {
        style.set_text_content(Some(&rules));
        let _ = head.append_child(&style);
    }
}
