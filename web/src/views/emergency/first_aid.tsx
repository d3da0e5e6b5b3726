// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import type { LabelText } from "../../api/generated";
import { useWords } from "../../i18n/use_words";
import { address, match } from "../../route/router";
import { keptLabels, productOfJob } from "../../data/labels";

/** The label's own words on first aid: the product of the job on the screen first, then the others. */
export function FirstAid() {
  const { t } = useWords();
  const [labels, setLabels] = useState<LabelText[]>([]);
  const [first, setFirst] = useState("");
  useEffect(() => {
    void keptLabels().then(setLabels);
    const job = ["/jobs/:job", "/jobs/:job/gate", "/jobs/:job/mix", "/jobs/:job/afterwards"].map((path) => match(path, address.value)).find(Boolean)?.job;
    if (job) void productOfJob(job).then(setFirst);
  }, []);
  const inOrder = [...labels].sort((a, b) => Number(b.product === first) - Number(a.product === first));
  return (
    <>
      <p>{t("emergency.readLabel")}</p>
      {inOrder.map((label) => (
        <details key={label.product} open={label.product === first || labels.length === 1}>
          <summary>{label.name}{label.signal_word ? `, ${label.signal_word}` : ""}</summary>
          <ul lang="en" class="label-words">{label.first_aid.map((line) => <li key={line}>{line}</li>)}</ul>
        </details>
      ))}
    </>
  );
}
