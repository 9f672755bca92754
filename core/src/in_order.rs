//! Lists put in order by one copy of the sort.
//!
//! The sort of the standard library is compiled anew for each kind of list, about 8 KB of the page each time. Here the places of a list are
//! sorted, then its things moved there: one copy for all, for lists that are short.

use core::cmp::Ordering;

/// What can be put in order.
pub trait InOrder<T> {
    /// Puts the things in order; those that compare equal stay as they stood.
    fn in_order(&mut self, compare: impl Fn(&T, &T) -> Ordering);
}

impl<T> InOrder<T> for [T] {
    fn in_order(&mut self, compare: impl Fn(&T, &T) -> Ordering) {
        let order = places(self.len(), &|a, b| compare(&self[a], &self[b]));
        for to in 0..order.len() {
            // What stood there may have been moved on already.
            let mut from = order[to];
            while from < to {
                from = order[from];
            }
            self.swap(to, from);
        }
    }
}

/// Old place of what comes first, second and so on.
#[inline(never)]
fn places(n: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..n).collect();
    places.sort_by(|&a, &b| compare(a, b));
    places
}

#[cfg(test)]
mod tests {
    use super::InOrder;
    use crate::stream::{Purpose, Stream};

    #[test]
    fn the_order_is_that_of_a_stable_sort() {
        let mut draw = Stream::new(5, 0, Purpose::Emission);
        for n in 0..60 {
            let list: Vec<(u64, usize)> = (0..n).map(|i| ((draw.open01() * 9.0) as u64, i)).collect();
            let (mut ours, mut theirs) = (list.clone(), list);
            ours.in_order(|a, b| a.0.cmp(&b.0));
            theirs.sort_by_key(|a| a.0);
            assert_eq!(ours, theirs);
        }
    }
}
