// SPDX-License-Identifier: Apache-2.0
// Operations by the names of the description: call("showJob", {path: {job: "J1"}}).
import { operationTable, type OperationId, type Operations } from "./generated";

export interface Call<Id extends OperationId> {
  path?: Record<string, string>;
  query?: Operations[Id]["query"];
  body?: Operations[Id]["body"];
  /** Of the entry that it writes, where the caller chose it before: asked twice it is one entry. */
  id?: string;
  /** The job whose timed fog this records: the timer goes in the same step, so that no crash records it twice. */
  endsFogOf?: string;
}

/** Method and address of an operation, with the names put in. */
export function addressOf(id: OperationId, names: Record<string, string> = {}): { method: string; path: string } {
  const [method, pattern] = operationTable[id];
  const path = pattern.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = names[name];
    if (!value) throw new Error(`${id}: no ${name} is given`);
    return encodeURIComponent(value);
  });
  return { method, path };
}
