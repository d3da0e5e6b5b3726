// SPDX-License-Identifier: Apache-2.0
import type { JobRow } from "../../api/generated";
import { Icon } from "../../components/icon";
import { StateMark } from "../../components/state_mark";
import { useWords } from "../../i18n/use_words";

export function JobCard({ job, product, mine }: { job: JobRow; product: string; mine: boolean }) {
  const { t } = useWords();
  return (
    <a class={`card state-${job.state}`} href={`/jobs/${encodeURIComponent(job.job)}`}>
      <span class="what">
        <strong>{job.job}</strong>
        <span>{product}</span>
        <span>{mine ? t("today.mine") : job.technician}</span>
      </span>
      <StateMark state={job.state} />
      <Icon name="next" />
    </a>
  );
}
