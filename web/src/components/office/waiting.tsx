// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { useWords } from "../../i18n/use_words";
import { FaultNote } from "../fault_note";

/** Until the first answer is there; a fault beside what is known. */
export function Waiting<T>({ of, children }: { of: { answer: T | undefined; fault: unknown }; children: (answer: T) => ComponentChildren }) {
  const { t } = useWords();
  return (
    <>
      <FaultNote fault={of.fault} />
      {of.answer === undefined ? !of.fault && <p role="status" class="empty">{t("office.reading")}</p> : children(of.answer)}
    </>
  );
}
