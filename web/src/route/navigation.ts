// SPDX-License-Identifier: Apache-2.0
// The places of the navigation, in order. A place with roles is shown to whoever has one of them.
import type { IconName } from "../components/icon";
import type { Key } from "../i18n";

export interface Place {
  path: string;
  words: Key;
  icon: IconName;
  roles?: string[];
  /** On a phone it is found under "more", so that the others keep their width. */
  desk?: boolean;
}

export const navigation: Place[] = [
  { path: "/", words: "nav.today", icon: "today" },
  { path: "/plan", words: "nav.plan", icon: "plan" },
  { path: "/stock", words: "nav.stock", icon: "stock" },
  { path: "/office", words: "nav.office", icon: "office", roles: ["owner", "safety-officer"], desk: true },
  { path: "/audit", words: "nav.audit", icon: "audit", roles: ["owner", "safety-officer"], desk: true },
  { path: "/more", words: "nav.more", icon: "more" },
];

export const placesOf = (roles: string[]): Place[] => navigation.filter((place) => !place.roles || place.roles.some((role) => roles.includes(role)));
