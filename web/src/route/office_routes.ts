// SPDX-License-Identifier: Apache-2.0
// The views of the office and of the audit, mixing, and what is written down afterwards. Their code and their words come
// when one of them is opened, so that the first load on a phone stays small; the service worker keeps them all for where
// there is no signal.
import { loadOfficeWords } from "../i18n";
import type { Route, View } from "./routes";

type Module = { default: View };

function later(path: string, load: () => Promise<Module>): Route {
  return { path, load: async () => (await Promise.all([load(), loadOfficeWords()]))[0] };
}

export const officeRoutes: Route[] = [
  later("/mix", () => import("../views/mix/mix")),
  later("/jobs/:job/mix", () => import("../views/mix/mix")),
  later("/jobs/:job/afterwards", () => import("../views/afterwards/afterwards")),
  later("/office", () => import("../views/office/office")),
  later("/office/shelf", () => import("../views/office/shelf")),
  later("/office/receive", () => import("../views/office/receive")),
  later("/office/order", () => import("../views/office/order")),
  later("/office/trends", () => import("../views/office/trends")),
  later("/office/costs", () => import("../views/office/costs")),
  later("/office/crew", () => import("../views/office/crew")),
  later("/office/crew/:handle", () => import("../views/office/person")),
  later("/office/labels", () => import("../views/office/labels")),
  later("/office/labels/adopt", () => import("../views/office/adopt")),
  later("/office/labels/compare/:product", () => import("../views/office/compare")),
  later("/office/gear", () => import("../views/office/gear")),
  later("/office/gear/foggers/:fogger", () => import("../views/office/fogger")),
  later("/office/places", () => import("../views/office/places")),
  later("/audit", () => import("../views/audit/departures")),
  later("/audit/jobs", () => import("../views/audit/jobs")),
  later("/audit/jobs/:job", () => import("../views/audit/life")),
  later("/audit/entries/:seq", () => import("../views/audit/entry")),
  later("/audit/record", () => import("../views/audit/record")),
  later("/audit/papers", () => import("../views/audit/papers")),
  later("/audit/keep", () => import("../views/audit/keep")),
];
