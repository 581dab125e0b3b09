//! Every passage a family reads, and every word of it, with our counts, as JSON for a comparison with an outside library.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use sidelight_core::catalogue::{self, Language};
use sidelight_core::reading_level::{self, Counts};

fn main() {
    let mut passages = Vec::new();
    let mut words: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for language in Language::ALL {
        for (name, texts) in catalogue::passages(language) {
            let text = plain(&reading_level::joined(texts));
            for word in reading_level::words(&text) {
                let word = word.to_lowercase();
                let count = counted(language, &word).syllables;
                words.insert((language.tag(), word), count);
            }
            passages.push(passage(language, name, &text));
        }
    }
    let words: Vec<Value> = words
        .into_iter()
        .map(|((language, word), syllables)| json!({ "language": language, "word": word, "syllables": syllables }))
        .collect();
    println!("{}", json!({ "passages": passages, "words": words }));
}

fn passage(language: Language, name: &str, text: &str) -> Value {
    let counts = counted(language, text);
    json!({
        "language": language.tag(),
        "name": name,
        "text": text,
        "words": counts.words,
        "sentences": counts.sentences,
        "syllables": counts.syllables,
        "grade": counts.grade(),
        "szigriszt": counts.szigriszt(),
        "huerta": counts.huerta(),
    })
}

fn counted(language: Language, text: &str) -> Counts {
    match language {
        Language::English => Counts::english(text),
        Language::Spanish => Counts::spanish(text),
    }
}

/// What is filled in is read as ten.
fn plain(text: &str) -> String {
    let mut text = text.to_string();
    for name in catalogue::placeholders(&text.clone()) {
        text = text.replace(&format!("{{{name}}}"), "10");
    }
    text
}
