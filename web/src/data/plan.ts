// SPDX-License-Identifier: Apache-2.0
// A plan that nobody has made a job of yet: by the desk of this device, by the engine that only plans, or by the office.
import type { Plan, Problem } from "../api/generated";
import { Refused } from "../api/http";
import { ask } from "./ask";
import { desk, planner } from "./engines";
import { keptLabels } from "./labels";

type Fault = { code: string; message: string; where?: string; hint?: string };

/** The engine's words as the API has them (docs/plan-json.md). */
function refusedBy(answer: { error: Fault; faults?: Fault[] }): Refused {
  const told = ({ message, ...more }: Fault): Partial<Problem> => ({ ...more, detail: message });
  return new Refused(422, { ...told(answer.error), ...(answer.faults ? { faults: answer.faults.map(told) } : {}) });
}

/** Errors: as those of `ask`. */
export async function makePlan(product: string, site: Record<string, unknown>): Promise<Plan> {
  const label = desk.value || !planner.value ? undefined : (await keptLabels()).find((one) => one.product === product);
  if (!label || !planner.value) return ask("makePlan", { body: { product, site } });
  const answer = JSON.parse(planner.value.plan(JSON.stringify(site), label.text)) as { plan: Plan } | { error: Fault; faults?: Fault[] };
  if ("error" in answer) throw refusedBy(answer);
  return answer.plan;
}
