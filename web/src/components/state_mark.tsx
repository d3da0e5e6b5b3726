// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../i18n/use_words";
import { Icon, type IconName } from "./icon";

const icons: Record<string, IconName> = {
  planned: "plan", cleared: "check", fogging: "fog", holding: "clock", released: "check", closed: "sent", stopped: "stop",
};

/** The state of a job, by drawing and word. */
export function StateMark({ state }: { state: string }) {
  const { word } = useWords();
  return (
    <span class={`mark ${state}`}>
      <Icon name={icons[state] ?? "more"} />
      <span>{word("state", state)}</span>
    </span>
  );
}
