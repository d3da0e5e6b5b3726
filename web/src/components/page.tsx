// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { useWords } from "../i18n/use_words";
import { Icon } from "./icon";

export interface PageProps {
  title: string;
  back?: string;
  children: ComponentChildren;
  actions?: ComponentChildren;
  /** Tables use the width of a desk. */
  broad?: boolean;
  /** Stands above the heading. */
  before?: ComponentChildren;
}

/** A view with its heading, which takes the focus when it opens so that screen readers tell where one is. */
export function Page({ title, back, children, actions, broad, before }: PageProps) {
  const { t } = useWords();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  useEffect(() => {
    document.title = `${title} · Fogwright`;
  }, [title]);
  return (
    <main class={broad ? "page broad" : "page"} id="content">
      {before}
      {back && (
        <a class="back" href={back}>
          <Icon name="back" />
          <span>{t("common.back")}</span>
        </a>
      )}
      <h1 ref={heading} tabIndex={-1}>{title}</h1>
      {children}
      {actions && <div class="actions">{actions}</div>}
    </main>
  );
}
