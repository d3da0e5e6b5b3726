// SPDX-License-Identifier: Apache-2.0
// Addresses of the pages: /jobs/J1/gate. The server answers each of them with the same document.
import { Observable } from "../observable";

export const address = new Observable<string>(globalThis.location?.pathname ?? "/");

export function go(path: string, how: "push" | "replace" = "push"): void {
  if (path === address.value) return;
  history[how === "push" ? "pushState" : "replaceState"]({}, "", path);
  address.set(path);
  scrollTo(0, 0);
}

/** Follows links within the pages, and the browser's own back and forth. */
export function watchAddress(): void {
  addEventListener("popstate", () => address.set(location.pathname));
  document.addEventListener("click", (event) => {
    if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
    const link = (event.target as Element | null)?.closest?.("a[href]");
    const href = link?.getAttribute("href");
    if (!link || !href?.startsWith("/") || href.startsWith("/api/") || link.hasAttribute("download") || link.hasAttribute("target")) return;
    event.preventDefault();
    go(href);
  });
}

/** What stands for the names in a pattern such as "/jobs/:job"; null where the path is another one. */
export function match(pattern: string, path: string): Record<string, string> | null {
  const wanted = pattern.split("/");
  const given = path.replace(/(.)\/$/, "$1").split("/");
  if (wanted.length !== given.length) return null;
  const names: Record<string, string> = {};
  for (const [at, part] of wanted.entries()) {
    const segment = given[at] ?? "";
    if (part.startsWith(":") && segment) names[part.slice(1)] = safelyDecoded(segment);
    else if (part !== segment) return null;
  }
  return names;
}

function safelyDecoded(segment: string): string {
  try {
    return decodeURIComponent(segment);
  } catch {
    return segment;
  }
}
