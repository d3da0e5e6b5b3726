// SPDX-License-Identifier: Apache-2.0
// The two engines: one that plans, which is there soon, and the whole one with the desk, two thirds more to load. Their
// types stand beside their source, once.
import { sha256 } from "@noble/hashes/sha2.js";
import type { Engine, EngineOptions } from "../../../src/browser/engine";

export type { AskAnswer, AskRequest, BookDocument, BookEntry, Engine, OwnEntry, Snapshot } from "../../../src/browser/engine";
export type Planner = Pick<Engine, "plan">;

type Make = (options?: EngineOptions) => Promise<Engine>;

/** Whether these pages were built with the engines, and so work without a signal. */
export const hasEngine = ENGINES !== null;

function loadScript(address: string): Promise<Make> {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => resolve((globalThis as unknown as { fogwright: Make }).fogwright);
    script.onerror = () => reject(new Error("the engine could not be loaded"));
    document.head.append(script);
  });
}

async function load(which: keyof NonNullable<typeof ENGINES>): Promise<Engine> {
  if (!ENGINES) throw new Error("these pages were built without the engine");
  const { script, wasm } = ENGINES[which];
  const make = await loadScript(script);
  return make({ locateFile: (file: string) => (file.endsWith(".wasm") ? wasm : file), sha256 });
}

export const loadPlanner = (): Promise<Planner> => load("planner");
export const loadEngine = (): Promise<Engine> => load("whole");
