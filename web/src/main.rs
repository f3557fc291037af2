//! The page's entry: takes the boot picture down and puts the page up.

fn main() {
    // A release build is made without the words of a panic.
    #[cfg(debug_assertions)]
    console_error_panic_hook::set_once();
    page::mount();
}
