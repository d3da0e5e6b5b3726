// SPDX-License-Identifier: Apache-2.0
// The server's side of a device: takes entries once, in order, and can be out of reach at any moment.
import type { BookEntry, OwnEntry } from "../../../src/data/engine";

export class FakeOffice {
  book: BookEntry[] = [];
  refuses = new Set<string>();
  batches = 0;
  /** What happens to the request with this number (counted from 1): lost on its way, or its answer is. */
  trouble: "none" | "request-lost" | "answer-lost" = "none";
  signedIn = true;
  /** Entries are not given out yet. */
  slow = false;
  documents = 0;
  /** How many entries each request for them got. */
  gaveOut: number[] = [];

  install(): void {
    globalThis.fetch = (async (input: string, init: RequestInit) => {
      if (this.trouble === "request-lost") throw new TypeError("no network");
      const answer = this.answer(String(input), init);
      if (this.trouble === "answer-lost") throw new TypeError("no network");
      return answer;
    }) as typeof fetch;
  }

  private answer(target: string, init: RequestInit): Response {
    const json = (status: number, body: unknown) => new Response(JSON.stringify(body), { status });
    const url = new URL(target, "http://office");
    if (!this.signedIn) return json(401, { detail: "nobody is signed in" });
    if (url.pathname === "/api/v1/session") return json(200, { handle: "sedge", roles: ["technician"], device: "phone", session: "s", csrf_token: "t" });
    if (url.pathname === "/api/v1/documents") return json(200, this.snapshot());
    if (url.pathname === "/api/v1/book/entries") return json(200, this.entries(url.searchParams));
    if (url.pathname === "/api/v1/sync") return json(200, this.take(JSON.parse(String(init.body)) as { entries: OwnEntry[] }));
    if (url.pathname === "/api/v1/jobs") return json(200, { items: this.book.map((entry) => entry.id) });
    if (url.pathname === "/api/v1/crew") return json(201, { entries: [this.write()], departures: [], already_there: false });
    return json(404, { detail: "nothing" });
  }

  private snapshot(): unknown {
    this.documents++;
    return { documents: this.book.map(({ id }) => ({ kind: "entry", key: id, body: {}, live: true })), size: this.book.length };
  }

  private entries(query: URLSearchParams): unknown {
    const from = Number(query.get("from"));
    const items = this.slow ? [] : this.book.slice(from, from + Number(query.get("limit")));
    this.gaveOut.push(items.length);
    return { items, next: 0, size: this.book.length };
  }

  /** From a backup of when the book was that long. */
  restore(size: number): void {
    this.book = this.book.slice(0, size);
  }

  /** An entry that came another way than by a device's outbox. */
  write(id = `office-${this.book.length}`): BookEntry {
    const entry: BookEntry = { id, kind: "note", happened_ms: 0, body: {}, actor: "sedge", device: "phone", seq: this.book.length, received_ms: 0 };
    this.book.push(entry);
    return entry;
  }

  private take({ entries }: { entries: OwnEntry[] }): unknown {
    if (entries.length > 0) this.batches++;
    const results = entries.map((entry) => {
      if (this.refuses.has(entry.id)) return { id: entry.id, result: "refused", code: "not-permitted", detail: "your role does not allow this" };
      const seq = this.book.findIndex((one) => one.id === entry.id);
      if (seq >= 0) return { id: entry.id, result: "already-there", seq };
      this.book.push({ ...entry, actor: "sedge", device: "phone", seq: this.book.length, received_ms: 0 });
      return { id: entry.id, result: "accepted" };
    });
    return { results, clock_off_ms: 0, size: this.book.length };
  }
}
