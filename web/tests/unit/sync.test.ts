// SPDX-License-Identifier: Apache-2.0
import { browser } from "./help/browser";
import assert from "node:assert/strict";
import test, { beforeEach } from "node:test";
import { ask, askOfficeFor } from "../../src/data/ask";
import { openDatabase } from "../../src/data/database";
import { desk as shownDesk } from "../../src/data/engines";
import { LocalDesk } from "../../src/data/local_desk";
import { forgetRefused, outboxCount, outboxRows } from "../../src/data/outbox";
import { session } from "../../src/data/session";
import { syncOnce, syncState } from "../../src/data/sync";
import { FakeEngine } from "./help/fake_engine";
import { FakeOffice } from "./help/fake_office";

// Writing through the office sets off rounds half a minute apart: those keep no test alive.
const later = globalThis.setTimeout;
globalThis.setTimeout = ((run: () => void, ms = 0) => {
  const timer = later(run, ms);
  if (ms >= 10_000) timer.unref();
  return timer;
}) as typeof setTimeout;

const sedge = { handle: "sedge", roles: ["technician"], device: "phone" };

let office: FakeOffice;
let engine: FakeEngine;
let desk: LocalDesk;

beforeEach(async () => {
  const db = await openDatabase();
  for (const store of ["book", "outbox", "kept"] as const) await db.clear(store);
  office = new FakeOffice();
  office.install();
  session.set({ state: "in", who: sedge, csrf: "t" });
  engine = new FakeEngine();
  desk = new LocalDesk(engine);
  assert.ok(await syncOnce(desk), syncState.value.words);
});

const write = async (what = "start") => (await desk.ask({ method: "POST", path: `/api/v1/jobs/J1/${what}` }, sedge)).entries[0]!.id;
/** As after a crash: nothing is left but the database. */
async function reopen(): Promise<FakeEngine> {
  engine = new FakeEngine();
  desk = new LocalDesk(engine);
  await desk.open();
  return engine;
}

test("an entry is in the outbox before the write is answered, and survives a crash", async () => {
  office.trouble = "request-lost";
  const id = await write();
  assert.deepEqual((await outboxRows()).map((row) => [row.entry.id, row.state]), [[id, "waiting"]]);
  assert.deepEqual((await reopen()).seen(), [id]);
});

test("what cannot be kept is not done: the desk forgets it, and the write fails", async () => {
  const asked = engine.ask.bind(engine);
  engine.ask = (request) => {
    const answer = asked(request);
    // The second of two entries cannot be stored: neither may be.
    const unstorable = { ...answer.entries[0]!, id: "second", body: { text: () => 0 } };
    engine.fold(unstorable);
    return { ...answer, entries: [...answer.entries, unstorable] };
  };
  await assert.rejects(write());
  assert.deepEqual(engine.seen(), []);
  assert.deepEqual(await outboxRows(), []);
});

test("with a signal entries reach the book once and leave the outbox", async () => {
  const ids = [await write("a"), await write("b"), await write("c")];
  assert.ok(await syncOnce(desk));
  assert.deepEqual(office.book.map((entry) => entry.id), ids);
  assert.deepEqual(await outboxRows(), []);
  assert.deepEqual(engine.seen(), ids);
  assert.deepEqual((await reopen()).seen(), ids);
});

test("an answer that is lost sends the batch again, and the book has it once", async () => {
  const id = await write();
  office.trouble = "answer-lost";
  assert.equal(await syncOnce(desk), false);
  assert.equal(syncState.value.now, "no-signal");
  assert.equal(outboxCount.value.waiting, 1);
  office.trouble = "none";
  await reopen();
  assert.ok(await syncOnce(desk));
  assert.deepEqual(office.book.map((entry) => entry.id), [id]);
  assert.deepEqual(await outboxRows(), []);
});

test("what the office refuses stays in sight until somebody has read why", async () => {
  const good = await write("a");
  const bad = await write("b");
  office.refuses.add(bad);
  assert.ok(await syncOnce(desk));
  assert.deepEqual((await outboxRows()).map((row) => [row.entry.id, row.state, row.reply?.detail]), [[bad, "refused", "your role does not allow this"]]);
  assert.deepEqual(outboxCount.value, { waiting: 0, refused: 1 });
  assert.deepEqual(engine.seen(), [good], "the desk goes on without it");
  await syncOnce(desk);
  assert.equal(office.batches, 1, "it is not sent again");
  await forgetRefused(bad);
  assert.deepEqual(await outboxRows(), []);
});

test("what waits is not taken off the list by hand", async () => {
  const id = await write();
  await forgetRefused(id);
  assert.equal((await outboxRows()).length, 1);
});

test("entries of somebody else wait for them", async () => {
  const id = await write();
  session.set({ state: "in", who: { ...sedge, handle: "bracken" }, csrf: "t" });
  assert.ok(await syncOnce(desk));
  assert.equal(office.book.length, 0);
  session.set({ state: "in", who: sedge, csrf: "t" });
  assert.ok(await syncOnce(desk));
  assert.deepEqual(office.book.map((entry) => entry.id), [id]);
});

test("a sign-in that ran out keeps everything", async () => {
  await write();
  office.signedIn = false;
  assert.equal(await syncOnce(desk), false);
  assert.equal(session.value.state, "expired");
  assert.equal(session.value.who?.handle, "sedge");
  assert.equal(outboxCount.value.waiting, 1);
});

test("another tab takes in what this one wrote and fetched", async () => {
  const otherEngine = new FakeEngine();
  const other = new LocalDesk(otherEngine);
  await other.open();
  const id = await write();
  await other.catchUp();
  assert.deepEqual(otherEngine.seen(), [id]);
  await syncOnce(desk);
  await other.catchUp();
  assert.deepEqual(otherEngine.seen(), [id]);
  assert.equal(other.size, 1);
});

test("two tabs that send at once send each entry once", async () => {
  const held = new Set<string>();
  browser.locks = {
    request: async (name: string, a: unknown, b?: unknown) => {
      const work = (b ?? a) as (lock: unknown) => Promise<unknown>;
      if (b && held.has(name)) return work(null);
      while (held.has(name)) await new Promise((resolve) => setTimeout(resolve, 1));
      held.add(name);
      return work({}).finally(() => held.delete(name));
    },
  };
  await write("a");
  const other = new LocalDesk(new FakeEngine());
  await other.open();
  await Promise.all([syncOnce(desk), syncOnce(other), syncOnce(other)]);
  assert.equal(office.batches, 1);
  assert.equal(office.book.length, 1);
});

test("an ordinary round asks once, and gets no more than one entry that it has", async () => {
  for (let n = 0; n < 3; n++) office.write();
  await syncOnce(desk);
  office.gaveOut = [];
  await syncOnce(desk);
  assert.deepEqual(office.gaveOut, [1]);
  office.write();
  office.write();
  await syncOnce(desk);
  assert.deepEqual(office.gaveOut, [1, 3]);
  for (let n = 0; n < 1200; n++) office.write();
  office.gaveOut = [];
  await syncOnce(desk);
  assert.deepEqual([desk.size, office.gaveOut], [1205, [500, 500, 201]]);
  assert.equal(office.documents, 1);
});

/** Of four entries that are here two are in the backup that the office goes on with; one more waits here. */
async function restored(): Promise<{ waiting: string[] }> {
  for (let n = 0; n < 4; n++) office.write();
  await syncOnce(desk);
  const waiting = [await write("a")];
  office.restore(2);
  return { waiting };
}

test("a book that was restored and is shorter now is begun anew, with what waits on top", async () => {
  const { waiting } = await restored();
  assert.ok(await syncOnce(desk), syncState.value.words);
  assert.equal(office.documents, 2);
  assert.deepEqual(office.book.map((entry) => entry.id), ["office-0", "office-1", ...waiting]);
  assert.deepEqual(engine.seen(), ["office-0", "office-1", ...waiting]);
  assert.deepEqual(await outboxRows(), []);
  office.write("later");
  await syncOnce(desk);
  assert.equal(office.documents, 2, "from then on it is the book that it goes by");
  assert.deepEqual((await reopen()).seen(), ["office-0", "office-1", ...waiting, "later"]);
});

test("a book that was restored and has grown past the size here is told by its entries", async () => {
  const { waiting } = await restored();
  for (let n = 0; n < 9; n++) office.write(`other-${n}`);
  await reopen();
  assert.ok(await syncOnce(desk), syncState.value.words);
  assert.equal(office.documents, 2);
  assert.deepEqual(engine.seen(), office.book.map((entry) => entry.id));
  assert.deepEqual(office.book.at(-1)?.id, waiting[0]);
});

test("entries of somebody else and refused ones outlast a book that was restored", async () => {
  const { waiting } = await restored();
  const bad = await write("b");
  office.refuses.add(bad);
  session.set({ state: "in", who: { ...sedge, handle: "bracken" }, csrf: "t" });
  assert.ok(await syncOnce(desk));
  assert.deepEqual(engine.seen(), ["office-0", "office-1", ...waiting, bad]);
  session.set({ state: "in", who: sedge, csrf: "t" });
  await syncOnce(desk);
  assert.deepEqual((await outboxRows()).map((row) => [row.entry.id, row.state]), [[bad, "refused"]]);
  office.restore(0);
  await syncOnce(desk);
  assert.deepEqual((await outboxRows()).map((row) => [row.entry.id, row.state]), [[bad, "refused"]]);
  assert.deepEqual(engine.seen(), []);
});

test("what the office had and lost with its book before it came back is sent again", async () => {
  for (let n = 0; n < 3; n++) office.write();
  await syncOnce(desk);
  const id = await write();
  office.slow = true;
  await syncOnce(desk);
  assert.deepEqual((await outboxRows()).map((row) => row.state), ["sent"]);
  office.slow = false;
  office.restore(1);
  assert.ok(await syncOnce(desk));
  assert.deepEqual(office.book.map((entry) => entry.id), ["office-0", id]);
  assert.deepEqual([engine.seen(), await outboxRows()], [["office-0", id], []]);
});

test("a signal that goes while it begins anew leaves what was kept, and the next round begins anew", async () => {
  const { waiting } = await restored();
  const fetched = globalThis.fetch;
  globalThis.fetch = (async (input: string, init: RequestInit) => {
    if (String(input).includes("/documents")) throw new TypeError("no network");
    return fetched(input, init);
  }) as typeof fetch;
  assert.equal(await syncOnce(desk), false);
  assert.deepEqual((await reopen()).seen(), ["office-0", "office-1", "office-2", "office-3", ...waiting]);
  globalThis.fetch = fetched;
  assert.ok(await syncOnce(desk));
  assert.deepEqual(engine.seen(), ["office-0", "office-1", ...waiting]);
});

test("where the last entry is not known yet it is learnt, and goes on counting from there", async () => {
  for (let n = 0; n < 3; n++) office.write();
  await syncOnce(desk);
  const db = await openDatabase();
  const { documents, size, program } = (await db.get("book", "book"))!;
  await db.put("book", { documents, size, program }, "book");
  await reopen();
  await syncOnce(desk);
  assert.equal(office.documents, 1);
  assert.equal((await db.get("book", "book"))?.last, "office-2");
  office.restore(1);
  for (const id of ["x", "y", "z"]) office.write(id);
  await reopen();
  await syncOnce(desk);
  assert.deepEqual([office.documents, engine.seen()], [2, ["office-0", "x", "y", "z"]]);
});

test("documents that an earlier engine kept are fetched anew with a signal, and decided by until then", async () => {
  const id = await write();
  engine = new FakeEngine();
  desk = new LocalDesk(engine, "engine-2");
  await desk.open();
  assert.ok(desk.stands);
  assert.ok(!desk.isCurrent);
  assert.ok((await reopen()).seen().includes(id));
  engine = new FakeEngine();
  desk = new LocalDesk(engine, "engine-2");
  await desk.open();
  const before = office.documents;
  assert.ok(await syncOnce(desk), syncState.value.words);
  assert.ok(desk.isCurrent);
  assert.ok(await syncOnce(desk), syncState.value.words);
  assert.equal(office.documents, before + 1);
  desk = new LocalDesk(new FakeEngine(), "engine-2");
  await desk.open();
  assert.ok(desk.isCurrent);
});

test("another tab takes over a book that was begun anew, also where it is no longer than its own", async () => {
  const otherEngine = new FakeEngine();
  const other = new LocalDesk(otherEngine);
  await restored();
  await other.open();
  office.write("x");
  await syncOnce(desk);
  await other.catchUp();
  assert.deepEqual(otherEngine.seen(), engine.seen());
  assert.equal(other.size, 4);
});

test("what was written through the office is not taken back by a desk that has yet to hear of it", async () => {
  shownDesk.set(desk);
  const jobs = () => ask("listJobs") as unknown as Promise<{ items?: string[] } | string[]>;
  assert.deepEqual(await jobs(), [], "the desk of the device answers");
  office.slow = true;
  await askOfficeFor("enrol", { body: { handle: "dunlin", roles: ["technician"] } });
  assert.deepEqual(await jobs(), { items: ["office-0"] }, "the office, since the desk is behind");
  await assert.rejects(ask("startJob", { path: { job: "J1" } }), "the office decides, too: this one does not know the address");
  office.trouble = "request-lost";
  assert.deepEqual(await jobs(), [], "without a signal what the device has");
  office.trouble = "none";
  office.slow = false;
  // Writing had set off a round of its own, which may still be under way.
  for (let tries = 0; !(await syncOnce(desk)) && tries < 50; tries++) await new Promise((resolve) => setTimeout(resolve, 20));
  assert.deepEqual(await jobs(), ["office-0"], "the desk again");
  shownDesk.set(null);
});
