#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_verifier.py WRITE_EXPORT VERIFIER...: the verifier must accept an export and refuse every damaged one."""
import base64
import pathlib
import random
import re
import string
import subprocess
import sys
import tempfile

write_export, *verifier = sys.argv[1:]
ours = verifier[-1].endswith(".py")
failures = []


def accepts(folder, *names):
    run = subprocess.run([*verifier, *(str(folder / name) for name in names)], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        sys.exit(f"the verifier broke: {run.stderr}")
    if run.returncode == 1 and "not verified:" not in run.stderr:
        sys.exit(f"the verifier refused without a reason: {run.stderr}")
    return run.returncode == 0


def expect(wanted, what, folder, *names):
    if accepts(folder, *names) != wanted:
        failures.append(f"{'refused' if wanted else 'accepted'}: {what}")


def damages(name, data, tries):
    """Damaged copies of a file with what was done to them."""
    for at in sorted(random.sample(range(len(data)), min(tries, len(data)))):
        yield f"{name}, one bit flipped at byte {at}", data[:at] + bytes([data[at] ^ 1 << at % 8]) + data[at + 1:]
    yield f"{name}, last byte gone", data[:-1]
    lines = data.splitlines(True)
    yield f"{name}, first line gone", b"".join(lines[1:])
    yield f"{name}, last line gone", b"".join(lines[:-1])
    written = data.rstrip(b"\n").rstrip(b"=")
    if data[len(written):].startswith(b"="):
        # A bit that no byte is made from.
        letters = (string.ascii_uppercase + string.ascii_lowercase + string.digits + "+/").encode()
        other = letters[letters.index(written[-1]) ^ 1]
        yield f"{name}, an unused bit of the last Base 64 text", written[:-1] + bytes([other]) + data[len(written):]
    if name == "book.jsonl":
        yield f"{name}, two lines swapped", b"".join([lines[1], lines[0], *lines[2:]])
        yield f"{name}, a line twice", b"".join([*lines, lines[-1]])


def same_key(one, other):
    one, other = one.split(b"+", 2), other.split(b"+", 2)
    return len(other) == 3 and one[0] == other[0] and one[1] == other[1].lower() and one[2] == other[2]


def same_bytes(one, other):
    """Whether they differ only in bits that no byte of a Base 64 text is made from; Go's decoder takes any of these."""
    words = list(zip(re.split(rb"([ \n])", one), re.split(rb"([ \n])", other)))
    unlike = [pair for pair in words if pair[0] != pair[1]]
    try:
        return len(one) == len(other) and all(base64.b64decode(a, validate=True) == base64.b64decode(b, validate=True) for a, b in unlike)
    except ValueError:
        return False


def check_damages(folder, files, names, tries):
    for name in files:
        path = folder / name
        sound = path.read_bytes()
        for what, damaged in damages(name, sound, tries):
            if name in ("book.vkey", "entry.json", "witness.vkey") and damaged == sound[:-1]:
                continue  # only the newline at the end of the file
            if name.endswith(".vkey") and same_key(sound, damaged):
                continue  # a digit of its id in upper case
            if not ours and same_bytes(sound, damaged):
                continue
            path.write_bytes(damaged)
            expect(False, what, folder, *names)
        path.write_bytes(sound)


def check_line_breaks(folder, names, name):
    """Read back from a code on paper, a note has more line breaks at its end; they may stand nowhere else."""
    path = folder / name
    sound = path.read_bytes()
    for more in (b"\n", b"\n\n", b"\r\n", b"\n\r"):
        path.write_bytes(sound + more)
        expect(True, f"{name}, then {more}", folder, *names)
    path.write_bytes(sound[:-1] + b"\r\n")
    expect(True, f"{name}, its last line ended in CR and LF", folder, *names)
    for what, damaged in (("a line break first", b"\n" + sound), ("a blank at its end", sound + b" \n"),
                          ("a line break before the last line", re.sub(rb"(?=[^\n]+\n\Z)", b"\n", sound, count=1)),
                          ("every line ended in CR and LF", sound.replace(b"\n", b"\r\n")),
                          ("no line break at its end", sound[:-1]), ("CR alone at its end", sound[:-1] + b"\r")):
        path.write_bytes(damaged)
        expect(False, f"{name}, {what}", folder, *names)
    path.write_bytes(sound)


def check_witness(folder, count):
    subprocess.run([write_export, str(folder), str(count)], check=True)
    verifier.extend(["--witness", str(folder / "witness.vkey")])
    cosigned = ["book.jsonl", "cosigned.checkpoint", "book.vkey"]
    expect(True, f"a cosigned book of {count}, its witness demanded", folder, *cosigned)
    expect(False, "a book without the witness that is demanded", folder, "book.jsonl", "book.checkpoint", "book.vkey")
    if count == 300:
        check_damages(folder, ["cosigned.checkpoint", "witness.vkey"], cosigned, 40)
    del verifier[-2:]


def check_proofs(folder, count):
    subprocess.run([write_export, str(folder), str(count)], check=True)
    proof = ["entry.tlog-proof", "entry.json", "book.vkey"]
    verifier.append("--proof")
    expect(True, f"a sound proof in {count}", folder, *proof)
    check_line_breaks(folder, proof, proof[0])
    if count == 300:
        check_damages(folder, proof[:2], proof, 12)
    verifier.pop()


for count in (1, 2, 7, 300):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        subprocess.run([write_export, name, str(count)], check=True)
        book = ["book.jsonl", "book.checkpoint", "book.vkey", "older.checkpoint"]
        expect(True, f"a sound book of {count}", folder, *book)
        expect(True, f"a sound book of {count} without older checkpoints", folder, *book[:3])
        check_line_breaks(folder, book, "book.checkpoint")
        # Who does not know the witness skips its line.
        expect(True, f"a cosigned book of {count}", folder, "book.jsonl", "cosigned.checkpoint", "book.vkey")
        expect(False, "an older checkpoint as the newest", folder, "book.jsonl", "older.checkpoint", "book.vkey")
        if count == 300:
            check_damages(folder, book, book, 12)
            # A rewritten entry before the older checkpoint, with a checkpoint that was never made of it.
            lines = (folder / "book.jsonl").read_bytes().splitlines(True)
            lines[10] = lines[10].replace(b"3795", b"9999")
            (folder / "book.jsonl").write_bytes(b"".join(lines))
            expect(False, "an entry rewritten", folder, *book)
        if ours:
            check_proofs(folder, count)
            check_witness(folder, count)

print("\n".join(failures) if failures else "every sound export accepted, every damaged one refused")
sys.exit(1 if failures else 0)
