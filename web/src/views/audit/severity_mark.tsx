// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import type { Tone } from "../../components/notice";
import { useWords } from "../../i18n/use_words";
import type { Severity } from "../../office/shapes";

const tones: Record<Severity, Tone> = { grave: "danger", major: "danger", minor: "hold", note: "plain" };

/** How grave, by word and by the number of bars before it. */
export function SeverityMark({ severity }: { severity: Severity }) {
  const { word } = useWords();
  return <Badge tone={tones[severity]}>{word("severity", severity)}</Badge>;
}
