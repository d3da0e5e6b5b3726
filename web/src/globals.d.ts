// SPDX-License-Identifier: Apache-2.0
// What build.mjs puts in.

/** Addresses of the two engines' files (src/browser/engine.d.ts); null where the pages were built without them. */
declare const ENGINES: Record<"planner" | "whole", { script: string; wasm: string }> | null;
/** What the service worker keeps for working without a signal. */
declare const PRECACHE: { url: string; revision: string | null }[];
