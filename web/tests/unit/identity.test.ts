// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { randomHex, uuidV7 } from "../../src/data/identity";

// RFC 9562, appendix A.6: the example of a UUIDv7, of 2022-02-22 14:22:22.00 GMT-05:00.
test("an id is made as the RFC's example", () => {
  const random = new Uint8Array([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
  assert.equal(uuidV7(0x017f22e279b0, random), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("ids of later milliseconds sort later, and no two are the same", () => {
  const ids = Array.from({ length: 1000 }, (_, at) => uuidV7(1_772_460_000_000 + at));
  assert.deepEqual([...ids].sort(), ids);
  assert.equal(new Set(ids).size, 1000);
  assert.match(randomHex(16), /^[0-9a-f]{32}$/);
});
