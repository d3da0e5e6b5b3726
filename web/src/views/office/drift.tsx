// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import { useWords } from "../../i18n/use_words";
import { driftText, isLarge } from "../../office/foggers";

export function Drift({ drift, tests }: { drift: number | null; tests: number }) {
  const { t, language } = useWords();
  if (drift === null) return <>{tests > 0 ? t("gear.noDrift") : "–"}</>;
  const large = isLarge(drift);
  return <>{driftText(drift, language)} <Badge tone={large ? "hold" : "done"}>{t(large ? "gear.driftLarge" : "gear.driftSmall")}</Badge></>;
}
