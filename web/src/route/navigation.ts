// SPDX-License-Identifier: Apache-2.0
// The places of the navigation, in order. A place with roles is shown to whoever has one of them.
import type { IconName } from "../components/icon";
import type { Key } from "../i18n";

export interface Place {
  path: string;
  words: Key;
  icon: IconName;
  roles?: string[];
}

export const navigation: Place[] = [
  { path: "/", words: "nav.today", icon: "today" },
  { path: "/plan", words: "nav.plan", icon: "plan" },
  { path: "/stock", words: "nav.stock", icon: "stock" },
  { path: "/more", words: "nav.more", icon: "more" },
];
