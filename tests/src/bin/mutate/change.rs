//! How an example is changed: as media, mail and people do, and as somebody would who means harm.

use sidelight_tests::dice::Dice;

/// Pieces that readers of numbers, texts and nests trip over.
const PIECES: [&[u8]; 24] = [
    b"0",
    b"-1",
    b"1e999",
    b"-0.0",
    b"18446744073709551616",
    b"null",
    b"{}",
    b"[]",
    b"[[[[[[[[",
    b"{\"a\":{\"a\":",
    b"\"",
    b"\\",
    b"\\u0000",
    b"\\ud800",
    b",",
    b"\n",
    b"\r\n",
    b" ",
    b"\0",
    b"\xff",
    b"\xef\xbb\xbf",
    b"\xe2\x80\xae",
    b"-> ",
    b"--- ",
];

/// The example with one to four changes, or now and then something that was never one.
pub fn changed(examples: &[Vec<u8>], which: usize, dice: &mut Dice) -> Vec<u8> {
    if dice.chance(1) {
        let length = dice.below(300);
        return (0..length).map(|_| byte(dice)).collect();
    }
    let mut input = examples[which].clone();
    for _ in 0..=dice.below(4) {
        change(&mut input, examples, dice);
    }
    input
}

fn change(input: &mut Vec<u8>, examples: &[Vec<u8>], dice: &mut Dice) {
    let at = dice.below(input.len() as u64 + 1) as usize;
    let longest = if dice.chance(80) { 8 } else { 5_000 };
    let range = at..(at + 1 + dice.below(longest) as usize).min(input.len());
    match dice.below(12) {
        0..=2 if at < input.len() => input[at] ^= 1 << dice.below(8),
        3 if at < input.len() => input[at] = byte(dice),
        4 if at < input.len() && input[at].is_ascii_digit() => input[at] = b'0' + dice.below(10) as u8,
        4 => input.insert(at, byte(dice)),
        5 => drop(input.drain(range)),
        6 => input.truncate(at),
        7 => {
            let twice = input[range].to_vec();
            let times = 1 + dice.below(3) as usize;
            input.splice(at..at, twice.repeat(times));
        }
        8 => {
            let other = &examples[dice.below(examples.len() as u64) as usize];
            let from = dice.below(other.len() as u64 + 1) as usize;
            // Never so much that it becomes the other one.
            let to = (from + dice.below(400).min(other.len() as u64 / 2) as usize).min(other.len());
            input.splice(range, other[from..to].iter().copied());
        }
        9 => input[range].reverse(),
        10 => input[range].make_ascii_uppercase(),
        _ => drop(input.splice(at..at, dice.pick(&PIECES).iter().copied())),
    }
}

fn byte(dice: &mut Dice) -> u8 {
    dice.below(256) as u8
}
