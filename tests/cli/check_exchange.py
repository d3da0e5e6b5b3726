#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""check_exchange.py PROGRAM: reads what the program exports with readers that are not ours: Python's csv and json, and
Debian's python3-icalendar."""
import csv, datetime, io, json, os, pathlib, subprocess, sys, tempfile

import icalendar

PROGRAM = sys.argv[1]
SOURCE = pathlib.Path(__file__).resolve().parent.parent.parent
ODD = ["=1+1", "-2+3", "+1", "@x", "\ttab", "a,b", 'say "so"', "two\nlines", "two\r\nlines", "größe 5 °C €" * 9, "'", "''=1", "-5",
       " x ", "semi;colon", "back\\slash"]


def run(folder, *words):
    world = {"FOGWRIGHT_BOOK": f"{folder}/book.db", "FOGWRIGHT_BY": "ash", "PATH": os.environ["PATH"], "HOME": folder}
    done = subprocess.run([PROGRAM, *words], env=world, capture_output=True)
    if done.returncode:
        sys.exit(f"{words}: {done.stderr.decode()}")
    return done.stdout.decode()


def fill(folder):
    run(folder, "book", "create", "--origin", "books.example/quillfen")
    run(folder, "crew", "enrol", "ash", "--role", "owner", "--role", "safety-officer")
    run(folder, "place", "add", "shop", "--type", "shop")
    run(folder, "product", "adopt", str(SOURCE / "product_profiles_demo/fenmist-rtu.toml"))
    expires = (datetime.date.today() + datetime.timedelta(days=90)).isoformat()
    for lot in ODD:
        run(folder, "stock", "receive", "fenmist-rtu", "--lot=" + lot, "--size", "1 gal", "--expires", expires, "--place", "shop")
    run(folder, "crew", "credential", "ash", "--what", "licence", "--issued", "2026-01-05", "--expires", expires)
    return expires


def unguarded(text):
    """As docs/exchange.md tells it: one apostrophe off what begins a formula."""
    bare = text.lstrip("'")
    return text[1:] if text.startswith("'") and bare[:1] in tuple("=+-@\t\r\n") and bare else text


def check_csv(folder):
    text = run(folder, "stock", "list", "--format", "csv")
    rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    told = json.loads(run(folder, "stock", "list", "--json"))["vessels"]
    assert text.endswith("\r\n") and [row["id"] for row in rows] == [one["id"] for one in told]
    assert [unguarded(row["lot"]) for row in rows] == [one["lot"] for one in told]
    assert sorted(one["lot"] for one in told) == sorted(ODD)
    assert all(row["lot"][0] not in "=@\t\r\n" for row in rows)
    assert all(int(row["remaining_ul"]) == one["remaining_ul"] for row, one in zip(rows, told))
    for row, one in zip(rows, told):
        until = datetime.datetime.fromisoformat(row["usable_until_utc"]).replace(tzinfo=datetime.timezone.utc)
        assert int(until.timestamp()) * 1000 == one["usable_until_ms"]
    lines = run(folder, "stock", "list", "--format", "jsonl").splitlines()
    assert [json.loads(line) for line in lines] == told


def check_calendar(folder, expires):
    text = run(folder, "calendar")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n")) and "\n" not in text.replace("\r\n", "")
    calendar = icalendar.Calendar.from_ical(text)
    events = calendar.walk("VEVENT")
    told = json.loads(run(folder, "calendar", "--json"))["events"]
    assert calendar["VERSION"] == "2.0" and len(events) == len(told) == len(ODD) + 1
    assert len({str(event["UID"]) for event in events}) == len(events)
    for event, one in zip(events, told):
        assert str(event["UID"]) == one["uid"]
        assert str(event["SUMMARY"]) == one["summary"].replace("\r\n", "\n").replace("\t", " ")
        assert str(event["DESCRIPTION"]) == one["detail"]
        assert event["DTSTART"].dt.isoformat() == one["day"] == expires
        assert abs(event["DTSTAMP"].dt - datetime.datetime.now(datetime.timezone.utc)) < datetime.timedelta(minutes=10)
        (alarm,) = event.walk("VALARM")
        assert alarm["ACTION"] == "DISPLAY" and alarm["TRIGGER"].dt < datetime.timedelta(0)


with tempfile.TemporaryDirectory() as folder:
    expires = fill(folder)
    check_csv(folder)
    check_calendar(folder, expires)
