// SPDX-License-Identifier: Apache-2.0
/**
 * The engine of the pages: plan and desk in WebAssembly, decided by the same code as on the server.
 *
 * A device keeps the book's documents up to one entry (`size`), and on top of them its own entries that the book does
 * not have yet. The usual course of a page:
 *
 *   const engine = await fogwright({locateFile: (name) => urlOf(name), sha256});
 *   engine.restore(saved.documents, saved.size);          // from GET /api/v1/documents, or an earlier snapshot()
 *   for (const entry of outbox) engine.fold(entry);       // own entries that are not sent yet, in order
 *   const answer = engine.ask({...});                     // a read or a write
 *   await outbox.add(answer.entries);                     // durable first, only then shown as done
 *   // sync: POST /api/v1/sync; drop(id) what it refuses; GET /api/v1/book/entries?from=size; fold(each item)
 *
 * Folding an entry that has a `seq` makes it part of the documents and takes the own entry of the same id off the pile;
 * the rest of the pile is laid on top anew. So an entry is never counted twice, in whatever order the answers come.
 */

/** A document of the book (docs/entries.md): what all entries so far add up to. */
export interface BookDocument {
  kind: string;
  key: string;
  body: Record<string, unknown>;
  /** false: closed, emptied, retired; left out by GET /api/v1/documents as far as nothing needs it. */
  live: boolean;
}

/** An entry as POST /api/v1/sync takes it. `ask` makes them; the outbox keeps them word for word. */
export interface OwnEntry {
  id: string;
  kind: string;
  happened_ms: number;
  body: Record<string, unknown>;
  /** Who made it, for folding it again after a reload; the server goes by who is signed in. */
  actor: string;
  device: string;
  /** What may have to be erased (a customer's name); kept beside the record. Salt as hexadecimal. */
  beside?: {salt: string; text: string};
}

/** An entry as GET /api/v1/book/entries gives it. */
export interface BookEntry extends Omit<OwnEntry, "beside"> {
  seq: number;
  received_ms: number;
  corrects?: string;
  reason?: string;
}

export interface AskRequest {
  method: "GET" | "POST";
  /** As over HTTP, percent-encoded, without the query: "/api/v1/jobs/J1/start". */
  path: string;
  query?: Record<string, string>;
  /** The members of the request, as over HTTP. A password is never handed in; leave it out. */
  body?: Record<string, unknown>;
  /** Who is signed in on this device, and what the session calls the device. */
  actor: string;
  device: string;
  /** Date.now() */
  now_ms: number;
  /**
   * A running clock that the calendar cannot turn: a random name of this page load, and performance.now() in whole
   * milliseconds. Time in which that clock stood still (a phone asleep) does not count for a hold: it gets longer, never
   * shorter. boot "" means there is none; then the calendar alone counts.
   */
  boot: string;
  uptime_ms: number;
  /** For writes: a new UUIDv7. Further entries of the same request get ids that derive from it, as on the server. */
  first_id?: string;
  /**
   * For writes that carry what may be erased (customer, address): 16 bytes of crypto.getRandomValues as hexadecimal.
   * Never used twice, and told to nobody but the server.
   */
  salt?: string;
}

export interface AskAnswer {
  /** As over HTTP: 200, 201, and 4xx with problem details (code, detail, where, hint). */
  status: number;
  /** The same members as the API's answer. `seq` of entries that are not sent yet is only this device's reckoning. */
  body: any;
  /** What was written, folded already; also of a refused start or release. Empty for reads and other refusals. */
  entries: OwnEntry[];
}

export interface Snapshot {
  /** The documents without the own entries: those live in the outbox. */
  documents: BookDocument[];
  size: number;
}

export interface Engine {
  /** A plan by the text of a label: JSON in, JSON text out (docs/plan-json.md). */
  plan(requestJson: string, labelToml: string): string;

  /** Begins anew with these documents; own entries must be folded again. */
  restore(documents: BookDocument[], size: number): void;
  /**
   * With `seq`: the next entry of the book. One that is there already changes nothing; one that leaves a gap throws: fetch
   * from `size` on. Without: an own entry out of the outbox.
   */
  fold(entry: BookEntry | OwnEntry): void;
  /** Takes an own entry off the pile, because the server refused it. */
  drop(id: string): void;
  /** Whether the device decides this by itself; all else asks the server (people, credentials, labels, papers). */
  answers(method: string, path: string): boolean;
  ask(request: AskRequest): AskAnswer;
  snapshot(): Snapshot;
  /** Entries of the book that the documents hold: fetch from here on. */
  size(): number;
}

/** Faulty input to restore, fold or drop is thrown as an Error with the engine's words. */
export interface EngineOptions {
  /** Where fogwright_wasm.wasm is; else beside the script. */
  locateFile?: (name: string, folder: string) => string;
  wasmBinary?: ArrayBuffer | Uint8Array;
  /**
   * SHA-256 of these bytes, at once (WebCrypto answers only later): `sha256` of @noble/hashes in a page, node:crypto's
   * createHash in a test. Ids and salted hashes are made with it.
   */
  sha256: (bytes: Uint8Array) => Uint8Array;
}

/**
 * What fogwright_wasm.js exports (CommonJS, or the global `fogwright`). fogwright_plan_wasm.js exports the same, but its
 * engine has `plan` alone: two thirds of the size, for a page that wants a plan before all is loaded.
 */
declare function fogwright(options: EngineOptions): Promise<Engine>;
export default fogwright;
