// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { Icon, type IconName } from "./icon";

export function LinkButton({ href, children, kind = "plain", icon, wide }: { href: string; children: ComponentChildren; kind?: "main" | "plain"; icon?: IconName; wide?: boolean }) {
  return (
    <a class={`button ${kind}${wide ? " wide" : ""}`} href={href}>
      {icon && <Icon name={icon} />}
      <span>{children}</span>
    </a>
  );
}
