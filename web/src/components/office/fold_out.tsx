// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";

/** A form that is out of the way until it is wanted. */
export function FoldOut({ title, open, children }: { title: string; open?: boolean; children: ComponentChildren }) {
  return (
    <details class="fold" {...(open ? { open: true } : {})}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}
