// SPDX-License-Identifier: Apache-2.0
// What people call what the record names by a key: "brackwater-20/Part A concentrate" is Brackwater 20, Part A concentrate.
import { largestPage } from "./ask";
import { useAsk } from "./use_ask";

export function itemName(names: ReadonlyMap<string, string>, item: string): string {
  const [product = "", ...part] = item.split("/");
  return [names.get(product) ?? product, ...(part.length > 0 ? [part.join("/")] : [])].join(", ");
}

/** Until the products are known the key stands. */
export function useItemNames(): (item: string) => string {
  const { answer } = useAsk("listProducts", { query: { all: "true", limit: largestPage } });
  const names = new Map((answer?.items ?? []).map((one) => [one.product, one.name] as const));
  return (item) => itemName(names, item);
}
