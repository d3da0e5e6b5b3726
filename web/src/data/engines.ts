// SPDX-License-Identifier: Apache-2.0
// What of the engine is here. On a first visit the part that plans comes first and the desk when the line is free; later
// all of it lies on the device, and the desk comes at once.
import { Observable } from "../observable";
import { hasEngine, loadEngine, loadPlanner, type Planner } from "./engine";
import { LocalDesk } from "./local_desk";
import { changes, onOtherTab } from "./tabs";

/** The desk of this device, once it is there. */
export const desk = new Observable<LocalDesk | null>(null);

/** Plans until the desk is there. */
export const planner = new Observable<Planner | null>(null);

/** Why this device has no desk of its own, although these pages bring one. */
export const deskFault = new Observable("");

/** What is asked first has the line to itself. */
const quietMs = 3_000;

/** The worker has it all from an earlier visit. */
const keptHere = (): boolean => !!globalThis.navigator?.serviceWorker?.controller;

let opening: Promise<void> = Promise.resolve();

/** Until the desk has opened what this device keeps: before, the office alone would answer, without what waits here. */
export const deskIsOpen = (): Promise<void> => opening;

async function openDesk(): Promise<void> {
  try {
    const local = new LocalDesk(await loadEngine(), ENGINES?.whole.wasm);
    await local.open();
    onOtherTab(() => void local.catchUp());
    desk.set(local);
    changes.set(changes.value + 1);
  } catch (fault) {
    // The office still answers; the page says what is missing.
    deskFault.set(fault instanceof Error ? fault.message : String(fault));
  }
}

async function quiet(): Promise<void> {
  if (document.readyState !== "complete") await new Promise((resolve) => addEventListener("load", resolve, { once: true }));
  await new Promise((resolve) => setTimeout(resolve, quietMs));
}

async function openOneByOne(): Promise<void> {
  // Where it does not come the office plans.
  await loadPlanner().then((one) => planner.set(one), () => undefined);
  await quiet();
  await openDesk();
}

/** kept: what an earlier visit left here is open; all: nothing more is to come. */
export function openEngines(): { kept: Promise<void>; all: Promise<void> } {
  if (!hasEngine) return { kept: opening, all: opening };
  if (!keptHere()) return { kept: opening, all: openOneByOne() };
  opening = openDesk();
  return { kept: opening, all: opening };
}
