//! The page's entry: takes the boot picture down and puts the page up.

fn main() {
    console_error_panic_hook::set_once();
    page::mount();
}
