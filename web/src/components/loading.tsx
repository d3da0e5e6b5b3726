// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import { useWords } from "../i18n/use_words";

/** Only where it takes a while: a word that flashes by helps nobody. */
export function Loading() {
  const { t } = useWords();
  const [late, setLate] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLate(true), 300);
    return () => clearTimeout(timer);
  }, []);
  return <p class="fine" role="status">{late ? t("common.loading") : ""}</p>;
}
