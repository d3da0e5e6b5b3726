// SPDX-License-Identifier: Apache-2.0

/** The id of a container or batch out of the text of a QR code: the id itself, or an address that ends with it. */
export function containerOf(text: string): string {
  const last = text.trim().split(/[/#?=:]/).pop() ?? "";
  return last.trim();
}
