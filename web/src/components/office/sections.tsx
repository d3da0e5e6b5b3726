// SPDX-License-Identifier: Apache-2.0
import { useEffect, useRef } from "preact/hooks";
import type { Key } from "../../i18n";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { address } from "../../route/router";

export interface Section {
  path: string;
  words: Key;
}

/** The views that belong together, one line of links. */
export function Sections({ label, sections }: { label: string; sections: Section[] }) {
  const { t } = useWords();
  const at = useObservable(address);
  const here = useRef<HTMLAnchorElement>(null);
  // On a phone the line is longer than the screen.
  useEffect(() => here.current?.scrollIntoView({ inline: "center", block: "nearest" }), [at]);
  return (
    <nav class="sections" aria-label={label}>
      {sections.map(({ path, words }) => <a key={path} href={path} {...(at === path ? { ref: here, "aria-current": "page" as const } : {})}>{t(words)}</a>)}
    </nav>
  );
}
