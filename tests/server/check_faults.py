#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_faults.py PROGRAM: kill -9 under load, a restored backup, clients that mean no good."""
import os, random, selectors, shutil, signal, socket, time
from shop import *


def killed_under_load(program):
    """Whatever was answered with 201 is there after kill -9, at the number that was told."""
    with new_folder() as folder:
        book = f"{folder}/shop.db"
        new_book(program, book)
        places = {}
        with Server(program, book) as server:
            owner = Person(server).choose_password(server.wait_for_token(), "marrow", "office")
            owner.done("POST", "/api/v1/places", {"place": "heron", "type": "van"})
            places["server"] = server
            writers = Writers(lambda _: by_hand(owner, places), 6).start()
            for kills in range(3):
                writers.wait_for(20 * (kills + 1))
                time.sleep(random.random() * 0.05)
                places["server"].end(signal.SIGKILL)
                places["server"] = Server(program, book)
            writers.wait_for(100)
            writers.stop()
            with places["server"] as last:
                owner.server = last
                owner.hang_up()
                writers.check_all_there(every_entry(owner))
        run(program, "book", "verify", book=book)


def by_hand(owner, places):
    """A person with the owner's session, who follows the server from port to port."""
    class Following(Person):
        def _connect(self):
            self.server = places["server"]
            return super()._connect()

    person = Following(places["server"])
    person.cookie, person.csrf = owner.cookie, owner.csrf
    return person


def restored_from_backup(program):
    """The steps of docs/server.md: backup while the server runs, put back, start: people sign in, the book verifies."""
    with new_folder() as folder:
        book, kept = f"{folder}/shop.db", f"{folder}/elsewhere"
        os.mkdir(kept)
        new_book(program, book)
        with Server(program, book) as server:
            owner = Person(server).choose_password(server.wait_for_token(), "marrow", "office")
            owner.done("POST", "/api/v1/places", {"place": "heron", "type": "van"})
            before = owner.done("GET", "/api/v1/book/checkpoint")["checkpoint"]
            run(program, "book", "backup", f"{kept}/shop.db", book=book)
            for name in ("shop.db.accounts", "shop.db.key", "shop.db.vkey"):
                shutil.copy2(f"{folder}/{name}", f"{kept}/{name}")
            owner.done("POST", "/api/v1/places", {"place": "plover", "type": "van"})  # after the backup: lost
        with Server(program, f"{kept}/shop.db") as server:
            owner = Person(server).sign_in("marrow", "office")
            check([one["place"] for one in owner.done("GET", "/api/v1/places")["items"]] == ["heron"], "other places")
            check(owner.done("GET", "/api/v1/book/checkpoint")["checkpoint"] == before, "another checkpoint")
            owner.done("POST", "/api/v1/places", {"place": "plover", "type": "van"})
        run(program, "book", "verify", book=f"{kept}/shop.db")


def slow_clients(program):
    """Clients that send a byte at a time hold no thread and stop nobody."""
    with new_folder() as folder:
        book = f"{folder}/shop.db"
        new_book(program, book)
        with Server(program, book) as server:
            request = b"GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: " + b"a" * 200
            slow = []
            for _ in range(1_000):
                one = socket.create_connection(("127.0.0.1", server.port))
                one.setblocking(False)
                slow.append(one)
            longest = 0.0
            for at in range(12):
                for one in slow:
                    try:
                        one.send(request[at:at + 1])
                    except OSError:
                        pass
                begin = time.time()
                answer = Person(server).ask("GET", "/health")
                longest = max(longest, time.time() - begin)
                check(answer.status == 200, f"health: {answer.status}")
            check(longest < 3, f"beside 1,000 slow clients somebody waited {longest:.1f} s")
            for one in slow:
                one.close()
            check(Person(server).ask("GET", "/health").status == 200, "no answer after the slow clients")
            check(server.end() == 0, "the server did not stop in order")


def bad_requests(rng):
    """Oversized, malformed, nested and random; none of them may be answered with 5xx, and with 200
    only what broken bytes have left whole: a request for some page."""
    yield b"GET /" + b"a" * 20_000 + b" HTTP/1.1\r\n\r\n"
    yield b"GET / HTTP/1.1\r\nX: " + b"b" * 20_000 + b"\r\n\r\n"
    yield b"GET / HTTP/1.1\r\n" + b"".join(b"X%d: y\r\n" % n for n in range(3_000)) + b"\r\n"
    yield b"POST /api/v1/session HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 999999999\r\n\r\n"
    for text in (b"[" * 100_000, b'{"a":' * 50_000, b'{"handle":"' + b"\\ud800" * 10 + b'"}', b"\xff\xfe\x00", b"{" + b'"x":1,' * 10_000 + b"}",
                 b'{"handle": 1e999999}', b'{"handle":"a","handle":"b"}'):
        yield (b"POST /api/v1/session HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n"
               % len(text)) + text
    for path in (b"/../../etc/passwd", b"/%2e%2e/x", b"/%00", b"/%", b"/api/v1/jobs?limit=1&limit=2", b"*", b"http://other/"):
        yield b"GET " + path + b" HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"
    for _ in range(300):
        yield bytes(rng.randrange(256) for _ in range(rng.randrange(1, 400))) + b"\r\n\r\n"
    whole = b"GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept: */*\r\n\r\n"
    for _ in range(300):
        broken = bytearray(whole)
        for _ in range(rng.randrange(1, 4)):
            broken[rng.randrange(len(broken))] = rng.randrange(256)
        yield bytes(broken)


def exchange(port, sent):
    with socket.create_connection(("127.0.0.1", port), timeout=5) as one:
        try:
            one.sendall(sent)
            one.shutdown(socket.SHUT_WR)
            answer = b""
            while part := one.recv(65_536):
                answer += part
            return answer
        except OSError:
            return b""  # hung up on while sending


def hostile_requests(program):
    """What is no request is refused with 4xx, or hung up on; memory stays flat."""
    seed = int(os.environ.get("FOGWRIGHT_SEED", time.time()))
    print("seed", seed)
    with new_folder() as folder:
        book = f"{folder}/shop.db"
        new_book(program, book)
        with Server(program, book) as server:
            def round_of():
                for sent in bad_requests(random.Random(seed)):
                    answer = exchange(server.port, sent)
                    status = int(answer[9:12]) if answer.startswith(b"HTTP/1.1 ") else 0
                    harmless = status == 200 and sent.startswith(b"GET /") and b".." not in sent  # a request: a page
                    check(status == 0 or 400 <= status < 500 or harmless, f"{sent[:80]!r}: {status}")
            round_of()
            before = server.resident_kb()
            round_of()
            check(os.environ.get("FOGWRIGHT_MEMORY_GROWS") or server.resident_kb() < before + 20_000, f"memory grew from {before} to {server.resident_kb()} kB")
            check(Person(server).ask("GET", "/health").status == 200, "no answer after all that")
            check(server.end() == 0, "the server did not stop in order")


main(killed_under_load, restored_from_backup, slow_clients, hostile_requests)
