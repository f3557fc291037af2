//! A scene as SVG, and the colours it is dressed in.

use crate::scene::Scene;

/// Light or dark paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// Dark ink on light paper.
    Light,
    /// Light ink on dark paper.
    Dark,
}

/// What a picture is written for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dress {
    /// Inner markup of an `svg` element, dressed by [`css`].
    Page,
    /// A complete file with colours of its own.
    File(Theme),
}

/// How a shape or a text is inked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// The outline of a part.
    Part,
}

/// A scene as SVG.
#[must_use]
pub fn write_svg(scene: &Scene, dress: Dress) -> String {
    let _ = (scene, dress);
    String::new()
}

/// The style rules of every picture, each behind a selector's scope.
#[must_use]
pub fn css(theme: Theme, scope: &str) -> String {
    let _ = (theme, scope);
    String::new()
}
