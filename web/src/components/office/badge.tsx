// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { Icon, type IconName } from "../icon";
import type { Tone } from "../notice";

const icons: Record<Tone, IconName> = { plain: "more", done: "check", hold: "clock", danger: "stop" };

/** How something stands: by drawing and word, the color only repeats it. */
export function Badge({ tone, children }: { tone: Tone; children: ComponentChildren }) {
  return (
    <span class={`badge ${tone}`}>
      <Icon name={icons[tone]} />
      <span>{children}</span>
    </span>
  );
}
