#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_load.py PROGRAM LOAD [SECONDS CLIENTS]: clients on connections that are kept, a request a second each, of ten
one that writes. No error, no entry lost; prints the times, and holds them to the aims where these are given a minute."""
import subprocess, sys
from shop import *

AIMS_MS = {"plan": 50, "append": 250}


def load(program):
    tool = sys.argv[2]
    seconds, clients = (int(one) for one in (sys.argv[3:5] or (60, 200)))
    with new_folder() as folder:
        book, acknowledged = f"{folder}/shop.db", f"{folder}/ids"
        new_book(program, book)
        with Server(program, book) as server:
            owner = Person(server).choose_password(server.wait_for_token(), "marrow", "office")
            owner.done("POST", "/api/v1/places", {"place": "heron", "type": "van"})
            owner.done("POST", "/api/v1/products", {"text": (ROOT / "product_profiles_demo/fenmist-rtu.toml").read_text()})
            before = server.resident_kb()
            ran = subprocess.run([tool, str(server.port), owner.cookie, owner.csrf, str(clients), str(seconds), "1000", acknowledged],
                                 capture_output=True, text=True, timeout=seconds + 120)
            check(ran.returncode == 0, ran.stderr)
            told = json.loads(ran.stdout)
            print(ran.stdout.strip(), f"memory {before} to {server.resident_kb()} kB")
            check(told["errors"] == 0, ran.stderr)
            ids = open(acknowledged).read().split()
            check(ids, "nothing was written")
            there = {one["id"] for one in every_entry(owner)}
            check(set(ids) <= there, f"{len(set(ids) - there)} acknowledged entries are lost")
            check(server.end() == 0, "the server did not stop in order")
        run(program, "book", "verify", book=book)
        if seconds >= 60:
            for kind, aim in AIMS_MS.items():
                check(told[kind]["p99"] < aim, f"p99 of {kind}: {told[kind]['p99']} ms, the aim is {aim}")


main(load)
