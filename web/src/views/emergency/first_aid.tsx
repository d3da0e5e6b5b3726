// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../../i18n/use_words";

/** The label's own words on first aid, by product. */
export function FirstAid() {
  const { t } = useWords();
  return <p>{t("emergency.readLabel")}</p>;
}
