// SPDX-License-Identifier: Apache-2.0
// The engine's two files, loaded when they are first needed. Its types stand beside its source, once.
import { sha256 } from "@noble/hashes/sha2.js";
import type { Engine, EngineOptions } from "../../../src/browser/engine";

export type { AskAnswer, AskRequest, BookDocument, BookEntry, Engine, OwnEntry, Snapshot } from "../../../src/browser/engine";

type Make = (options?: EngineOptions) => Promise<Engine>;

/** Whether these pages were built with the engine, and so work without a signal. */
export const hasEngine = ENGINE_SCRIPT !== "";

function loadScript(address: string): Promise<Make> {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => resolve((globalThis as unknown as { fogwright: Make }).fogwright);
    script.onerror = () => reject(new Error("the engine could not be loaded"));
    document.head.append(script);
  });
}

export async function loadEngine(): Promise<Engine> {
  const make = await loadScript(ENGINE_SCRIPT);
  const options = { locateFile: (file: string) => (file.endsWith(".wasm") ? ENGINE_WASM : file), sha256 };
  return make(options);
}
