//! Syllables of a Spanish word, by its rules: two strong vowels, or a weak one with an accent, are spoken apart.

/// Syllables of one word; digits are read out one number at a time up to ten.
pub(super) fn syllables(word: &str) -> usize {
    let lower = word.to_lowercase();
    if lower.chars().any(|c| c.is_ascii_digit()) {
        return number(&lower);
    }
    let letters = vowels_and_breaks(&lower);
    let nucleus = |at: usize| letters[at] != Letter::Consonant;
    let mut count = 0;
    for at in 0..letters.len() {
        if nucleus(at) && (at == 0 || !nucleus(at - 1) || apart(letters[at - 1], letters[at])) {
            count += 1;
        }
    }
    count.max(1)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Letter {
    Consonant,
    Strong,
    Weak,
    WeakAccented,
}

/// Two neighbours belong to two syllables unless one of them is weak and unaccented.
fn apart(first: Letter, second: Letter) -> bool {
    first != Letter::Weak && second != Letter::Weak
}

fn number(digits: &str) -> usize {
    match digits {
        "2" | "3" | "6" | "10" => 1,
        one if one.len() == 1 => 2,
        more => more.len() + 1,
    }
}

/// Letters by kind. A silent u (que, qui, gue, gui) and an h between vowels are left out; a y at the end is a vowel.
fn vowels_and_breaks(word: &str) -> Vec<Letter> {
    let chars: Vec<char> = word.chars().collect();
    let at = |index: usize| chars.get(index).copied().unwrap_or(' ');
    let mut letters = Vec::with_capacity(chars.len());
    for (index, c) in chars.iter().enumerate() {
        let before = if index == 0 { ' ' } else { at(index - 1) };
        let letter = match c {
            'u' if "qg".contains(before) && "eiéí".contains(at(index + 1)) => continue,
            'h' if is_vowel(before) && is_vowel(at(index + 1)) => continue,
            'a' | 'e' | 'o' | 'á' | 'é' | 'ó' => Letter::Strong,
            'i' | 'u' | 'ü' => Letter::Weak,
            'í' | 'ú' => Letter::WeakAccented,
            'y' if index + 1 == chars.len() => Letter::Weak,
            _ => Letter::Consonant,
        };
        letters.push(letter);
    }
    letters
}

fn is_vowel(c: char) -> bool {
    "aeiouáéíóúü".contains(c)
}
