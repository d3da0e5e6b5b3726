// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../../i18n/use_words";

/** Beyond this a figure would promise more than the use so far can tell. */
const mostDays = 730;

/** How long what is there lasts. */
export function Cover({ days }: { days: number | null }) {
  const { t, tn } = useWords();
  if (days === null) return <>{t("shelf.coverUnknown")}</>;
  return <>{days > mostDays ? t("shelf.coverLong") : tn("days", days)}</>;
}
