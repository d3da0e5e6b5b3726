// SPDX-License-Identifier: Apache-2.0
import { Button } from "../../components/button";
import { Field } from "../../components/field";
import { useAsk } from "../../data/use_ask";
import type { Draft } from "../../driveway/plan_draft";
import { useWords } from "../../i18n/use_words";
import { Pick } from "../gate/pick";

export interface Details {
  zone: string;
  van: string;
  customer: string;
  address: string;
}

/** What the gate and the record need beside the plan. */
export function JobDetails({ details, onDetails, draft, onDraft }: { details: Details; onDetails: (details: Details) => void; draft: Draft; onDraft: (part: Partial<Draft>) => void }) {
  const { t } = useWords();
  const { answer } = useAsk("listPlaces");
  const vans = (answer?.items ?? []).filter((place) => place.type === "van").map((place) => place.place);
  const change = (part: Partial<Details>) => onDetails({ ...details, ...part });
  return (
    <fieldset class="group">
      <legend>{t("plan.site")}</legend>
      <div class="picks">
        <Button pressed={draft.animals} onPress={() => onDraft({ animals: !draft.animals })}>{t("plan.animals")}</Button>
        <Button pressed={draft.sensitive} onPress={() => onDraft({ sensitive: !draft.sensitive })}>{t("plan.sensitive")}</Button>
      </div>
      <Field label={t("plan.entrances")} value={draft.entrances} onValue={(entrances) => onDraft({ entrances })} keys="numeric" hint={t("plan.entrancesHint")} />
      <Pick label={t("plan.van")} names={vans} value={details.van} onValue={(van) => change({ van })} />
      <details>
        <summary>{t("plan.customer")}</summary>
        <Field label={t("plan.customerName")} value={details.customer} onValue={(customer) => change({ customer })} hint={t("plan.erasable")} />
        <Field label={t("plan.address")} value={details.address} onValue={(address) => change({ address })} hint={t("plan.erasable")} />
        <Field label={t("plan.zone")} value={details.zone} onValue={(zone) => change({ zone })} />
      </details>
    </fieldset>
  );
}
