// SPDX-License-Identifier: Apache-2.0
// The labels in use, kept on the device whatever else is: somebody may need their first aid where there is no signal.
import type { LabelText } from "../api/generated";
import { ask } from "./ask";
import { openDatabase } from "./database";
import { session } from "./session";
import { changes } from "./tabs";

const key = "labels";

export async function keptLabels(): Promise<LabelText[]> {
  return ((await (await openDatabase()).get("kept", key)) as LabelText[] | undefined) ?? [];
}

async function keepLabels(): Promise<void> {
  const kept = new Map((await keptLabels()).map((label) => [label.text, label]));
  const { items } = await ask("listProducts");
  const labels: LabelText[] = [];
  for (const { current } of items) if (current) labels.push(await ask("showLabel", { path: { digest: current } }));
  if (labels.length !== kept.size || labels.some((label) => !kept.has(label.text)))
    await (await openDatabase()).put("kept", labels, key);
}

/** As somebody signs in and the book changes; what cannot be asked now stays as it was. */
export function watchLabels(): void {
  let asked = 0;
  const look = () => {
    // Labels change seldom, the book often.
    if (session.value.state !== "in" || Date.now() - asked < 60_000) return;
    asked = Date.now();
    keepLabels().catch(() => (asked = 0));
  };
  changes.watch(look);
  session.watch(look);
  look();
}

export async function productOfJob(job: string): Promise<string> {
  return ask("showJob", { path: { job } }).then((shown) => shown.product, () => "");
}
