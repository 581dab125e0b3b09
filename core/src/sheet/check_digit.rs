//! One check digit: it finds every wrong digit, every exchange of neighbours, and every number said in another's place.
//!
//! Damm's scheme (H. M. Damm, Totally anti-symmetric quasigroups, 2004, from memory): a table in which no two entries of a
//! row or column are alike, and no exchange of neighbours comes to the same, whatever stands before them. The tests prove
//! both of the table itself, so nothing rests on where it comes from.

/// The table. Its diagonal is zero, so the check digit brings a right number to zero.
static TABLE: [[u8; 10]; 10] = [
    [0, 3, 1, 7, 5, 9, 8, 6, 4, 2],
    [7, 0, 9, 2, 1, 5, 4, 8, 6, 3],
    [4, 2, 0, 6, 8, 7, 1, 3, 5, 9],
    [1, 7, 5, 0, 9, 8, 3, 4, 2, 6],
    [6, 1, 2, 3, 0, 4, 5, 9, 7, 8],
    [3, 6, 7, 4, 2, 0, 9, 5, 8, 1],
    [5, 8, 6, 9, 7, 2, 0, 1, 3, 4],
    [8, 9, 4, 5, 3, 6, 2, 0, 1, 7],
    [9, 4, 3, 8, 6, 1, 7, 2, 0, 5],
    [2, 5, 8, 1, 4, 3, 6, 7, 9, 0],
];

/// The check digit of digits that stand at a place: the walk through the table begins at the place.
pub(super) fn of(place: u8, digits: &[u8]) -> u8 {
    digits.iter().fold(place % 10, |row, digit| TABLE[usize::from(row)][usize::from(digit % 10)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_row_and_column_holds_each_digit_once() {
        for (a, row) in TABLE.iter().enumerate() {
            let row: BTreeSet<u8> = row.iter().copied().collect();
            let column: BTreeSet<u8> = (0..10).map(|b| TABLE[b][a]).collect();
            assert_eq!((row.len(), column.len()), (10, 10));
            assert_eq!(TABLE[a][a], 0);
        }
    }

    /// Weak total anti-symmetry: (c x) y = (c y) x only when x = y, for every start c.
    #[test]
    fn no_exchange_of_neighbours_comes_to_the_same() {
        let step = |row: u8, digit: u8| TABLE[usize::from(row)][usize::from(digit)];
        for x in 0..10 {
            for y in (0..10).filter(|y| *y != x) {
                for c in 0..10 {
                    assert_ne!(step(step(c, x), y), step(step(c, y), x), "{c} {x} {y}");
                }
            }
        }
    }

    /// The example that is usually given: 572 has the check digit 4.
    #[test]
    fn the_usual_example_comes_out() {
        assert_eq!(of(0, &[5, 7, 2]), 4);
        assert_eq!(of(0, &[5, 7, 2, 4]), 0);
    }
}
