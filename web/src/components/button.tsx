// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Icon, type IconName } from "./icon";

export interface ButtonProps {
  children: ComponentChildren;
  /** main: the one thing to do next; grave: it cannot be undone. */
  kind?: "main" | "plain" | "grave";
  icon?: IconName;
  type?: "button" | "submit";
  disabled?: boolean;
  wide?: boolean;
  pressed?: boolean;
  /** Of what opens a part below it. */
  expanded?: boolean;
  /** May take a while: a second tap meanwhile does nothing. */
  onPress?: () => unknown;
}

export function Button({ children, kind = "plain", icon, type = "button", disabled, wide, pressed, expanded, onPress }: ButtonProps) {
  const [busy, setBusy] = useState(false);
  const press = async () => {
    if (busy) return;
    setBusy(true);
    try {
      await onPress?.();
    } finally {
      setBusy(false);
    }
  };
  return (
    <button
      type={type}
      class={`button ${kind}${wide ? " wide" : ""}`}
      disabled={disabled}
      aria-busy={busy}
      {...(pressed === undefined ? {} : { "aria-pressed": pressed })}
      {...(expanded === undefined ? {} : { "aria-expanded": expanded })}
      {...(onPress ? { onClick: () => void press() } : {})}
    >
      {icon && <Icon name={icon} />}
      <span>{children}</span>
    </button>
  );
}
