// SPDX-License-Identifier: Apache-2.0
// One request to the server. Refusals are answers; that the server cannot be reached is an exception.
import type { Problem } from "./generated";

export interface HttpAnswer {
  status: number;
  body: unknown;
  /** The office's clock when it answered; 0 where it does not say. */
  dateMs: number;
}

/** No signal, or nobody at the other end. Nothing is known of what was asked. */
export class NoConnection extends Error {
  constructor() {
    super("the office cannot be reached");
  }
}

/** What the server, or the desk of this device, refused, in its own words. */
export class Refused extends Error {
  constructor(readonly status: number, readonly problem: Partial<Problem>) {
    super(problem.detail ?? `status ${status}`);
  }
}

export interface HttpRequest {
  method: string;
  path: string;
  query?: Record<string, string> | undefined;
  body?: unknown;
  csrf?: string | undefined;
  /** Idempotency-Key: the id of the entry. */
  id?: string | undefined;
}

const patience = 20_000;

function headersOf(request: HttpRequest): Record<string, string> {
  const headers: Record<string, string> = { Accept: "application/json" };
  if (request.body !== undefined) headers["Content-Type"] = "application/json";
  if (request.csrf) headers["X-CSRF-Token"] = request.csrf;
  if (request.id) headers["Idempotency-Key"] = request.id;
  return headers;
}

export async function send(request: HttpRequest): Promise<HttpAnswer> {
  const query = new URLSearchParams(request.query ?? {}).toString();
  const give = new AbortController();
  const timer = setTimeout(() => give.abort(), patience);
  try {
    const response = await fetch(request.path + (query ? `?${query}` : ""), {
      method: request.method,
      headers: headersOf(request),
      ...(request.body === undefined ? {} : { body: JSON.stringify(request.body) }),
      credentials: "same-origin",
      cache: "no-cache",
      signal: give.signal,
    });
    const text = await response.text();
    return { status: response.status, body: readJson(text), dateMs: Date.parse(response.headers.get("Date") ?? "") || 0 };
  } catch {
    throw new NoConnection();
  } finally {
    clearTimeout(timer);
  }
}

/** A proxy's own page of fault is no answer of ours. */
function readJson(text: string): unknown {
  if (!text) return {};
  try {
    return JSON.parse(text);
  } catch {
    return { detail: "the answer is not one of this server", hint: "try again; if it stays so, tell the owner" };
  }
}
