// SPDX-License-Identifier: Apache-2.0
import { Dialog } from "../../components/dialog";
import { useWords } from "../../i18n/use_words";
import { FirstAid } from "./first_aid";

/** One tap from everywhere. What to do first needs no signal, no job and no product. */
export function EmergencyCard({ onClose }: { onClose: () => void }) {
  const { t } = useWords();
  return (
    <Dialog title={t("emergency.title")} onClose={onClose} grave>
      <p class="number">
        <a class="button grave wide" href="tel:911">{t("emergency.call")}</a>
        <small>{t("emergency.callElsewhere")}</small>
      </p>
      <section>
        <h3>{t("emergency.inside")}</h3>
        <ol>
          <li>{t("emergency.inside1")}</li>
          <li>{t("emergency.inside2")}</li>
          <li>{t("emergency.inside3")}</li>
        </ol>
      </section>
      <section>
        <h3>{t("emergency.exposure")}</h3>
        <FirstAid />
      </section>
      <section>
        <h3>{t("emergency.spill")}</h3>
        <ol>
          <li>{t("emergency.spill1")}</li>
          <li>{t("emergency.spill2")}</li>
          <li>{t("emergency.spill3")}</li>
        </ol>
      </section>
      <p class="fine">{t("common.labelOutranks")}</p>
    </Dialog>
  );
}
