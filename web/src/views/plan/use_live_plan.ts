// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import type { Fogger } from "../../api/generated";
import { makePlan } from "../../data/plan";
import { useSettled } from "../../data/use_settled";
import { isReady, siteOf, type Draft } from "../../driveway/plan_draft";
import { planAnswer, type PlanAnswer } from "../../driveway/shapes";
import type { UnitSystem } from "../../settings/preferences";

export interface LivePlan {
  plan?: PlanAnswer;
  fault?: unknown;
}

/** The measured output of the fogger, as far as a request can say it; the recorded job goes by its catch test. */
function foggerOf(fogger: Fogger | undefined): Record<string, unknown> {
  const flow = (fogger?.tests.at(-1) as { flow_ul_min?: number } | undefined)?.flow_ul_min;
  return flow ? { fogger: { flow: `${flow / 1000} mL/min` } } : {};
}

export function useLivePlan(draft: Draft, units: UnitSystem, fogger: Fogger | undefined): LivePlan {
  const [live, setLive] = useState<LivePlan>({});
  const site = isReady(draft) ? { ...siteOf(draft, units), ...foggerOf(fogger) } : null;
  const key = JSON.stringify([draft.product, site]);
  const settled = useSettled(key);
  useEffect(() => {
    if (!site) return setLive({});
    // Until nobody types any more the last answer stands.
    if (settled !== key) return;
    let over = false;
    makePlan(draft.product, site).then(
      (plan) => over || setLive({ plan: planAnswer(plan) }),
      (fault: unknown) => over || setLive({ fault }),
    );
    return () => {
      over = true;
    };
  }, [key, settled]);
  return live;
}
