// SPDX-License-Identifier: Apache-2.0
// Lot and last day out of the code on a delivered container, where its maker writes it by GS1's application identifiers:
// (10) lot, (17) last day as YYMMDD, in brackets or with the separator FNC1 (ASCII 29). Of anything else the text.

export interface DeliveryCode {
  lot?: string;
  expires?: string;
  text: string;
}

/** Lengths of the values of fixed length that come before lot and day on such codes. */
const fixedLength: Record<string, number> = { "01": 14, "11": 6, "13": 6, "15": 6, "17": 6 };
const separator = "\u001d";

/** Day 00 is the last of the month. Years are read as of this century. */
export function gs1Day(text: string): string | undefined {
  if (!/^\d{6}$/.test(text)) return undefined;
  const [year, month, dayOfMonth] = [2000 + Number(text.slice(0, 2)), Number(text.slice(2, 4)), Number(text.slice(4))];
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (month < 1 || month > 12 || dayOfMonth > last) return undefined;
  return `${year}-${String(month).padStart(2, "0")}-${String(dayOfMonth || last).padStart(2, "0")}`;
}

function bracketed(text: string): Map<string, string> {
  return new Map([...text.matchAll(/\((\d{2})\)([^(]*)/g)].map(([, id = "", value = ""]) => [id, value]));
}

function plain(text: string): Map<string, string> {
  const found = new Map<string, string>();
  let rest = text.replace(/^\](?:d2|Q3|C1)/, "");
  while (rest.length > 2) {
    const id = rest.slice(0, 2);
    const fixed = fixedLength[id];
    if (!fixed && id !== "10" && id !== "21") return found;
    const end = fixed ? 2 + fixed : (rest.indexOf(separator) + 1 || rest.length + 1) - 1;
    found.set(id, rest.slice(2, end));
    rest = rest.slice(rest[end] === separator ? end + 1 : end);
  }
  return found;
}

export function readDelivery(text: string): DeliveryCode {
  const trimmed = text.trim();
  const members = trimmed.startsWith("(") ? bracketed(trimmed) : /^(\](d2|Q3|C1))?01\d{14}/.test(trimmed) ? plain(trimmed) : new Map<string, string>();
  const [lot, expires] = [members.get("10"), gs1Day(members.get("17") ?? "")];
  return { text: trimmed, ...(lot ? { lot } : {}), ...(expires ? { expires } : {}) };
}
