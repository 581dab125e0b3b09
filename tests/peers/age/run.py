"""Opens hand-over files with pyrage and has ours open its files; derives keys with argon2-cffi and opens sealed records
with libsodium.

The files are written and opened by `peer_files` in `tests/src/bin`, which runs the code of the core.
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile

import pyrage
from argon2.low_level import Type, hash_secret_raw
from nacl.bindings import crypto_aead_xchacha20poly1305_ietf_decrypt, crypto_aead_xchacha20poly1305_ietf_encrypt

ROOT = pathlib.Path(os.environ.get("SIDELIGHT_ROOT", pathlib.Path(__file__).resolve().parents[3]))
SIZES = [0, 1, 65535, 65536, 65537, 200_000, 1_000_000]


def main():
    faults = []
    with tempfile.TemporaryDirectory() as place:
        ours, theirs = pathlib.Path(place, "ours"), pathlib.Path(place, "theirs")
        ours.mkdir()
        theirs.mkdir()
        print(core("write", ours))
        given = json.loads((ours / "list.json").read_text(encoding="utf-8"))
        faults += ours_open_there(given, ours)
        faults += keys_are_the_same(given["derived"])
        faults += records_are_the_same(given["rows"])
        write_theirs(given, theirs)
        print(core("open", theirs))
    for fault in faults:
        print(fault)
    return 1 if faults else 0


def core(what, folder):
    """Runs our code; its own words are the error when it fails."""
    command = ["cargo", "run", "--quiet", "--bin", "peer_files", "--", what, str(folder)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, encoding="utf-8")
    if done.returncode:
        sys.exit(f"peer_files {what} failed: {done.stdout}{done.stderr}")
    return done.stdout.strip()


def ours_open_there(given, folder):
    identity = pyrage.x25519.Identity.from_str(given["identity"])
    faults, opened, refused = [], 0, 0
    if str(identity.to_public()) != given["recipient"]:
        faults.append("the public key is another one")
    if str(pyrage.x25519.Recipient.from_str(given["code"].lower())) != given["recipient"]:
        faults.append("the key in the code is another one")
    for entry in given["files"]:
        sealed = (folder / entry["file"]).read_bytes()
        plain = (folder / (entry["file"] + ".plain")).read_bytes()
        if decrypt(sealed, entry, identity) == plain:
            opened += 1
        else:
            faults.append(f"{entry} opens as something else")
        flipped = bytearray(sealed)
        flipped[-1] ^= 1
        try:
            decrypt(bytes(flipped), entry, identity)
            faults.append(f"{entry} opens with a flipped bit")
        except pyrage.DecryptError:
            refused += 1
    print(f"{opened} of {len(given['files'])} files open with pyrage, {refused} with a flipped bit are refused")
    return faults


def decrypt(sealed, entry, identity):
    if entry["with"] == "key":
        return pyrage.decrypt(sealed, [identity])
    return pyrage.passphrase.decrypt(sealed, entry["passphrase"])


def keys_are_the_same(cases):
    faults = []
    for case in cases:
        key = hash_secret_raw(
            case["passphrase"].encode("utf-8"),
            bytes.fromhex(case["salt"]),
            time_cost=case["passes"],
            memory_cost=case["memory_kib"],
            parallelism=case["lanes"],
            hash_len=32,
            type=Type.ID,
        )
        if key.hex() != case["key"]:
            faults.append(f"argon2-cffi derives {key.hex()} for {case}")
    print(f"{len(cases) - len(faults)} of {len(cases)} keys are the same with argon2-cffi")
    return faults


def records_are_the_same(cases):
    """A record is a version byte, eight bytes that name the key, the nonce, and what was sealed in its place."""
    faults = []
    for case in cases:
        row, key, plain = (bytes.fromhex(case[name]) for name in ("row", "key", "plain"))
        nonce, body = row[9:33], row[33:]
        beside = case["kind"].encode() + b"\0" + case["id"].encode()
        opened = crypto_aead_xchacha20poly1305_ietf_decrypt(body, beside, nonce, key)
        sealed = crypto_aead_xchacha20poly1305_ietf_encrypt(plain, beside, nonce, key)
        if opened != plain or sealed != body or row[0] != 1:
            faults.append(f"the record {case['id']} is another one with libsodium")
    print(f"{len(cases) - len(faults)} of {len(cases)} sealed records are the same with libsodium")
    return faults


def write_theirs(given, folder):
    recipient = pyrage.x25519.Recipient.from_str(given["recipient"])
    stranger = pyrage.x25519.Identity.generate()
    files = []

    def add(sealed, plain, **entry):
        name = f"{len(files)}.age"
        (folder / name).write_bytes(sealed)
        (folder / f"{name}.plain").write_bytes(plain)
        files.append({"file": name, **entry})

    for size in SIZES:
        plain = bytes(at % 253 for at in range(size))
        for armored in (False, True):
            add(pyrage.encrypt(plain, [recipient, stranger.to_public()], armored=armored), plain, **{"with": "key"})
    add(pyrage.encrypt(b"x", [stranger.to_public()]), b"x", must="be refused", **{"with": "key"})
    passphrases = dict.fromkeys(entry["passphrase"] for entry in given["files"] if "passphrase" in entry)
    for passphrase in passphrases:
        sealed = pyrage.passphrase.encrypt(b"words", passphrase)
        add(sealed, b"words", passphrase=passphrase, **{"with": "passphrase"})
    add(sealed, b"words", passphrase="another", must="be refused", **{"with": "passphrase"})
    # Letters that were typed apart: sealed by their own bytes, they open by the same ones.
    apart = "pa\u0308sswo\u0308rd"
    add(pyrage.passphrase.encrypt(b"words", apart), b"words", passphrase=apart, **{"with": "passphrase"})
    (folder / "list.json").write_text(json.dumps({"identity": given["identity"], "files": files}), encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
