//! Short lists in order.

/// Sorts by a number, the least first; equals keep their order.
///
/// For tens of items, not thousands: the standard library's sort is more than a kilobyte of
/// download for each kind of item.
pub fn least_first<T>(list: &mut [T], number: impl Fn(&T) -> f64) {
    for sorted in 1..list.len() {
        let mut at = sorted;
        while at > 0 && number(&list[at]).total_cmp(&number(&list[at - 1])).is_lt() {
            list.swap(at, at - 1);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn is_the_standard_sort() {
        let mut state = 7_u32;
        let mut draw = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            state >> 24
        };
        for length in 0..40 {
            let mut list: Vec<(f64, u32)> = (0..length).map(|at| (f64::from(draw() % 8) - 4.0, at)).collect();
            let mut want = list.clone();
            want.sort_by(|a, b| a.0.total_cmp(&b.0));
            least_first(&mut list, |item| item.0);
            assert_eq!(list, want);
        }
    }
}
