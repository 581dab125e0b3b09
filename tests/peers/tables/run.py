"""Reads the tables of every golden visit, and of some odd ones, with programs that are not ours.

Two validators check each set against the schemas that stand beside it: one by the data package, one by the metadata for
tables on the web. Python's own csv module reads every cell again, and it must be what the writer was given. Then one fault
at a time is planted, and at least one validator must catch it.
"""

import csv
import datetime
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import warnings

import csvw
import frictionless

ROOT = pathlib.Path(os.environ.get("SIDELIGHT_ROOT", pathlib.Path(__file__).resolve().parents[3]))
VARIANTS = ["named", "named-bom", "coded", "coded-bom"]
PACKAGE, METADATA = "datapackage.json", "csv-metadata.json"


def main():
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder)
        make = ["cargo", "run", "--quiet", "--bin", "tables", "--", str(out / "sets")]
        subprocess.run(make, cwd=ROOT, check=True)
        sets = sorted(path for path in (out / "sets").iterdir())
        failed = every_table(sets) + planted(out)
    return 1 if failed else 0


def every_table(sets):
    failed, tables, cells = 0, 0, 0
    # Odd people have many rows; two variants of them tell as much as four.
    chosen = {folder: VARIANTS[::3] if folder.name.startswith("odd-") else VARIANTS for folder in sets}
    for folder in [folder / variant for folder, variants in chosen.items() for variant in variants]:
        name = f"{folder.parent.name}/{folder.name}"
        found = {"frictionless": by_package(folder), "csvw": by_metadata(folder)}
        number, read, wrong = read_again(folder)
        found["csv"] = wrong
        for peer, faults in found.items():
            if faults:
                failed += 1
                print(f"{name}: {peer}: {faults[:5]}")
        tables, cells = tables + number, cells + read
    print(f"{tables} tables of {len(sets)} sets, with and without names and mark: {failed} refused by a reader;")
    print(f"{cells} cells read again by Python's csv as they were given")
    if tables < 350 or cells < 100_000:
        print("too few tables were made")
        failed += 1
    return failed


def by_package(folder):
    """What frictionless says against the data package."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            report = frictionless.Package(str(folder / PACKAGE)).validate()
        except frictionless.FrictionlessException as error:
            return [str(error)]
    return [error.note for task in report.tasks for error in task.errors] + [error.note for error in report.errors]


def by_metadata(folder):
    """What csvw says against the metadata; cells that do not fit their datatype come as warnings."""
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always")
        try:
            group = csvw.TableGroup.from_file(folder / METADATA)
            whole = csvw.CSVW(str(folder / METADATA), validate=True)
            faults = [] if whole.is_valid else ["not valid"]
            faults += [] if group.check_referential_integrity() else ["a reference leads nowhere"]
            for table in group.tables:
                for _ in table.iterdicts(strict=True):
                    pass
                faults += [] if table.check_primary_key() else [f"a key stands twice in {table.url}"]
        except Exception as error:  # whatever a reader raises is its way to refuse
            faults = [f"{type(error).__name__}: {error}"]
    return faults + [str(each.message) for each in warned if not issubclass(each.category, ResourceWarning | DeprecationWarning)]


def read_again(folder):
    """Every cell by Python's csv module against what the writer was given."""
    given = json.loads((folder / "given.json").read_text(encoding="utf-8"))
    schemas = {each["path"]: each["schema"] for each in json.loads((folder / PACKAGE).read_text(encoding="utf-8"))["resources"]}
    cells, wrong = 0, []
    for name, expected in given.items():
        encoding = "utf-8-sig" if folder.name.endswith("-bom") else "utf-8"
        with open(folder / name, encoding=encoding, newline="") as file:
            rows = list(csv.reader(file, strict=True))
        fields = schemas[name]["fields"]
        if rows[0] != expected[0] or rows[0] != [field["name"] for field in fields] or len(rows) != len(expected):
            wrong.append(f"{name}: other columns or rows")
            continue
        for at, (row, values) in enumerate(zip(rows[1:], expected[1:], strict=True), 2):
            for field, text, value in zip(fields, row, values, strict=True):
                cells += 1
                if not same(field, text, value):
                    wrong.append(f"{name} row {at} {field['name']}: {text!r} is not {value!r}")
    return len(given), cells, wrong


def same(field, text, value):
    if text == "":
        return value in (None, "")
    if isinstance(value, list):
        return ([] if text == "none_of_these" else text.split(";")) == value
    match field["type"]:
        case "integer":
            return int(text) == value and type(value) is int
        case "number":
            return float(text) == value
        case "boolean":
            return {"true": True, "false": False}[text] is value
        case "date":
            return datetime.date.fromisoformat(text).isoformat() == value
        case "datetime":
            moment = datetime.datetime.fromisoformat(text)
            return moment.tzinfo is not None and moment.isoformat() == value
    text = text if "constraints" in field and {"enum", "pattern"} & set(field["constraints"]) else unguarded(text)
    return text == value.replace("\0", "\N{REPLACEMENT CHARACTER}")


def unguarded(text):
    """Written anew from the description in the schema, not from our code: one pass that looks at what it has put out."""
    out, at_start, at = [], True, 0
    while at < len(text):
        if at_start and text[at] == "'" and at + 1 < len(text) and text[at + 1] in "=+-@\t\r\n'＝＋－＠":
            at += 1
        out.append(text[at])
        at_start = text[at] in ",;|\"\t\r\n" or (at_start and text[at] == " ")
        at += 1
    return "".join(out)


def cell(table, row, column, change):
    """A fault in one cell, by the name of its column; rows are counted from 0 behind the first line."""

    def plant(folder):
        rows = load(folder / table)
        at = rows[0].index(column)
        chosen = row if isinstance(row, int) else next(i for i, r in enumerate(rows[1:]) if r[rows[0].index(row[0])] == row[1])
        rows[chosen + 1][at] = change(rows[chosen + 1][at]) if callable(change) else change
        save(folder / table, rows)

    return plant


def lines(table, change):
    def plant(folder):
        rows = load(folder / table)
        save(folder / table, change(rows))

    return plant


def raw(table, old, new):
    def plant(folder):
        text = (folder / table).read_bytes()
        assert old in text, f"{old!r} is not in {table}"
        (folder / table).write_bytes(text.replace(old, new, 1))

    return plant


def load(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def save(path, rows):
    with open(path, "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)


def drop(rows, name):
    at = rows[0].index(name)
    return [row[:at] + row[at + 1 :] for row in rows]


def swap(rows, one, other):
    a, b = rows[0].index(one), rows[0].index(other)
    head = list(rows[0])
    head[a], head[b] = head[b], head[a]
    return [head, *rows[1:]]


NUMBER, TAP, TRIAL, RUN = ("kind", "number"), ("kind", "tap"), ("kind", "trial"), ("kind", "run")
FAULTS = {
    "decimal comma": cell("measures.csv", NUMBER, "value", lambda v: v.replace(".", ",") if "." in v else v + ",5"),
    "thousands separator": cell("measures.csv", NUMBER, "value", "1 000.5"),
    "a word for a number": cell("measures.csv", NUMBER, "value", "n/a"),
    "11 on a scale from 0 to 10": cell("symptoms.csv", 0, "headache", "11"),
    "-1 on a scale from 0 to 10": cell("symptoms.csv", 0, "nausea", "-1"),
    "half a rating": cell("symptoms.csv", 0, "dizziness", "2.5"),
    "unknown direction": cell("measures.csv", ("direction", "right"), "direction", "rechts"),
    "unknown unit": cell("measures.csv", NUMBER, "unit", "centimetres"),
    "unknown task": cell("trials.csv", TAP, "task", "Saccade"),
    "unknown mark": cell("trials.csv", TAP, "mark", "vanished"),
    "unknown grade": cell("visits.csv", 0, "worst_grade", "fine"),
    "unknown influence in a list": cell("visits.csv", 0, "influences", "tired;moonlight"),
    "list with commas": cell("visits.csv", 0, "told", "person,guardian"),
    "day, month, year": cell("visits.csv", 0, "started", "26/10/2026 15:00"),
    "moment without an offset": cell("visits.csv", 0, "started", "2026-10-26T15:00:00"),
    "a day that is not in the calendar": cell("people.csv", 0, "born_on", "2026-02-30"),
    "yes for true": cell("visits.csv", 0, "stopped", "yes"),
    "age of 400": cell("visits.csv", 0, "age", "400"),
    "near point of 0 cm": cell("trials.csv", TRIAL, "near_point_break", "0"),
    "near point of 61 cm": cell("trials.csv", TRIAL, "near_point_break", "61"),
    "time before the task": cell("trials.csv", TAP, "at", "-5"),
    "p above 1": cell("visits.csv", 0, "worse_side_p", "1.2"),
    "required cell empty": cell("measures.csv", 3, "what", ""),
    "key empty": cell("visits.csv", 0, "visit", ""),
    "visit twice": lines("visits.csv", lambda rows: [*rows, rows[1]]),
    "tap twice": lines("trials.csv", lambda rows: [*rows, rows[-1]]),
    "person twice": lines("people.csv", lambda rows: [*rows, rows[1]]),
    "tap of no visit": cell("trials.csv", TAP, "visit", "nowhere"),
    "measure of no visit": cell("measures.csv", 0, "visit", "nowhere"),
    "visit of nobody": cell("visits.csv", 0, "person", "nobody"),
    "visits without their first": lines("visits.csv", lambda rows: [rows[0], *rows[2:]]),
    "column missing": lines("measures.csv", lambda rows: drop(rows, "grade")),
    "columns in another order": lines("measures.csv", lambda rows: swap(rows, "value", "unit")),
    "column of another name": lines("symptoms.csv", lambda rows: [[c.replace("nausea", "sick") for c in rows[0]], *rows[1:]]),
    "short row": lines("symptoms.csv", lambda rows: [*rows[:2], rows[2][:4], *rows[3:]]),
    "long row": lines("symptoms.csv", lambda rows: [*rows[:2], [*rows[2], "extra"], *rows[3:]]),
    "line feed outside quotes": raw("measures.csv", b'near point, break"', b'near point"\nbreak'),
    "no first line": lines("trials.csv", lambda rows: rows[1:]),
    "semicolons for commas": lambda folder: (folder / "symptoms.csv").write_bytes(
        (folder / "symptoms.csv").read_bytes().replace(b",", b";")
    ),
    "table gone": lambda folder: (folder / "visits.csv").unlink(),
    "file cut off in a row": lambda folder: (folder / "symptoms.csv").write_bytes(
        (folder / "symptoms.csv").read_bytes().rsplit(b",", 3)[0]
    ),
    "not UTF-8": raw("people.csv", b"person,label", b"person,lab\xe9l"),
}


def planted(out):
    whole = out / "sets" / "knock-after-baseline" / "named"
    caught = {"frictionless": 0, "csvw": 0}
    missed = []
    for name, plant in FAULTS.items():
        folder = out / "planted"
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(whole, folder)
        plant(folder)
        by = [peer for peer, check in [("frictionless", by_package), ("csvw", by_metadata)] if check(folder)]
        for peer in by:
            caught[peer] += 1
        if not by:
            missed.append(name)
    print(f"planted faults caught: {len(FAULTS) - len(missed)} of {len(FAULTS)}")
    print("by each: " + ", ".join(f"{peer} {number} of {len(FAULTS)}" for peer, number in caught.items()))
    for name in missed:
        print(f"not caught: {name}")
    return len(missed)


if __name__ == "__main__":
    csv.field_size_limit(1 << 24)
    sys.exit(main())
