// SPDX-License-Identifier: Apache-2.0
import { Notice } from "../../components/notice";
import { useWords } from "../../i18n/use_words";
import type { Stage } from "./job";

export const DoneStage: Stage = ({ job }) => {
  const { t } = useWords();
  return <Notice tone={job.state === "closed" ? "done" : "plain"} title={job.state === "closed" ? t("close.done") : t("stop.done")} />;
};
