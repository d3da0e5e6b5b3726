// SPDX-License-Identifier: Apache-2.0
// What node lacks of a browser, and what would keep node from ending. Import it first.
import "fake-indexeddb/auto";

export const browser: Record<string, unknown> = {};
Object.defineProperty(globalThis, "navigator", { value: browser, configurable: true });
Object.defineProperty(globalThis, "BroadcastChannel", { value: undefined, configurable: true });
Object.assign(globalThis, { localStorage: { getItem: () => null, setItem: () => undefined, removeItem: () => undefined } });
