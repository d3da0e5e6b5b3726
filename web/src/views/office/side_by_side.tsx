// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { useWords } from "../../i18n/use_words";
import { compareText, type LinePair } from "../../office/compare_text";

function Side({ line, same, mark }: { line: LinePair["left"]; same: boolean; mark: string }) {
  if (!line) return <td class="side none" />;
  return (
    <td class={`side ${same ? "" : "differs"}`}>
      <span class="line-number">{line.n}</span>
      {!same && <b aria-hidden="true">{mark}</b>}
      {same ? line.text : <mark>{line.text || " "}</mark>}
    </td>
  );
}

/** What differs is marked by a sign and a bar, not by its color alone. */
export function SideBySide({ left, right }: { left: string; right: string }) {
  const { t, tn } = useWords();
  const [whole, setWhole] = useState(false);
  const pairs = compareText(left, right);
  const different = pairs.filter((pair) => !pair.same);
  return (
    <>
      <p role="status">{different.length === 0 ? t("compare.same") : tn("compare.different", different.length)}</p>
      <Button pressed={whole} onPress={() => setWhole(!whole)}>{t("compare.whole")}</Button>
      <div class="scroll" tabIndex={0} role="region" aria-label={t("compare.title")}>
        <table class="compared">
          <thead><tr><th scope="col">{t("compare.left")}</th><th scope="col">{t("compare.right")}</th></tr></thead>
          <tbody>
            {(whole ? pairs : different).map((pair, at) => (
              <tr key={at}>
                <Side line={pair.left} same={pair.same} mark="−" />
                <Side line={pair.right} same={pair.same} mark="+" />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
