#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_day.py PROGRAM: a day of the demo firm. Two phones and the office work on one book over TLS, one phone is an
hour without a network, and in the evening the book verifies. The server's clocks are set forward through the holds by
libfaketime; everything else is as people have it."""
import datetime, glob, os, signal, subprocess, time
from shop import *

CHICAGO = datetime.timezone(datetime.timedelta(hours=-6))  # standard time: 2 March 2026
MORNING = datetime.datetime(2026, 3, 2, 7, 30, tzinfo=CHICAGO)
ANSWERS = {"product-right": "DEMO-1", "product-in-date": "2027-01-31", "volume-before": "600 mL",
           "respirator-facepiece": "half-mask, Saltwing 40, M", "cartridge-words": "p1", "cartridge-hours": "30 min",
           "cartridge-hours-added": "25 min", "animals-out": "1", "everyone-out": "3", "entrances-posted": "2", "signs-down": "2",
           "standby-person": "teasel", "standby-rescue": "teasel"}


class Clock:
    """The time at the firm: runs as ours does, and is set forward."""

    def __init__(self, folder):
        self.file, self.ahead = f"{folder}/time", MORNING.timestamp() - time.time()
        self.write()

    def write(self):
        with open(self.file + ".new", "w") as out:
            out.write(f"{self.ahead:+.3f}\n")
        os.replace(self.file + ".new", self.file)

    def later(self, **more):
        self.ahead += datetime.timedelta(**more).total_seconds()
        self.write()

    def now_ms(self):
        return int((time.time() + self.ahead) * 1000)

    def environment(self):
        library = glob.glob("/usr/lib/*/faketime/libfaketimeMT.so.1")
        check(library, "install faketime")
        return {"LD_PRELOAD": library[0], "FAKETIME_TIMESTAMP_FILE": self.file, "FAKETIME_NO_CACHE": "1"}


class Phone(Person):
    """A phone that waits where there is no network, and keeps what it wrote."""

    def __init__(self, server, clock, name):
        super().__init__(server)
        self.clock, self.name, self.kept = clock, name, []

    def write_offline(self, kind, **body):
        self.kept.append({"id": uuid7(self.clock.now_ms()), "kind": kind, "happened_ms": self.clock.now_ms(), "body": body})

    def moment(self):
        return {"boot": self.name, "uptime_ms": self.clock.now_ms() - int(MORNING.timestamp() * 1000) + 60_000}

    def send(self, entries):
        return self.done("POST", "/api/v1/sync", {"device_now_ms": self.clock.now_ms(), "entries": entries})["results"]


def make_certificate(folder):
    files = f"{folder}/cert.pem", f"{folder}/cert.key"
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-days", "2",
                    "-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost", "-keyout", files[1], "-out", files[0]],
                   check=True, capture_output=True)
    return files


def open_office(owner):
    """What the owner and the safety officer enter once."""
    for handle, roles in (("teasel", ["safety-officer"]), ("sedge", ["technician"]), ("bracken", ["technician"])):
        owner.done("POST", "/api/v1/crew", {"handle": handle, "roles": roles, "name": f"{handle.title()} of Tarn Vale"})
    for place, type in (("shop", "shop"), ("heron", "van"), ("plover", "van")):
        owner.done("POST", "/api/v1/places", {"place": place, "type": type})
    for fogger in ("gust", "draft"):
        owner.done("POST", "/api/v1/foggers", {"fogger": fogger, "tank": "1/2 gal"})


def open_safety(officer):
    profile = (ROOT / "product_profiles_demo/fenmist-rtu.toml").read_text()
    officer.done("POST", "/api/v1/products", {"text": profile})
    officer.done("POST", "/api/v1/cartridges", {"cartridge": "p1", "model": "Saltwing P", "words": ["P100"], "schedule": "40 h",
                                                "basis": "the maker's table"})
    for handle in ("sedge", "bracken"):
        for credential in ({"what": "medical-clearance", "issued": "2026-01-12", "expires": "2027-01-11"},
                           {"what": "licence", "issued": "2026-01-05", "expires": "2026-12-31", "number": "TV-104"},
                           {"what": "fit-test", "issued": "2026-02-10", "facepiece": "half-mask", "model": "Saltwing 40", "size": "M"}):
            officer.done("POST", f"/api/v1/crew/{handle}/credentials", credential)


def load_van(phone, van, fogger, lot):
    """Stock and a catch test; returns the container."""
    phone.done("POST", f"/api/v1/places/{van}/temperatures", {"temperature": "68 F"})
    run_of = [{"caught": caught, "time": "60 s"} for caught in ("178 mL", "182 mL", "180 mL")]
    phone.done("POST", f"/api/v1/foggers/{fogger}/tests", {"runs": run_of})
    received = phone.done("POST", "/api/v1/containers", {"product": "fenmist-rtu", "lot": lot, "size": "1 gal", "cost": "62.40",
                                                         "expires": "2027-01-31", "place": van})
    container = received["entries"][0]["body"]["container"]
    phone.done("POST", f"/api/v1/vessels/{container}/open")
    return container


def plan(phone, technician, van, fogger, area):
    planned = phone.done("POST", "/api/v1/jobs", {
        "product": "fenmist-rtu", "technician": technician, "zone": "America/Chicago", "fogger": fogger, "van": van,
        "customer": "the household at Sallow Row", "address": "4 Sallow Row, Tarn Vale",
        "site": {"site": {"entrances": 2, "animals": True}, "system": [{"area": area, "returns": 3}]}})
    return planned["entries"][0]["body"]["job"]


def used_ml(phone, job):
    """As planned, in whole millilitres."""
    return round(phone.done("GET", f"/api/v1/jobs/{job}")["plan"]["volume_ul"]["target"] / 1000)


def meet(phone, job, container, *stages):
    """Answers every open item of these stages."""
    for _ in range(40):
        open_items = [one["requirement"] for one in phone.done("GET", f"/api/v1/jobs/{job}")["missing"]
                      if not stages or one["stage"] in stages]
        if not open_items:
            return
        for item in open_items:
            own = {"lot-noted": container, "volume-after": f"{600 - used_ml(phone, job)} mL"}
            answer = own.get(item) or ANSWERS.get(item, "yes")
            told = phone.ask("POST", f"/api/v1/jobs/{job}/checks/{item}", {"answer": answer})
            check(told.status == 201, f"{item}: {told.status} {told.body[:400]}")
    check(False, f"items stay open: {open_items}")


def fog_online(phone, job, container, clock):
    refused = phone.refused(409, "POST", f"/api/v1/jobs/{job}/start")
    check(refused["code"] == "gate-closed" and refused["entries"][0]["kind"] == "start-refused", f"{refused}")
    meet(phone, job, container, "before mixing or filling", "before fogging")
    phone.done("POST", f"/api/v1/jobs/{job}/start")
    for one in phone.done("GET", f"/api/v1/jobs/{job}")["plan"]["systems"][0]["returns"]:
        clock.later(seconds=one["seconds"])
        phone.done("POST", f"/api/v1/jobs/{job}/returns", {"return": one["name"], "time": f"{one['seconds']} s"})
    phone.done("POST", f"/api/v1/jobs/{job}/fog-off", {"left": f"{600 - used_ml(phone, job)} mL"})


def let_in_and_close(phone, job, container, clock, closing):
    """Through the hold: refused before its end, released after it with the password, then closed."""
    refused = phone.refused(409, "POST", f"/api/v1/jobs/{job}/release", {"password": PASSWORD})
    check(refused["code"] == "hold-running" and refused["entries"][0]["kind"] == "release-refused", f"{refused}")
    hold = phone.done("GET", f"/api/v1/jobs/{job}")["hold"]
    clock.later(milliseconds=hold["total_ms"] - hold["elapsed_ms"] + 1_000)
    meet(phone, job, container, "before release")
    phone.refused(403, "POST", f"/api/v1/jobs/{job}/release", {"password": "not the right one at all"})
    phone.done("POST", f"/api/v1/jobs/{job}/release", {"password": PASSWORD})
    closing(phone, job, container)


def close(phone, job, container):
    meet(phone, job, container)
    phone.done("POST", f"/api/v1/vessels/{container}/draws", {"volume": f"{used_ml(phone, job)} mL", "job": job})
    phone.done("POST", f"/api/v1/jobs/{job}/close")
    check(phone.done("GET", f"/api/v1/jobs/{job}")["state"] == "closed", "not closed")


def fog_offline(phone, job, clock):
    """An hour in a cellar without a network: fog, returns, fog-off, a storage reading."""
    returns = phone.done("GET", f"/api/v1/jobs/{job}")["plan"]["systems"][0]
    used = used_ml(phone, job)
    phone.hang_up()
    midnight = MORNING.replace(hour=0, minute=0)
    phone.write_offline("fog-started", job=job, clock=phone.moment(), day="2026-03-02", day_began_ms=int(midnight.timestamp() * 1000))
    for one in returns["returns"]:
        clock.later(seconds=one["seconds"])
        phone.write_offline("return-fogged", job=job, system=returns["name"], planned_s=one["seconds"], actual_ms=one["seconds"] * 1000,
                            **{"return": one["name"]})
    off_ms = clock.now_ms()
    phone.write_offline("fog-ended", job=job, clock=phone.moment(), used_ul=used * 1000, measured="before-and-after",
                        left_ul=(600 - used) * 1000, left_typed=f"{600 - used} mL")
    clock.later(minutes=57)
    phone.write_offline("storage-read", place="plover", temperature_mk=294_261, temperature_typed="70 F")
    # The first batch arrives and its answer is lost; the whole is sent again.
    first = phone.send(phone.kept[:3])
    check([one["result"] for one in first] == ["accepted"] * 3, f"{first}")
    again = phone.send(phone.kept)
    results = [one["result"] for one in again]
    check(results == ["already-there"] * 3 + ["accepted"] * (len(again) - 3), f"{again}")
    hold = phone.done("GET", f"/api/v1/jobs/{job}")["hold"]
    check(abs(hold["elapsed_ms"] - (clock.now_ms() - off_ms)) < 5_000, f"the hold does not count from fog-off: {hold}")


def papers_of(office, job):
    for paper in ("record", "leave-behind"):
        got = office.ask("GET", f"/api/v1/jobs/{job}/papers/{paper}")
        check(got.status == 200 and got.headers["Content-Type"] == "application/pdf" and got.body.startswith(b"%PDF-"), f"{paper}")
    page = office.ask("GET", f"/api/v1/jobs/{job}/papers/leave-behind?as=html&language=es")
    check(page.status == 200 and b'lang="es"' in page.body, "the leave-behind in Spanish")


def check_evening(office, jobs):
    stock = {line["item"]: line for line in office.done("GET", "/api/v1/stock")["items"]}["fenmist-rtu"]
    drawn_ul = sum(used_ml(office, job) * 1000 for job in jobs)
    check(abs(2 * 3_785_411 - drawn_ul - stock["on_hand_ul"]) < 10, f"{stock}")
    open_jobs = office.done("GET", "/api/v1/jobs")["items"]
    check(open_jobs == [] and len(office.done("GET", "/api/v1/jobs?all=true")["items"]) == len(jobs), f"{open_jobs}")
    audit = office.done("GET", "/api/v1/audit?verify=true")
    check(audit["record"]["verified"] and not audit["record"]["findings"], f"{audit['record']}")
    grave = [one for one in audit["departures"] if one["severity"] == "grave"]
    check(not grave, f"{grave}")
    for job in jobs:
        papers_of(office, job)
    for path in ("inventory", "audit", "labels?place=heron"):
        check(office.ask("GET", f"/api/v1/papers/{path}").body.startswith(b"%PDF-"), path)


def day(program):
    with new_folder() as folder:
        book, clock, files = f"{folder}/quillfen.db", Clock(folder), make_certificate(folder)
        new_book(program, book, env=clock.environment())
        with Server(program, book, "--host", "localhost", "--certificate", files[0], "--certificate-key", files[1],
                    env=clock.environment(), cafile=files[0]) as server:
            office = Person(server).choose_password(server.wait_for_token(), "marrow", "office")
            open_office(office)
            officer = office.invite("teasel", "office")
            open_safety(officer)
            phones = {}
            for handle, van in (("sedge", "heron"), ("bracken", "plover")):
                phone = Phone(server, clock, f"{van} phone")
                link = office.done("POST", f"/api/v1/crew/{handle}/invitation", {"password": PASSWORD})
                phones[handle] = phone.choose_password(link["link"].split("#")[1], handle, phone.name)
            sedge, bracken = phones["sedge"], phones["bracken"]
            heron, plover = load_van(sedge, "heron", "gust", "FR-2601"), load_van(bracken, "plover", "draft", "FR-2602")
            clock.later(minutes=45)
            morning = plan(sedge, "sedge", "heron", "gust", "2400 sq ft"), plan(bracken, "bracken", "plover", "draft", "1800 sq ft")
            fog_online(sedge, morning[0], heron, clock)
            meet(bracken, morning[1], plover, "before mixing or filling", "before fogging")
            bracken.done("POST", f"/api/v1/jobs/{morning[1]}/clearance")
            fog_offline(bracken, morning[1], clock)
            let_in_and_close(sedge, morning[0], heron, clock, close)
            let_in_and_close_late(bracken, morning[1], plover, clock)
            clock.later(minutes=30)
            afternoon = plan(sedge, "sedge", "heron", "gust", "2000 sq ft")
            fog_online(sedge, afternoon, heron, clock)
            let_in_and_close(sedge, afternoon, heron, clock, close)
            check_evening(office, [*morning, afternoon])
            entries = every_entry(office)
            check({"heron phone", "plover phone", "office"} <= {one["device"] for one in entries}, "devices")
            note = office.done("GET", "/api/v1/book/checkpoint")["checkpoint"]
            proof = office.done("GET", f"/api/v1/book/entries/{bracken.kept[0]['id']}/proof")["proof"]
            check(note.split("\n")[2] in proof, "the proof is not of that checkpoint")
            server.end(signal.SIGKILL)  # where the clock is not ours a wait for a second need not end
            log = "".join(server.lines)
            check(PASSWORD not in log and office.cookie.split("=")[1] not in log, "a secret in the log")
        verified = json.loads(run(program, "book", "verify", "--json", book=book, env=clock.environment()).stdout)
        check(verified["valid"] and verified["entries"] == len(entries), f"{verified}")


def let_in_and_close_late(phone, job, container, clock):
    """The hold of the other phone's job has run meanwhile, if not wholly."""
    hold = phone.done("GET", f"/api/v1/jobs/{job}")["hold"]
    clock.later(milliseconds=max(0, hold["total_ms"] - hold["elapsed_ms"]) + 1_000)
    meet(phone, job, container, "before release")
    phone.done("POST", f"/api/v1/jobs/{job}/release", {"password": PASSWORD})
    close(phone, job, container)


main(day)
