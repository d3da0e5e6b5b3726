// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { Icon, type IconName } from "./icon";

export type Tone = "plain" | "done" | "hold" | "danger";

const icons: Record<Tone, IconName> = { plain: "more", done: "check", hold: "clock", danger: "stop" };

/** Said by shape and words; the colour only repeats it. `live`: read out when it appears. */
export function Notice({ tone = "plain", title, live, children }: { tone?: Tone; title?: string | undefined; live?: boolean; children?: ComponentChildren }) {
  return (
    <div class={`notice ${tone}`} {...(live ? { role: tone === "danger" ? "alert" : "status" } : {})}>
      <Icon name={icons[tone]} />
      <div>
        {title && <strong>{title}</strong>}
        {children}
      </div>
    </div>
  );
}
