// SPDX-License-Identifier: Apache-2.0
/** A time that has passed, for reading: "42 s", "3 min 10 s", "2 h 5 min", "3 d 4 h". Backwards it carries its sign. */
export function elapsed(ms: number): string {
  const sign = ms < 0 ? "−" : "";
  const seconds = Math.floor(Math.abs(ms) / 1000);
  const [d, h, m, s] = [Math.floor(seconds / 86_400), Math.floor(seconds / 3600) % 24, Math.floor(seconds / 60) % 60, seconds % 60];
  if (d > 0) return `${sign}${d} d ${h} h`;
  if (h > 0) return `${sign}${h} h ${m} min`;
  return m > 0 ? `${sign}${m} min ${s} s` : `${sign}${s} s`;
}
