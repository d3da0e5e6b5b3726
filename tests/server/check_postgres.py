#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""check_postgres.py PROGRAM: servers over one database. Run by scripts/with-postgres."""
import os, subprocess, time
from shop import *


def control(what):
    subprocess.run([os.environ["FOGWRIGHT_TEST_POSTGRES"], what], check=True)


def address(schema):
    return f"postgresql:///?schema={schema}"


def opened(program, book, folder):
    """A book on the database, its owner, and the environment of the programs."""
    env = {"HOME": folder}
    new_book(program, book, env=env)
    return env


def two_servers(program):
    """Two servers write to one database at once: one order, no gap, everything that was acknowledged."""
    with new_folder() as folder:
        book = address("two_servers")
        env = opened(program, book, folder)
        accounts = f"{folder}/one"
        with Server(program, book, "--accounts", accounts, env=env) as one:
            owner = Person(one).choose_password(one.wait_for_token(), "marrow", "office")
            owner.done("POST", "/api/v1/places", {"place": "heron", "type": "van"})
            # The other server has a file of accounts of its own.
            with Server(program, book, "--accounts", f"{folder}/two", env=env) as two:
                other = Person(two).choose_password(two.wait_for_token(), "marrow", "branch")
                servers = [one, two]
                sessions = [owner, other]

                def somebody(number):
                    person = Person(servers[number % 2])
                    person.cookie, person.csrf = sessions[number % 2].cookie, sessions[number % 2].csrf
                    return person

                writers = Writers(somebody, 6).start()
                writers.wait_for(150)
                writers.stop()
                check(not writers.refusals, f"refused: {writers.refusals[:3]}")
                here, there = every_entry(owner), every_entry(other)
                check(here == there, "the two servers tell different entries")
                writers.check_all_there(here)
                # The same request at both servers is one entry.
                id = uuid7()
                first = owner.done("POST", "/api/v1/places/heron/temperatures", {"temperature": "68 F"}, id)
                again = other.done("POST", "/api/v1/places/heron/temperatures", {"temperature": "68 F"}, id)
                check(again["already_there"] and again["entries"] == first["entries"], f"{first} {again}")
        run(program, "book", "verify", book=book, env=env)


def restarted_under_load(program):
    """The database is restarted as after a power cut, three times: clear errors, then writing goes on by itself."""
    with new_folder() as folder:
        book = address("restarted")
        env = opened(program, book, folder)
        with Server(program, book, env=env) as server:
            owner = Person(server).choose_password(server.wait_for_token(), "marrow", "office")
            owner.done("POST", "/api/v1/places", {"place": "heron", "type": "van"})

            def somebody(_):
                person = Person(server)
                person.cookie, person.csrf = owner.cookie, owner.csrf
                return person

            writers = Writers(somebody, 4).start()
            for restarts in range(3):
                writers.wait_for(20 * (restarts + 1))
                control("restart")
            writers.wait_for(len(writers.acknowledged) + 30)
            control("stop")
            # While it is gone: 503 with what to do, also for readers; the server itself stays.
            told = owner.refused(503, "GET", "/api/v1/jobs")
            check(told["code"] == "storage-fault" and told["hint"], f"{told}")
            control("start")
            writers.wait_for(len(writers.acknowledged) + 30)
            writers.stop()
            for status, told in writers.refusals:
                check(status == 503 and told["code"] in ("storage-fault", "storage-busy") and told["hint"], f"{status}: {told}")
                check("postgres" not in str(told), f"{told}")
            writers.check_all_there(every_entry(owner))
            check(server.end() == 0, "the server did not stop in order")
        run(program, "book", "verify", book=book, env=env)


def no_password_is_shown(program):
    """A password in the address stands in no output, no log line, no argument that other users can see."""
    with new_folder() as folder:
        book = f"postgresql://{os.environ['PGUSER']}:hush-hush@/?host={os.environ['PGHOST']}&schema=quiet"
        env = opened(program, book, folder)
        with Server(program, book, env=env) as server:
            seen = open(f"/proc/{server.process.pid}/cmdline").read()
            check("hush" not in seen, f"{seen!r}")
            control("stop")
            check(Person(server).ask("GET", "/health").status == 503, "healthy without a database")
            control("start")
            check(server.end() == 0, "the server did not stop in order")
            check("hush" not in "".join(server.lines), "".join(server.lines))


main(two_servers, restarted_under_load, no_password_is_shown)
