//! Set-ups that no other beats in both paint and time.

use crate::in_order::InOrder;
/// Places in the list of those that no other is at least as good as in both and better in one, by rising paint; of equal ones the first.
#[must_use]
pub fn front(pairs: &[(f64, f64)]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..pairs.len()).collect();
    order.in_order(|&a, &b| pairs[a].0.total_cmp(&pairs[b].0).then(pairs[a].1.total_cmp(&pairs[b].1)));
    let mut quickest = f64::INFINITY;
    order.retain(|&i| {
        let better = pairs[i].1 < quickest;
        if better {
            quickest = pairs[i].1;
        }
        better
    });
    order
}

#[cfg(test)]
mod tests {
    use super::front;

    #[test]
    fn beaten_in_both_is_off_it() {
        let pairs = [(3.0, 1.0), (1.0, 3.0), (2.0, 2.0), (2.5, 2.5), (1.0, 3.0), (3.0, 0.9)];
        assert_eq!(front(&pairs), [1, 2, 5]);
        assert!(front(&[]).is_empty());
    }
}
