// SPDX-License-Identifier: Apache-2.0
// The one door through which views ask and write. The device's own desk answers what it can; the rest, and everything
// while there is no such desk, the office.
import type { OperationId, Operations } from "../api/generated";
import { NoConnection, Refused } from "../api/http";
import { addressOf, type Call } from "../api/operation";
import { clock } from "./clock";
import { desk, deskIsOpen } from "./engines";
import { uuidV7 } from "./identity";
import type { DeskRequest, LocalDesk } from "./local_desk";
import { outboxCount } from "./outbox";
import { askOffice, session } from "./session";
import { syncSoon } from "./start";
import { throughOffice } from "./sync";
import { tellChange } from "./tabs";

function requestOf<Id extends OperationId>(id: Id, call: Call<Id>): DeskRequest {
  return {
    ...addressOf(id, call.path),
    query: call.query as Record<string, string> | undefined,
    body: call.body as Record<string, unknown> | undefined,
    id: call.id,
    endsFogOf: call.endsFogOf,
  };
}

/** Items of the largest page of a list (docs/openapi.json), as a query has it. */
export const largestPage = "500";

/**
 * A desk that comes while somebody writes through the office, or has yet to fetch what they wrote, would show them what
 * was before: an item that they have just met is open again. It answers once it has caught up, unless something waits here
 * that the office does not know.
 */
const isBehind = (local: LocalDesk): boolean => local.size <= throughOffice.newestSeq && outboxCount.value.waiting === 0;

/** Through the office alone: people, credentials, labels, and what asks for the password. */
export async function askOfficeFor<Id extends OperationId>(id: Id, call: Call<Id> = {}): Promise<Operations[Id]["answer"]> {
  const { endsFogOf: _endsFogOf, id: chosen, ...request } = requestOf(id, call);
  const writes = request.method !== "GET" && request.method !== "DELETE";
  const answer = await askOffice({ ...request, body: writes ? (request.body ?? {}) : undefined, ...(writes ? { id: chosen ?? uuidV7(clock.now()) } : {}) });
  if (answer.status >= 400) throw new Refused(answer.status, answer.body as object);
  if (wroteSomething(answer.body)) {
    throughOffice.newestSeq = Math.max(throughOffice.newestSeq, ...answer.body.entries.map(({ seq }) => seq ?? -1));
    tellChange();
    // The desk of this device has to hear of it, too.
    void syncSoon();
  }
  return answer.body as Operations[Id]["answer"];
}

const wroteSomething = (body: unknown): body is { entries: { seq?: number }[] } => ((body as { entries?: unknown[] }).entries?.length ?? 0) > 0;

/** Errors: Refused, with the desk's words; NoConnection, where only the office could answer. */
export async function ask<Id extends OperationId>(id: Id, call: Call<Id> = {}): Promise<Operations[Id]["answer"]> {
  const request = requestOf(id, call);
  await deskIsOpen();
  const local = desk.value;
  const { who } = session.value;
  if (!local || !who || !local.answers(request)) return askOfficeFor(id, call);
  // A write under one id: whichever of the two takes it in, it is one entry.
  const named = request.method === "GET" ? call : { ...call, id: call.id ?? uuidV7(clock.now()) };
  if (isBehind(local)) {
    try {
      return await askOfficeFor(id, named);
    } catch (fault) {
      if (!(fault instanceof NoConnection)) throw fault;
    }
  }
  const answer = await local.ask({ ...request, id: named.id }, who);
  if (answer.entries.length > 0) tellChange();
  if (answer.status >= 400) throw new Refused(answer.status, answer.body as object);
  return answer.body as Operations[Id]["answer"];
}
