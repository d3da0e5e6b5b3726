// SPDX-License-Identifier: Apache-2.0
// Who works with this device. The cookie is the browser's own business; here are the name, the roles and the token that
// changes carry. Without a signal the last one who signed in goes on working; what they write is sent when they are
// signed in again.
import type { SignedIn } from "../api/generated";
import { NoConnection, Refused, send, type HttpRequest } from "../api/http";
import { Observable } from "../observable";

export interface Who {
  handle: string;
  roles: string[];
  device: string;
}

export interface Session {
  /** unreached: the office did not answer yet; expired: it wants the password again; out: nobody is signed in here. */
  state: "checking" | "in" | "unreached" | "expired" | "out";
  who: Who | null;
  csrf: string;
}

const storageKey = "fogwright.who";

function remembered(): Who | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(storageKey) ?? "null");
    return kept && typeof (kept as Who).handle === "string" && Array.isArray((kept as Who).roles) ? (kept as Who) : null;
  } catch {
    return null;
  }
}

export const session = new Observable<Session>({ state: "checking", who: remembered(), csrf: "" });

export const hasRole = (role: string): boolean => session.value.who?.roles.includes(role) ?? false;

function enter(body: unknown): void {
  const { handle, roles, device, csrf_token } = body as SignedIn;
  const who = { handle, roles, device };
  const before = session.value;
  // The same as before is no news to anybody.
  if (before.state === "in" && before.csrf === csrf_token && JSON.stringify(before.who) === JSON.stringify(who)) return;
  localStorage.setItem(storageKey, JSON.stringify(who));
  session.set({ state: "in", who, csrf: csrf_token });
}

function notIn(): void {
  const { who } = session.value;
  session.set({ state: who ? "expired" : "out", who, csrf: "" });
}

/** Asks the office who is signed in. */
export async function checkSession(): Promise<void> {
  try {
    const answer = await send({ method: "GET", path: "/api/v1/session" });
    if (answer.status === 200) enter(answer.body);
    else if (answer.status === 401 || answer.status === 403) notIn();
  } catch (fault) {
    if (!(fault instanceof NoConnection)) throw fault;
    const { who } = session.value;
    session.set({ state: who ? "unreached" : "out", who, csrf: "" });
  }
}

export async function signIn(handle: string, password: string, device: string): Promise<void> {
  const answer = await send({ method: "POST", path: "/api/v1/session", body: { handle, password, ...(device ? { device } : {}) } });
  if (answer.status !== 200) throw new Refused(answer.status, answer.body as object);
  enter(answer.body);
}

/** By the link that another device of the same person shows; it works once. */
export async function joinByLink(token: string, device: string): Promise<void> {
  const answer = await send({ method: "POST", path: "/api/v1/devices", body: { token, device } });
  if (answer.status !== 200) throw new Refused(answer.status, answer.body as object);
  enter(answer.body);
}

/** The caller has made sure that nothing waits to be sent. */
export async function signOut(): Promise<void> {
  const answer = await askOffice({ method: "DELETE", path: "/api/v1/session" });
  if (answer.status >= 400 && answer.status !== 401) throw new Refused(answer.status, answer.body as object);
  localStorage.removeItem(storageKey);
  session.set({ state: "out", who: null, csrf: "" });
}

/** A request of whoever is signed in. */
export async function askOffice(request: HttpRequest): Promise<Awaited<ReturnType<typeof send>>> {
  if (session.value.state === "unreached" || session.value.state === "checking") await checkSession();
  const answer = await send({ ...request, csrf: request.method === "GET" ? undefined : session.value.csrf });
  if (answer.status === 401) notIn();
  return answer;
}
