//! Lists put in order, and sets and maps filled, by one sort for all of them.
//!
//! The standard sort is made anew for every kind of list and every rule of order, four kilobytes each time in the
//! browser's module; a set or map that is collected brings another. Lists here are short. Where speed counts, as in
//! statistics, the standard sort stands.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

/// Sorts by a rule; what is equal keeps its order.
pub fn by<T>(list: &mut Vec<T>, compare: impl Fn(&T, &T) -> Ordering) {
    let order = order(list.len(), &|a, b| compare(&list[a], &list[b]));
    let mut items: Vec<Option<T>> = list.drain(..).map(Some).collect();
    list.extend(order.into_iter().filter_map(|at| items[at].take()));
}

/// Sorts by what a key says of each; what is equal keeps its order.
pub fn by_key<T, K: Ord>(list: &mut Vec<T>, key: impl Fn(&T) -> K) {
    by(list, |a, b| key(a).cmp(&key(b)));
}

/// A set of these.
pub fn set<T: Ord>(items: impl IntoIterator<Item = T>) -> BTreeSet<T> {
    let mut set = BTreeSet::new();
    for item in items {
        set.insert(item);
    }
    set
}

/// A map of these; of equal keys the last counts.
pub fn map<K: Ord, V>(items: impl IntoIterator<Item = (K, V)>) -> BTreeMap<K, V> {
    let mut map = BTreeMap::new();
    for (key, value) in items {
        map.insert(key, value);
    }
    map
}

/// Where each of so many places of a list goes.
fn order(len: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..len).collect();
    order.sort_by(|a, b| compare(*a, *b));
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_ones_keep_their_order_and_none_is_lost() {
        let mut list = vec![(2, "a"), (1, "b"), (2, "c"), (1, "d"), (0, "e")];
        by_key(&mut list, |(number, _)| *number);
        assert_eq!(list, [(0, "e"), (1, "b"), (1, "d"), (2, "a"), (2, "c")]);
        by(&mut list, |a, b| b.1.cmp(a.1));
        assert_eq!(list, [(0, "e"), (1, "d"), (2, "c"), (1, "b"), (2, "a")]);
    }

    #[test]
    fn of_equal_keys_the_last_counts_as_in_a_collected_map() {
        let pairs = [(2, "a"), (1, "b"), (2, "c")];
        assert_eq!(map(pairs), pairs.into_iter().collect());
        assert_eq!(set([3, 1, 3]), [1, 3].into());
    }
}
