// SPDX-License-Identifier: Apache-2.0
// What the office should look at, gravest first. It points; what holds and what not the desk says.
import type { Fogger, Person } from "../api/generated";
import type { Tone } from "../components/notice";
import type { Key, Values } from "../i18n";
import { newestOf, standingOf } from "./credentials";
import { dayMs, daysTo, endOfDay, lastDay } from "./days";
import { isLarge, lastDrift } from "./foggers";
import type { Cartridge, CatchDay, PlaceRow, StockLine, VesselRow } from "./shapes";

export interface Due {
  tone: Tone;
  words: Key;
  values: Values;
  /** A member of `values` that is a name of the record, with the group of its words. */
  named?: [member: string, group: string];
  href: string;
}

export interface Holdings {
  crew: Person[];
  stock: StockLine[];
  vessels: VesselRow[];
  foggers: Fogger[];
  cartridges: Cartridge[];
  places: PlaceRow[];
}

const soonDays = 30;
const unreadDays = 31; // the audit's rule storage-not-read

function ofCrew(crew: Person[], now: number): Due[] {
  return crew.filter((person) => person.active).flatMap((person) =>
    newestOf(person.credentials as never).flatMap((one): Due[] => {
      const standing = standingOf(one, now);
      if (standing !== "soon" && standing !== "lapsed") return [];
      const values = { handle: person.handle, what: one.what, n: daysTo(endOfDay(one.expires ?? ""), now) };
      return [{ tone: standing === "lapsed" ? "danger" : "hold", words: standing === "lapsed" ? "due.lapsed" : "due.lapses", values, named: ["what", "credential"], href: `/office/crew/${encodeURIComponent(person.handle)}` }];
    }));
}

function ofVessels(vessels: VesselRow[], now: number): Due[] {
  return vessels.flatMap((one): Due[] => {
    const values = { id: one.id, item: one.item, place: one.place, n: daysTo(lastDay(one.usable_until_ms), now) };
    const href = `/stock/${encodeURIComponent(one.id)}`;
    if (!one.usable) return [{ tone: "danger", words: "due.past", values, href }];
    return !one.batch && one.usable_until_ms <= now + soonDays * dayMs ? [{ tone: "hold", words: "due.ends", values, href }] : [];
  });
}

const ofStock = (stock: StockLine[]): Due[] =>
  stock.filter((line) => line.order_ul > 0).map((line) => ({ tone: "hold", words: "due.order", values: { item: line.item }, href: "/office/order" }));

function ofFoggers(foggers: Fogger[]): Due[] {
  return foggers.filter((one) => one.active).flatMap((one): Due[] => {
    const tests = one.tests as unknown as CatchDay[];
    const href = `/office/gear/foggers/${encodeURIComponent(one.fogger)}`;
    if (tests.length === 0) return [{ tone: "hold", words: "due.untested", values: { fogger: one.fogger }, href }];
    return isLarge(lastDrift(tests)) ? [{ tone: "hold", words: "due.drift", values: { fogger: one.fogger }, href }] : [];
  });
}

function ofCartridges(cartridges: Cartridge[]): Due[] {
  return cartridges.filter((one) => one.active && one.used_minutes >= one.schedule_minutes)
    .map((one) => ({ tone: "danger", words: "due.cartridge", values: { cartridge: one.cartridge }, href: "/office/gear" }));
}

const ofPlaces = (places: PlaceRow[], now: number): Due[] =>
  places.filter((one) => (one.last_read_ms ?? 0) < now - unreadDays * dayMs)
    .map((one) => ({ tone: "hold", words: "due.unread", values: { place: one.place }, href: "/office/places" }));

export function dueNow(of: Holdings, now: number): Due[] {
  const all = [...ofCrew(of.crew, now), ...ofVessels(of.vessels, now), ...ofCartridges(of.cartridges), ...ofStock(of.stock), ...ofFoggers(of.foggers), ...ofPlaces(of.places, now)];
  return [...all.filter((one) => one.tone === "danger"), ...all.filter((one) => one.tone !== "danger")];
}
