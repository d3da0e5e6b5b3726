// SPDX-License-Identifier: Apache-2.0
import type { Key } from "../../i18n";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { address } from "../../route/router";
import { Icon } from "../icon";

export interface Section {
  path: string;
  words: Key;
}

/** Of the view itself, or of the one that it is a part of. The first section is the root of all others. */
const isOf = (at: string, { path }: Section, first: boolean): boolean => at === path || (!first && at.startsWith(`${path}/`));

/**
 * The views that belong together. A desk has them in a line; a phone has no width for it: there they stand on the first
 * view, and every other one leads back to that. `below`: the view has a way back of its own.
 */
export function Sections({ label, sections, below }: { label: string; sections: Section[]; below: boolean }) {
  const { t } = useWords();
  const at = useObservable(address);
  const root = sections[0]?.path ?? "/";
  const onRoot = at === root;
  return (
    <>
      <nav class={onRoot ? "sections root" : "sections"} aria-label={label}>
        {sections.map((section, n) => (
          <a key={section.path} href={section.path} {...(isOf(at, section, n === 0) ? { "aria-current": at === section.path ? ("page" as const) : ("true" as const) } : {})}>{t(section.words)}</a>
        ))}
      </nav>
      {!onRoot && !below && <a class="back to-root" href={root}><Icon name="back" /><span>{label}</span></a>}
    </>
  );
}
