// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import type { Operations } from "../api/generated";
import { askOfficeFor, largestPage } from "../data/ask";
import { changes } from "../data/tabs";
import { useObservable } from "../observable";

type Paged = "listVessels" | "showStock" | "listCrew" | "listFoggers" | "listCartridges" | "listProducts" | "listPlaces" | "listJobs" | "listJobCosts";
type Items<Id extends Paged> = Operations[Id]["answer"]["items"];

/** Every page of a list, one after the other. */
export async function askAll<Id extends Paged>(id: Id, query: Record<string, string> = {}): Promise<Items<Id>> {
  const all: unknown[] = [];
  let after: string | undefined;
  do {
    const page = await askOfficeFor(id, { query: { limit: largestPage, ...query, ...(after ? { after } : {}) } as Operations[Id]["query"] });
    all.push(...page.items);
    after = (page as { next?: string }).next;
  } while (after);
  return all as unknown as Items<Id>;
}

/** What a promise of the office gives, made anew when the book changes; the last answer stays meanwhile. */
export function useOffice<T>(get: () => Promise<T>, by: unknown[] = []): { answer: T | undefined; fault: unknown } {
  const [state, setState] = useState<{ answer?: T; fault?: unknown }>({});
  const change = useObservable(changes);
  useEffect(() => {
    let over = false;
    get().then((answer) => over || setState({ answer }), (fault: unknown) => over || setState((before) => ({ ...before, fault })));
    return () => void (over = true);
  }, [change, ...by]);
  return { answer: state.answer, fault: state.fault };
}

export function useAll<Id extends Paged>(id: Id, query: Record<string, string> = {}): { answer: Items<Id> | undefined; fault: unknown } {
  return useOffice(() => askAll(id, query), [id, JSON.stringify(query)]);
}
