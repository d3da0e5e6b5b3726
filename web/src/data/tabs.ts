// SPDX-License-Identifier: Apache-2.0
// Several tabs of one device: who may do what alone, and how the others hear of it.
import { Observable } from "../observable";

/** Runs alone among all tabs. */
export function alone<T>(name: string, work: () => Promise<T>): Promise<T> {
  if (!navigator.locks) return work();
  return navigator.locks.request(`fogwright-${name}`, work) as Promise<T>;
}

/** Runs only where no other tab is at it; undefined else. */
export function ifFree<T>(name: string, work: () => Promise<T>): Promise<T | undefined> {
  if (!navigator.locks) return work();
  return navigator.locks.request(`fogwright-${name}`, { ifAvailable: true }, (lock) => (lock ? work() : undefined)) as Promise<T | undefined>;
}

/** Grows with every change of what the device knows; views ask anew. */
export const changes = new Observable(0);

const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("fogwright");
const hearers = new Set<() => void>();

channel?.addEventListener("message", () => {
  for (const hearer of hearers) hearer();
  changes.set(changes.value + 1);
});

/** Called before views are told: the tab takes in what another one wrote. */
export function onOtherTab(hearer: () => void): void {
  hearers.add(hearer);
}

export function tellChange(): void {
  changes.set(changes.value + 1);
  channel?.postMessage("changed");
}
