// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../../i18n/use_words";
import { paperAddress } from "../../office/papers";
import type { PaperOrder } from "../../office/papers";

export const jobPapers = ["record", "leave-behind", "door", "mixing"] as const;

/** Opens beside this page: a paper is the server's own document. */
export function PaperLinks({ title, addressAs }: { title: string; addressAs: (as: PaperOrder["as"]) => string }) {
  const { t } = useWords();
  return (
    <li class="paper">
      <strong>{title}</strong>
      <span class="state-line">
        <a class="button plain" target="_blank" rel="noopener" href={addressAs("pdf")}>PDF<span class="unseen"> {title}</span></a>
        <a class="button plain" target="_blank" rel="noopener" href={addressAs("html")}>{t("papers.page")}<span class="unseen"> {title}</span></a>
      </span>
    </li>
  );
}

export function JobPapers({ job, zone, order }: { job: string; zone: string; order?: Partial<PaperOrder> }) {
  const { word, language, units } = useWords();
  const whole = { language, size: "letter" as const, units, zone, ...order };
  return (
    <ul class="papers">
      {jobPapers.map((paper) => (
        <PaperLinks key={paper} title={word("paper", paper)} addressAs={(as) => paperAddress("printJobPaper", { ...whole, as }, { job, paper })} />
      ))}
    </ul>
  );
}
