"""QR codes both ways: zxing-cpp reads pictures of ours, held straight, turned, askew, blurred and in low light; and our
reader reads codes that segno made of the same texts.

The pictures come from `codes` in `tests/src/bin`, which also reads those of segno.
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile

import numpy
import segno
import zxingcpp

ROOT = pathlib.Path(os.environ.get("SIDELIGHT_ROOT", pathlib.Path(__file__).resolve().parents[3]))
# Pixels a module of segno's pictures, and the margin that ISO/IEC 18004 asks for.
SCALE, MARGIN = 4, 4


def main():
    with tempfile.TemporaryDirectory() as folder:
        ours, theirs = pathlib.Path(folder, "ours"), pathlib.Path(folder, "theirs")
        codes("write", ours)
        given = json.loads((ours / "given.json").read_text())
        faults = theirs_read_ours(ours, given)
        theirs.mkdir()
        faults += we_read_theirs(theirs, sorted({one["text"] for one in given}))
    for fault in faults:
        print(fault)
    print(f"{len(given)} pictures of ours, {len(faults)} faults")
    return 1 if faults or not given else 0


def codes(*arguments):
    command = [os.environ.get("CARGO", "cargo"), "run", "--quiet", "--bin", "codes", "--"]
    return subprocess.run([*command, *map(str, arguments)], cwd=ROOT, check=True, capture_output=True, text=True).stdout


def theirs_read_ours(folder, given):
    faults = []
    for one in given:
        head, grey = (folder / one["file"]).read_bytes().split(b"\n", 1)
        width, height = map(int, head.split()[1:3])
        picture = numpy.frombuffer(grey, numpy.uint8).reshape(height, width)
        read = [found.text for found in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)]
        if read != [one["text"]]:
            faults.append(f"{one['what']}, {one['shot']}, version {one['version']}: zxing-cpp reads {read}")
    return faults


def we_read_theirs(folder, texts):
    named = {}
    for text in texts:
        for level in "LMQ":
            name = f"{len(named)}.pgm"
            made = segno.make(text, error=level, micro=False, boost_error=False)
            light = numpy.array([list(row) for row in made.matrix_iter(scale=SCALE, border=MARGIN)]) == 0
            picture = numpy.where(light, 235, 20).astype(numpy.uint8)
            (folder / name).write_bytes(b"P5 %d %d 255\n" % picture.shape[::-1] + picture.tobytes())
            named[name] = (text, level, made.version)
    said = json.loads(codes("read", folder))
    return [
        f"segno's code of {text[:40]}, level {level}, version {version}: we read {said.get(name)}"
        for name, (text, level, version) in named.items()
        if said.get(name) != text
    ]


if __name__ == "__main__":
    sys.exit(main())
