// SPDX-License-Identifier: Apache-2.0
// What build.mjs puts in.

/** Addresses of the engine's two files; "" where the pages were built without it. */
declare const ENGINE_SCRIPT: string;
declare const ENGINE_WASM: string;
/** What the service worker keeps for working without a signal. */
declare const PRECACHE: { url: string; revision: string | null }[];
