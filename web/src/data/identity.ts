// SPDX-License-Identifier: Apache-2.0
// Names that this device makes: ids of entries (UUIDv7, RFC 9562, section 5.7) and salts.

const hex = (bytes: Uint8Array) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

export function randomHex(bytes: number): string {
  return hex(crypto.getRandomValues(new Uint8Array(bytes)));
}

/** 48 bits of UTC milliseconds, then chance. */
export function uuidV7(nowMs: number, random: Uint8Array = crypto.getRandomValues(new Uint8Array(10))): string {
  const bytes = new Uint8Array(16);
  const high = Math.floor(nowMs / 2 ** 32);
  const low = nowMs % 2 ** 32;
  new DataView(bytes.buffer).setUint16(0, high);
  new DataView(bytes.buffer).setUint32(2, low);
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const text = hex(bytes);
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join("-");
}
