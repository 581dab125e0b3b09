"""Validates the FHIR bundles of the golden visits with fhirkit (plain R4) and fhir.resources (R4B).

Every bundle must pass. What they say of the mutants, each with one fault, is written down for run.mjs, which adds two
further validators and our own checks and counts what was caught by whom.
"""

import json
import os
import pathlib
import subprocess
import sys

import fhirkit
from fhir.resources.R4B.bundle import Bundle

ROOT = pathlib.Path(os.environ["SIDELIGHT_ROOT"])
FOLDER = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target")) / "peers" / "fhir" / "bundles"


def main():
    cargo = [os.environ.get("CARGO", "cargo"), "run", "--quiet", "--bin", "fhir_bundles"]
    subprocess.run([*cargo, "--", "--out", str(FOLDER)], cwd=ROOT, check=True)
    refused = [f"{name} refuses {path.name}: {said}" for path in files("good") for name, said in faults(path)]
    for line in refused:
        print(line)
    caught = {path.stem: sorted(name for name, _ in faults(path)) for path in files("mutants")}
    (FOLDER / "python.json").write_text(json.dumps(caught), encoding="utf-8")
    print(f"{len(files('good'))} bundles, {len(refused)} refused by fhirkit 0.1.0 or fhir.resources 8.3.0 (R4B)")
    return 1 if refused else 0


def files(kind):
    return sorted((FOLDER / kind).glob("*.json"))


def faults(path):
    """Who finds a fault, and which."""
    text = path.read_text(encoding="utf-8")
    issues = [issue for issue in fhirkit.validate(json.loads(text)) if issue.severity == "error"]
    if issues:
        yield "fhirkit", f"{issues[0]!r}"
    try:
        Bundle.model_validate_json(text)
    # An unknown kind of resource is a KeyError there.
    except (ValueError, KeyError) as error:
        yield "fhir.resources", f"{error}"[:300]


if __name__ == "__main__":
    sys.exit(main())
