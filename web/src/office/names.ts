// SPDX-License-Identifier: Apache-2.0
// What people call what the record names by a key: "brackwater-20/Part A concentrate" is Brackwater 20, Part A concentrate.
import { useAll } from "./use_all";

export function itemName(names: ReadonlyMap<string, string>, item: string): string {
  const [product = "", ...part] = item.split("/");
  return [names.get(product) ?? product, ...(part.length > 0 ? [part.join("/")] : [])].join(", ");
}

/** Until the products are known the key stands. */
export function useItemNames(): (item: string) => string {
  const names = new Map((useAll("listProducts", { all: "true" }).answer ?? []).map((one) => [one.product, one.name] as const));
  return (item) => itemName(names, item);
}
