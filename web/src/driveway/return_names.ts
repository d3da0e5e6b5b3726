// SPDX-License-Identifier: Apache-2.0
// A return or an air system that nobody named has a number of the plan's, in English as all of the record. A page shows that in
// the language in use; a name that somebody gave stays as it was given.
import { t } from "../i18n";

export const shownName = (name: string): string => {
  const [, kind, n = ""] = /^(return|system) (\d+)$/.exec(name) ?? [];
  if (!kind) return name;
  return kind === "return" ? t("plan.returnNumber", { n }) : t("plan.systemNumber", { n });
};
