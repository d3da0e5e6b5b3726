// SPDX-License-Identifier: Apache-2.0
import { useObservable } from "../observable";
import { preferences } from "../settings/preferences";
import { catalogue, t, tn, word } from ".";

/** The words in the language in use; the component is drawn again when it changes. */
export function useWords() {
  useObservable(catalogue);
  const { language, units } = useObservable(preferences);
  return { t, tn, word, language, units };
}
