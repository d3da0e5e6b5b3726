// SPDX-License-Identifier: Apache-2.0
// The desk on this device: the server's own code in WebAssembly, over the documents that the device keeps.
import { clock } from "./clock";
import { openDatabase, type KeptBook } from "./database";
import type { AskAnswer, BookEntry, Engine, OwnEntry, Snapshot } from "./engine";
import { randomHex, uuidV7 } from "./identity";
import { addToOutbox, countOutbox, outboxRows } from "./outbox";
import type { Who } from "./session";
import { alone } from "./tabs";

export interface DeskRequest {
  method: string;
  path: string;
  query?: Record<string, string> | undefined;
  body?: Record<string, unknown> | undefined;
  /** As src/api/operation.ts has them. */
  id?: string | undefined;
  endsFogOf?: string | undefined;
}

export class LocalDesk {
  /** The last row of the outbox that the engine has folded. */
  private folded = 0;
  private ready = false;
  private last: KeptBook["last"];
  private history: KeptBook["history"];
  private keptBy: KeptBook["program"];

  /** `program` names the engine: another one may make other documents of the same entries. */
  constructor(private readonly engine: Engine, private readonly program = "") {}

  /** Whether it has documents to decide by. */
  get stands(): boolean {
    return this.ready;
  }

  /** Whether this engine, and no earlier one, folded the entries that came since the documents. */
  get isCurrent(): boolean {
    return this.keptBy === this.program;
  }

  get size(): number {
    return this.engine.size();
  }

  answers(request: DeskRequest): boolean {
    return this.ready && this.engine.answers(request.method, request.path);
  }

  /** From what the device kept; false where it has kept nothing. */
  async open(): Promise<boolean> {
    const kept = await (await openDatabase()).get("book", "book");
    if (kept) await this.lay(kept);
    return this.ready;
  }

  /**
   * Begins with the office's documents; the outbox is laid on top. An office whose book was restored may have lost what it
   * said it has: that is sent again, and what it has it takes once.
   */
  async begin({ documents, size }: Snapshot): Promise<void> {
    await alone("book", async () => {
      const book: KeptBook = { documents, size, history: randomHex(8), program: this.program };
      const change = (await openDatabase()).transaction(["book", "outbox"], "readwrite", { durability: "strict" });
      void change.objectStore("book").put(book, "book");
      for (const row of await change.objectStore("outbox").getAll())
        if (row.state === "sent") void change.objectStore("outbox").put({ ...row, state: "waiting" });
      await change.done;
      await this.lay(book);
    });
    await countOutbox();
  }

  private async lay({ documents, size, last, history, program }: KeptBook): Promise<void> {
    this.engine.restore(documents, size);
    this.last = last;
    this.history = history;
    this.keptBy = program;
    this.folded = 0;
    this.ready = true;
    await this.foldOwn();
  }

  private async foldOwn(): Promise<void> {
    for (const row of await outboxRows()) {
      if ((row.n ?? 0) <= this.folded) continue;
      if (row.state !== "refused") this.engine.fold(row.entry);
      this.folded = row.n ?? 0;
    }
  }

  /** What another tab wrote or fetched. */
  async catchUp(): Promise<void> {
    if (!this.ready) return void (await this.open());
    const kept = await (await openDatabase()).get("book", "book");
    if (kept && (kept.size > this.engine.size() || kept.history !== this.history)) await alone("book", () => this.lay(kept));
    else {
      await this.foldOwn();
      for (const row of await outboxRows()) if (row.state === "refused") this.engine.drop(row.entry.id);
    }
    await countOutbox();
  }

  /** A write is durable in the outbox before its answer is given. */
  async ask(request: DeskRequest, who: Who): Promise<AskAnswer> {
    if (request.method === "GET") return this.put(request, who);
    return alone("book", async () => {
      await this.foldOwn();
      const answer = this.put(request, who);
      if (answer.entries.length > 0) await this.keep(answer.entries, request.endsFogOf);
      return answer;
    });
  }

  private put(request: DeskRequest, who: Who): AskAnswer {
    const moment = clock.moment();
    return this.engine.ask({
      method: request.method === "GET" ? "GET" : "POST",
      path: request.path,
      ...(request.query ? { query: request.query } : {}),
      ...(request.body ? { body: request.body } : {}),
      actor: who.handle,
      device: who.device,
      ...moment,
      ...(request.method === "GET" ? {} : { first_id: request.id ?? uuidV7(moment.now_ms), salt: randomHex(16) }),
    });
  }

  /** The engine has folded them already; where they cannot be kept it must forget them again. */
  private async keep(entries: OwnEntry[], endsFogOf?: string): Promise<void> {
    try {
      await addToOutbox(entries, endsFogOf);
    } catch (fault) {
      for (const entry of entries) this.engine.drop(entry.id);
      throw fault;
    }
    const rows = await outboxRows();
    this.folded = rows.at(-1)?.n ?? this.folded;
  }

  drop(id: string): void {
    this.engine.drop(id);
  }

  /** An own entry that came into the documents by another way. */
  async hasAlready(id: string): Promise<void> {
    this.engine.drop(id);
    const db = await openDatabase();
    const n = await db.getKeyFromIndex("outbox", "id", id);
    if (n !== undefined) await db.delete("outbox", n);
  }

  /** Whether a page of the office's book, from the last entry here on, goes on where this desk stands. */
  goesOn({ items, size }: { items: BookEntry[]; size: number }): boolean {
    const again = items.find((entry) => entry.seq === this.size - 1);
    return size >= this.size && (!again || !this.last || again.id === this.last);
  }

  /**
   * Entries of the book, in order; then they are kept, and what came back of the outbox leaves it, in one step. Whether any
   * was new: one that is there already tells only how the last one is called.
   */
  async take(entries: BookEntry[]): Promise<boolean> {
    const before = { size: this.size, last: this.last };
    for (const entry of entries) {
      this.engine.fold(entry);
      if (entry.seq === this.size - 1) this.last = entry.id;
    }
    if (this.size > before.size || this.last !== before.last) await this.keepBook(entries);
    return this.size > before.size;
  }

  private async keepBook(entries: BookEntry[]): Promise<void> {
    const known = new Set(entries.map((entry) => entry.id));
    const db = await openDatabase();
    const change = db.transaction(["book", "outbox"], "readwrite", { durability: "strict" });
    void change.objectStore("book").put({ ...this.engine.snapshot(), last: this.last, history: this.history, program: this.keptBy }, "book");
    for (const row of await change.objectStore("outbox").getAll())
      if (known.has(row.entry.id) && row.n !== undefined) void change.objectStore("outbox").delete(row.n);
    await change.done;
    await countOutbox();
  }
}
