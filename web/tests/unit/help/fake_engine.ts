// SPDX-License-Identifier: Apache-2.0
// An engine that keeps books by counting: each write makes one entry, and a read tells which entries it has folded.
import type { AskAnswer, AskRequest, BookDocument, BookEntry, Engine, OwnEntry } from "../../../src/data/engine";

export class FakeEngine implements Engine {
  private documents: BookDocument[] = [];
  private have = 0;
  folded: string[] = [];
  private own: OwnEntry[] = [];

  plan = () => "{}";
  answers = (_method: string, path: string) => path.startsWith("/api/v1/jobs");
  size = () => this.have;
  snapshot = () => ({ documents: this.documents, size: this.have });

  restore(documents: BookDocument[], size: number): void {
    this.documents = documents;
    this.have = size;
    this.own = [];
    this.folded = documents.map((document) => document.key);
  }

  fold(entry: BookEntry | OwnEntry): void {
    if (!("seq" in entry)) return void this.own.push(entry);
    if (entry.seq > this.have) throw new Error(`a gap: ${entry.seq} after ${this.have}`);
    if (entry.seq < this.have) return;
    this.have = entry.seq + 1;
    this.documents = [...this.documents, { kind: "entry", key: entry.id, body: {}, live: true }];
    this.own = this.own.filter((one) => one.id !== entry.id);
  }

  drop(id: string): void {
    this.own = this.own.filter((one) => one.id !== id);
  }

  /** Ids of everything that counts: the book's, then the own ones. */
  seen = (): string[] => [...this.documents.map((document) => document.key), ...this.own.map((entry) => entry.id)];

  ask(request: AskRequest): AskAnswer {
    if (request.method === "GET") return { status: 200, body: this.seen(), entries: [] };
    const entry: OwnEntry = { id: request.first_id ?? "", kind: "note", happened_ms: request.now_ms, body: { text: request.path }, actor: request.actor, device: request.device };
    this.own.push(entry);
    return { status: 201, body: { entries: [entry] }, entries: [entry] };
  }
}
