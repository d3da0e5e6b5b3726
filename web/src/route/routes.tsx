// SPDX-License-Identifier: Apache-2.0
// Which view shows an address. Those of the office are loaded when they are opened (office_routes.ts).
import type { ComponentType } from "preact";
import { GateView } from "../views/gate/gate";
import { JobView } from "../views/job/job";
import { MoreView } from "../views/more/more";
import { OutboxView } from "../views/outbox/outbox";
import { PlanView } from "../views/plan/plan";
import { SignInView } from "../views/sign_in/sign_in";
import { WelcomeView } from "../views/sign_in/welcome";
import { StockView } from "../views/stock/stock";
import { VesselView } from "../views/stock/vessel";
import { TodayView } from "../views/today/today";
import { officeRoutes } from "./office_routes";

export type Names = Record<string, string>;
export type View = ComponentType<{ names: Names }>;

export interface Route {
  path: string;
  view?: View;
  load?: () => Promise<{ default: View }>;
  /** Without anybody signed in. */
  open?: boolean;
}

export const routes: Route[] = [
  { path: "/", view: TodayView },
  { path: "/jobs/:job", view: JobView },
  { path: "/jobs/:job/gate", view: GateView },
  { path: "/plan", view: PlanView },
  { path: "/stock", view: StockView },
  { path: "/stock/:vessel", view: VesselView },
  { path: "/more", view: MoreView },
  { path: "/outbox", view: OutboxView },
  ...officeRoutes,
  { path: "/sign-in", view: SignInView, open: true },
  { path: "/welcome", view: WelcomeView, open: true },
];
