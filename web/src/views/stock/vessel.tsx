// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { useItemNames } from "../../data/item_names";
import { syncState } from "../../data/sync";
import { useAsk } from "../../data/use_ask";
import { actionsOn, type VesselAction } from "../../driveway/vessel_actions";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import type { Names } from "../../route/routes";
import { volume } from "../../settings/units";
import { VesselForm } from "./vessel_form";

/** One container or batch: what is in it, and what can be done to it. */
export function VesselView({ names }: { names: Names }) {
  const { t, word, units, language } = useWords();
  const id = names.vessel ?? "";
  const name = useItemNames();
  const { answer, fault, again } = useAsk("showVessel", { path: { vessel: id } });
  const { now } = useObservable(syncState);
  const [action, setAction] = useState<VesselAction>();
  return (
    <Page title={id} back="/stock">
      {!answer && !fault && <Loading />}
      <FaultNote fault={fault} />
      {answer && (
        <>
          <dl class="facts">
            <dt>{t("stock.item")}</dt><dd>{name(answer.item)}, {t("stock.lot", { lot: answer.lot })}{answer.earlier_lots?.length ? ` (${t("stock.earlierLots", { lots: answer.earlier_lots.join(", ") })})` : ""}</dd>
            <dt>{t("stock.place")}</dt><dd>{answer.place}</dd>
            <dt>{t("stock.left")}</dt><dd>{volume(answer.remaining_ul, units, "down", language)} / {volume(answer.size_ul, units, "down", language)}</dd>
          </dl>
          {!answer.usable && <Notice tone="danger" title={t("stock.pastDate")}><p>{t("stock.pastDateWhy")}</p></Notice>}
          <div class="acts">
            {actionsOn(answer, now !== "no-signal").map((one) => <Button key={one.id} expanded={action?.id === one.id} onPress={() => setAction(one)}>{word("act", one.id)}</Button>)}
          </div>
          {action && <VesselForm key={action.id} vessel={id} action={action} onDone={() => (setAction(undefined), again())} />}
        </>
      )}
    </Page>
  );
}
