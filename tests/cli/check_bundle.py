#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_bundle.py PROGRAM SOURCE: bundles of a small book, checked by the independent script, sound and damaged."""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import zipfile

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
script = source / "scripts/verify-book.py"
failures = []


def expect(holds, what):
    if not holds:
        failures.append(what)


class Shop:
    """A book in a folder: two jobs with two labels, a witness who has cosigned before the second."""

    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        kept = {name: os.environ[name] for name in ("PATH", "ASAN_OPTIONS", "LSAN_OPTIONS") if name in os.environ}
        self.environment = {**kept, "FOGWRIGHT_BOOK": self.path("shop.db"), "FOGWRIGHT_BY": "ash",
                            "FOGWRIGHT_ZONE": "America/Chicago"}
        self.do("book", "create", "--origin", "books.example/quillfen")
        self.do("witness", "key", "--name", "office.example/witness", "--key", self.path("office.key"))
        self.do("crew", "enrol", "ash", "--role", "owner", "--role", "technician")
        self.do("crew", "enrol", "rowan", "--role", "technician")
        self.do("place", "add", "heron", "--type", "van")
        for product in ("fenmist-rtu", "brackwater-20"):
            self.do("product", "adopt", str(source / f"product_profiles_demo/{product}.toml"))
        self.plan("fenmist-rtu", "Marsh Lane 4")
        self.do("job", "check", "J1", "filter-out", "yes")
        self.cosign("--first")
        self.plan("brackwater-20", "Fen Street 9")

    def path(self, name):
        return str(self.folder / name)

    def run(self, *words):
        return subprocess.run([program, *words], env=self.environment, capture_output=True, text=True)

    def do(self, *words):
        done = self.run(*words)
        if done.returncode != 0:
            sys.exit(f"{' '.join(words)}: {done.stderr}")
        return done.stdout

    def plan(self, product, customer):
        self.do("job", "plan", "--product", product, "--area", "2400", "--returns", "2", "--customer", customer,
                "--technician", "rowan", "--van", "heron", "--purge-air-changes", "5")

    def cosign(self, *more):
        office = self.path("office.key.vkey")
        self.do("book", "checkpoint", "--witness", office, "--out", self.path("request"))
        self.do("witness", "sign", self.path("request"), "--vkey", self.path("shop.db.vkey"), "--key",
                self.path("office.key"), "--out", self.path("cosigned"), *more)
        self.do("book", "cosigned", self.path("cosigned"), "--witness", office)
        for name in ("request", "cosigned"):
            os.remove(self.path(name))

    def bundle(self, name, *words):
        self.do("book", "bundle", "--out", self.path(name), *words)
        return self.path(name)


def verify(bundle, *more):
    run = subprocess.run([sys.executable, script, "--bundle", bundle, *more], capture_output=True, text=True)
    if run.returncode not in (0, 1) or (run.returncode == 1 and "not verified:" not in run.stderr):
        sys.exit(f"the verifier broke: {run.stderr}")
    return run.returncode == 0


def members_of(bundle):
    with zipfile.ZipFile(bundle) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def write(bundle, members):
    with zipfile.ZipFile(bundle, "w") as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return bundle


def check_damages(shop, bundle):
    """One changed byte of any member, a member gone, a member more: each must be found."""
    vkey, sound, damaged = shop.path("shop.db.vkey"), members_of(bundle), shop.path("damaged.zip")
    expect(verify(write(damaged, sound), vkey), "packed anew, a sound bundle must hold")
    for name, data in sound.items():
        for at in {0, len(data) // 3, len(data) // 2, len(data) - 2}:
            changed = data[:at] + bytes([data[at] ^ 1 << at % 7]) + data[at + 1:]
            expect(not verify(write(damaged, {**sound, name: changed}), vkey), f"{name}: byte {at} changed")
        rest = {other: data for other, data in sound.items() if other != name}
        expect(not verify(write(damaged, rest), vkey), f"{name} gone")
    expect(not verify(write(damaged, {**sound, "papers/more.txt": b"more"}), vkey), "a member more")


def check_choice(shop, bundle):
    members = members_of(bundle)
    entries = [json.loads(line) for line in members["entries.jsonl"].splitlines()]
    kinds = [entry["kind"] for entry in entries]
    expect(kinds.count("job-planned") == 1 and "requirement-met" in kinds, f"the entries of J1: {kinds}")
    expect(kinds.count("label-adopted") == 1, f"the label of J1 alone: {kinds}")
    expect(kinds.count("person-enrolled") == 2, f"who took part: {kinds}")
    expect([name for name in members if name.startswith("labels/")] and
           all("fenmist" in name for name in members if name.startswith("labels/")), "the label's text")
    label = next(data for name, data in members.items() if name.startswith("labels/"))
    expect(label == (source / "product_profiles_demo/fenmist-rtu.toml").read_bytes(), "the label as it was adopted")
    expect(not any(b"Marsh Lane" in data for data in members.values()), "private data without --with-private")
    expect("cosigned.checkpoint" in members, "the cosigned checkpoint")


def check_private(shop):
    bundle = shop.bundle("private.zip", "--job", "J1", "--with-private")
    members = members_of(bundle)
    expect(len(members["private.jsonl"].splitlines()) == 1, "what J1 has beside the record")
    expect(verify(bundle, shop.path("shop.db.vkey")), "a bundle with private data must hold")
    subprocess.run(["sqlite3", shop.path("shop.db"), "PRAGMA recursive_triggers=ON; DELETE FROM private"], check=True)
    erased = members_of(shop.bundle("erased.zip", "--job", "J1", "--with-private"))
    expect(erased["private.jsonl"] == b"", "what was erased is in no bundle")


def check_corrections(shop):
    """What was put right about a job, or about the container that it drew from, goes with the job."""
    shop.do("stock", "receive", "fenmist-rtu", "--id", "C1", "--lot", "A17", "--size", "1 gal", "--expires", "2099-01-31",
            "--place", "heron")
    shop.do("stock", "draw", "C1", "--volume", "1 fl oz", "--job", "J1")
    shop.do("stock", "correct", "C1", "--lot", "A71", "--why", "two digits were swapped")
    all_entries = json.loads(shop.do("book", "entries", "--all", "--json"))["entries"]
    planned = next(entry for entry in all_entries if entry["kind"] == "job-planned" and entry["body"]["job"] == "J1")
    shop.do("book", "correct", str(planned["seq"]), "it was planned the day before", "--why", "no signal")
    bundle = shop.bundle("corrected.zip", "--job", "J1")
    entries = [json.loads(line) for line in members_of(bundle)["entries.jsonl"].splitlines()]
    ids = {entry["id"] for entry in entries}
    corrections = [entry for entry in entries if "corrects" in entry]
    expect([entry["kind"] for entry in corrections] == ["container-corrected", "note"], f"corrections of J1: {corrections}")
    expect(all(entry["corrects"] in ids for entry in corrections), "the entries that were put right")
    expect(verify(bundle, shop.path("shop.db.vkey")), "a bundle with corrections must hold")


with tempfile.TemporaryDirectory() as folder:
    shop = Shop(folder)
    vkey, office = shop.path("shop.db.vkey"), ["--witness", shop.path("office.key.vkey")]
    bundle = shop.bundle("job.zip", "--job", "J1")
    expect(verify(bundle, vkey, *office), "a job's bundle must hold, its witness too")
    expect(verify(bundle), "a bundle must hold by its own key")
    expect(pathlib.Path(bundle).read_bytes() == pathlib.Path(shop.bundle("again.zip", "--job", "J1")).read_bytes(),
           "the same book must give the same bytes")
    shop.do("witness", "key", "--name", "else.example/w", "--key", shop.path("else.key"))
    expect(not verify(bundle, vkey, "--witness", shop.path("else.key.vkey")), "a witness who has not cosigned")
    check_choice(shop, bundle)
    check_damages(shop, bundle)
    whole = shop.bundle("whole.zip")
    expect(verify(whole, vkey, *office), "a whole book's bundle must hold")
    expect(not any(name.startswith("proofs/") for name in members_of(whole)), "a whole book needs no proofs")
    check_damages(shop, whole)
    shop.cosign()
    expect(verify(shop.bundle("cosigned.zip"), vkey, *office), "a book that is cosigned to its end must hold")
    expect(verify(shop.bundle("days.zip", "--from", "2020-01-01"), vkey), "a bundle of days must hold")
    expect(shop.run("book", "bundle", "--out", shop.path("x.zip"), "--job", "J9").returncode == 1, "an unknown job")
    expect(shop.run("book", "bundle", "--out", bundle, "--job", "J1").returncode == 1, "nothing is overwritten")
    expect(shop.run("book", "bundle", "--job", "J1").returncode == 2, "no file named")
    check_corrections(shop)
    expect(shop.run("book", "bundle", "--out", shop.path("x.zip"), "--from", "soon").returncode == 2, "no day")
    check_private(shop)

print("\n".join(failures) if failures else "every sound bundle accepted, every damaged one refused")
sys.exit(1 if failures else 0)
