//! Syllables of an English word: groups of vowels, without silent ones, and a short list of words that break the rule.

/// Words that the rule below counts wrongly and that our texts use, or that are common.
static EXCEPTIONS: &[(&str, usize)] = &[
    ("being", 2),
    ("clinic", 2),
    ("area", 3),
    ("idea", 3),
    ("someone", 2),
    ("something", 2),
    ("sometimes", 2),
    ("everyone", 3),
    ("anyone", 3),
    ("people", 2),
    ("eye", 1),
    ("eyes", 1),
    ("science", 2),
    ("quiet", 2),
    ("diet", 2),
    ("doing", 2),
    ("going", 2),
    ("seeing", 2),
    ("worktop", 2),
    ("hour", 2),
    ("easier", 3),
    ("tired", 2),
    ("minute", 2),
    ("studies", 2),
    ("trouble", 2),
    ("visual", 3),
    ("exercise", 3),
    ("exercises", 4),
];

/// Syllables of one word; digits are read out one number at a time up to ten.
pub(super) fn syllables(word: &str) -> usize {
    let lower: String = word.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect();
    if lower.chars().any(|c| c.is_ascii_digit()) {
        return number(&lower);
    }
    if let Some((_, count)) = EXCEPTIONS.iter().find(|(known, _)| *known == lower) {
        return *count;
    }
    by_rule(&lower)
}

fn number(digits: &str) -> usize {
    match digits {
        "10" | "12" => 1,
        "0" | "7" => 2,
        one if one.len() == 1 => 1,
        more => more.len(),
    }
}

fn by_rule(word: &str) -> usize {
    let letters: Vec<char> = word.chars().collect();
    let vowel = |at: usize| letters.get(at).is_some_and(|c| "aeiouy".contains(*c));
    let mut count = (0..letters.len()).filter(|&at| vowel(at) && (at == 0 || !vowel(at - 1))).count();
    count +=
        (1..letters.len()).filter(|&at| splits(letters[at - 1], letters[at], letters.get(at.wrapping_sub(2)))).count();
    if silent_end(&letters) {
        count -= 1;
    }
    count.max(1)
}

/// Two vowels that are spoken apart: "i-a" in "dial", "e-o" in "video"; but not "tion", "cial".
fn splits(first: char, second: char, before: Option<&char>) -> bool {
    let soft = before.is_some_and(|c| "tscgx".contains(*c));
    match (first, second) {
        ('i', 'a' | 'o' | 'u') => !soft,
        ('u', 'a' | 'o') => before.is_none_or(|c| !"qg".contains(*c)),
        ('e', 'o') => before != Some(&'p'),
        ('y', 'i') => true,
        _ => false,
    }
}

/// Whether the last group of vowels is not spoken: "make", "makes", "moved"; but "table", "noses", "needed", "the".
fn silent_end(letters: &[char]) -> bool {
    let text: String = letters.iter().collect();
    let vowel = |c: char| "aeiouy".contains(c);
    let (stem, ending) = if let Some(stem) = text.strip_suffix("es") {
        (stem, "es")
    } else if let Some(stem) = text.strip_suffix("ed") {
        (stem, "ed")
    } else if let Some(stem) = text.strip_suffix('e') {
        (stem, "e")
    } else {
        return false;
    };
    let before = stem.chars().rev().collect::<Vec<_>>();
    let Some(&last) = before.first() else { return false };
    // A vowel in front makes one group with the ending: "see", "shoes".
    if vowel(last) || !stem.chars().any(vowel) {
        return false;
    }
    let syllabic_l = last == 'l' && before.get(1).is_some_and(|c| !vowel(*c));
    match ending {
        "es" => !(syllabic_l || "sxzcg".contains(last) || stem.ends_with("ch") || stem.ends_with("sh")),
        "ed" => !(syllabic_l || last == 't' || last == 'd'),
        _ => !syllabic_l,
    }
}
