# SPDX-License-Identifier: Apache-2.0
"""The program as people run it, and people who talk to it: for the tests of the server that are written in Python."""
import http.client, json, os, pathlib, re, secrets, signal, ssl, subprocess, sys, tempfile, threading, time, urllib.parse

ROOT = pathlib.Path(__file__).resolve().parents[2]
PASSWORD = "quiet reeds under a slate sky"


def uuid7(ms=None):
    ms = int(time.time() * 1000) if ms is None else ms
    number = (ms << 80) | (7 << 76) | (secrets.randbits(12) << 64) | (2 << 62) | secrets.randbits(62)
    text = f"{number:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def check(truth, words):
    if not truth:
        raise AssertionError(words)


def run(program, *words, book, ok=True, env=None):
    done = subprocess.run([program, *words], capture_output=True, text=True, timeout=120,
                          env={**os.environ, "FOGWRIGHT_BOOK": book, "FOGWRIGHT_BY": "marrow", **(env or {})})
    check(not ok or done.returncode == 0, f"fogwright {' '.join(words)}: {done.returncode}\n{done.stdout}{done.stderr}")
    return done


def new_folder():
    """On the disk of the build where a book's durability is looked at, not in memory."""
    return tempfile.TemporaryDirectory(prefix="fogwright-shop-", dir=os.environ.get("FOGWRIGHT_TEST_FOLDER"))


class Server:
    """One `fogwright serve`."""

    def __init__(self, program, book, *more, env=None, cafile=None):
        self.lines, self.token, self.cafile = [], None, cafile
        started = threading.Event()
        self.process = subprocess.Popen([program, "serve", "--book", book, "--port", "0", *more], text=True,
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env={**os.environ, **(env or {})})

        def hear(stream):
            for line in stream:
                self.lines.append(line)
                if found := re.search(r"#([0-9a-f]{64})", line):
                    self.token = found[1]
                if found := re.search(r" at (https?)://([^/\s]+?):(\d+)$", line.strip()):
                    self.secure, self.port = found[1] == "https", int(found[3])
                    started.set()
            started.set()

        self.hearers = [threading.Thread(target=hear, args=(stream,), daemon=True)
                        for stream in (self.process.stdout, self.process.stderr)]
        for one in self.hearers:
            one.start()
        check(started.wait(60) and hasattr(self, "port"), "the server did not start: " + "".join(self.lines))

    def wait_for_token(self):
        deadline = time.time() + 10
        while self.token is None and time.time() < deadline:
            time.sleep(0.02)
        check(self.token, "the server printed no invitation")
        return self.token

    def resident_kb(self):
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmRSS:\s+(\d+)", status)[1])

    def end(self, how=signal.SIGTERM):
        self.process.send_signal(how)
        code = self.process.wait(30)
        for one in self.hearers:
            one.join(10)
        return code

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.end(signal.SIGKILL)


class Answer:
    def __init__(self, status, headers, body):
        self.status, self.headers, self.body = status, headers, body

    @property
    def json(self):
        return json.loads(self.body)


class Person:
    """Somebody at a device, over one connection that is kept."""

    def __init__(self, server):
        self.server, self.cookie, self.csrf, self.connection = server, None, None, None

    def _connect(self):
        if self.server.secure:
            context = ssl.create_default_context(cafile=self.server.cafile)
            return http.client.HTTPSConnection("localhost", self.server.port, timeout=30, context=context)
        return http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=30)

    def ask(self, method, path, body=None, id=None):
        """One request; raises OSError or HTTPException where no answer came. A connection that the server has ended
        meanwhile is made anew, as browsers do: the id of an entry keeps it from being written twice."""
        headers = {"Cookie": self.cookie} if self.cookie else {}
        if method != "GET":
            headers.update({"Content-Type": "application/json", "Idempotency-Key": f'"{id or uuid7()}"'})
            if self.csrf:
                headers["X-CSRF-Token"] = self.csrf
        kept = self.connection is not None
        try:
            return self._exchange(method, path, body, headers)
        except (OSError, http.client.HTTPException):
            self.hang_up()
            if not kept:
                raise
        try:
            return self._exchange(method, path, body, headers)
        except (OSError, http.client.HTTPException):
            self.hang_up()
            raise

    def _exchange(self, method, path, body, headers):
        if self.connection is None:
            self.connection = self._connect()
        self.connection.request(method, urllib.parse.quote(path, safe="/?&=%#:"),
                                None if body is None else json.dumps(body), headers)
        got = self.connection.getresponse()
        answer = Answer(got.status, got.headers, got.read())
        if got.will_close:
            self.hang_up()
        return answer

    def hang_up(self):
        if self.connection is not None:
            self.connection.close()
        self.connection = None

    def done(self, method, path, body=None, id=None):
        answer = self.ask(method, path, body, id)
        check(answer.status < 300, f"{method} {path}: {answer.status} {answer.body[:600]}")
        return answer.json

    def refused(self, status, method, path, body=None):
        answer = self.ask(method, path, body)
        check(answer.status == status, f"{method} {path}: {answer.status}, not {status}: {answer.body[:600]}")
        return answer.json

    def took(self, answer):
        """Remembers the session that an answer opened."""
        check(answer.status == 200, f"not signed in: {answer.status} {answer.body[:600]}")
        self.cookie = answer.headers["Set-Cookie"].split(";")[0]
        self.csrf = answer.json["csrf_token"]
        return self

    def choose_password(self, token, handle, device):
        return self.took(self.ask("POST", "/api/v1/password", {"token": token, "handle": handle, "password": PASSWORD,
                                                               "device": device}))

    def sign_in(self, handle, device):
        return self.took(self.ask("POST", "/api/v1/session", {"handle": handle, "password": PASSWORD, "device": device}))

    def invite(self, handle, device):
        """Somebody new chooses a password by the link that this person hands them."""
        link = self.done("POST", f"/api/v1/crew/{handle}/invitation", {"password": PASSWORD})
        return Person(self.server).choose_password(link["link"].split("#")[1], handle, device)


def new_book(program, book, env=None):
    run(program, "book", "create", "--origin", "quillfen.example/books", book=book, env=env)


def every_entry(person):
    """All entries, page by page."""
    entries, at = [], 0
    while True:
        page = person.done("GET", f"/api/v1/book/entries?from={at}&limit=1000")
        entries += page["items"]
        if page["next"] >= page["size"]:
            return entries
        at = page["next"]


class Writers:
    """Several people who write all the time, and remember what was acknowledged."""

    def __init__(self, make_person, count):
        self.make_person, self.count = make_person, count
        self.acknowledged, self.refusals, self.lock, self.stopping = {}, [], threading.Lock(), False
        self.threads = [threading.Thread(target=self._write, args=(n,), daemon=True) for n in range(count)]

    def _write(self, number):
        person = self.make_person(number)
        while not self.stopping:
            id = uuid7()
            # What was not answered is sent again under the same id until it is.
            while not self.stopping:
                try:
                    answer = person.ask("POST", "/api/v1/places/heron/temperatures", {"temperature": "68 F"}, id)
                except (OSError, http.client.HTTPException):
                    time.sleep(0.05)
                    continue
                if answer.status in (200, 201):
                    with self.lock:
                        self.acknowledged[id] = answer.json["entries"][0]["seq"]
                    break
                with self.lock:
                    self.refusals.append((answer.status, answer.json))
                time.sleep(0.05)

    def start(self):
        for thread in self.threads:
            thread.start()
        return self

    def wait_for(self, count, seconds=60):
        deadline = time.time() + seconds
        while len(self.acknowledged) < count and time.time() < deadline:
            time.sleep(0.01)
        check(len(self.acknowledged) >= count, f"only {len(self.acknowledged)} of {count} entries were acknowledged: "
                                               f"{self.refusals[:3]}")

    def stop(self):
        self.stopping = True
        for thread in self.threads:
            thread.join(60)

    def check_all_there(self, entries):
        """Every acknowledged entry, once, at the number that was told; numbers without a gap."""
        check([one["seq"] for one in entries] == list(range(len(entries))), "the numbers have a gap")
        where = {}
        for one in entries:
            check(one["id"] not in where, f"{one['id']} stands twice")
            where[one["id"]] = one["seq"]
        for id, seq in self.acknowledged.items():
            check(where.get(id) == seq, f"{id} was acknowledged as {seq} and is at {where.get(id)}")


def main(*tests):
    program = sys.argv[1]
    for test in tests:
        begin = time.time()
        test(program)
        print(f"{test.__name__}: ok, {time.time() - begin:.1f} s", flush=True)
