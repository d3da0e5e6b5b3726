// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import type { Fogger } from "../../api/generated";
import { makePlan } from "../../data/plan";
import { isReady, siteOf, type Draft } from "../../driveway/plan_draft";
import { planAnswer, type PlanAnswer } from "../../driveway/shapes";
import type { UnitSystem } from "../../settings/preferences";

export interface LivePlan {
  plan?: PlanAnswer;
  fault?: unknown;
}

const pauseMs = 250;

/** The measured output of the fogger, as far as a request can say it; the recorded job goes by its catch test. */
function foggerOf(fogger: Fogger | undefined): Record<string, unknown> {
  const flow = (fogger?.tests.at(-1) as { flow_ul_min?: number } | undefined)?.flow_ul_min;
  return flow ? { fogger: { flow: `${flow / 1000} mL/min` } } : {};
}

export function useLivePlan(draft: Draft, units: UnitSystem, fogger: Fogger | undefined): LivePlan {
  const [live, setLive] = useState<LivePlan>({});
  const site = isReady(draft) ? { ...siteOf(draft, units), ...foggerOf(fogger) } : null;
  const key = JSON.stringify([draft.product, site]);
  useEffect(() => {
    if (!site) return setLive({});
    let over = false;
    const timer = setTimeout(() => {
      makePlan(draft.product, site).then(
        (plan) => over || setLive({ plan: planAnswer(plan) }),
        (fault: unknown) => over || setLive({ fault }),
      );
    }, pauseMs);
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [key]);
  return live;
}
