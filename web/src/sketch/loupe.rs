//! The loupe: what a finger covers, beside it.

/// How much the loupe magnifies.
const LOUPE: f64 = 2.0;

/// A piece of the sketch, larger, away from the finger that covers it.
pub(crate) fn markup(name: &str, (x, y): (f64, f64), (width, _): (f64, f64)) -> String {
    // In the upper corner on the other side: off the thumb, and off the value that is dragged.
    let (centre_x, centre_y) = (if x < width / 2.0 { width - 62.0 } else { 62.0 }, 62.0);
    let fixed = |v: f64| measure::fixed(v, 1);
    let circle = |class: &str| {
        [
            "<circle class=\"",
            class,
            "\" cx=\"",
            &fixed(centre_x),
            "\" cy=\"",
            &fixed(centre_y),
            "\" r=\"54\"/>",
        ]
        .concat()
    };
    let place = fixed(centre_x - LOUPE * x) + " " + &fixed(centre_y - LOUPE * y);
    [
        "<clipPath id=\"loupe-",
        name,
        "\">",
        &circle("edge"),
        "</clipPath>",
        &circle("glass"),
        "<g clip-path=\"url(#loupe-",
        name,
        ")\"><use href=\"#sketch-",
        name,
        "\" transform=\"translate(",
        &place,
        ") scale(",
        &fixed(LOUPE),
        ")\"/></g>",
        &circle("rim"),
    ]
    .concat()
}
