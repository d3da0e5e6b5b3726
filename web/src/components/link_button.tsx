// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { Icon, type IconName } from "./icon";

export function LinkButton({ href, children, kind = "plain", icon }: { href: string; children: ComponentChildren; kind?: "main" | "plain"; icon?: IconName }) {
  return (
    <a class={`button ${kind}`} href={href}>
      {icon && <Icon name={icon} />}
      <span>{children}</span>
    </a>
  );
}
