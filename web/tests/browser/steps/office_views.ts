// SPDX-License-Identifier: Apache-2.0
// The views of office and audit, each as it opens and, where it has any, with its forms unfolded.
import type { Device } from "../harness/device";
import type { SeenView } from "./views";

const unfold = ({ page }: Device): Promise<void> => page.evaluate(() => {
  for (const fold of document.querySelectorAll<HTMLDetailsElement>("details.fold")) fold.open = true;
});

const view = (name: string, path: string, ready = "table"): SeenView => ({ name, path, ready });
const unfolded = (name: string, path: string, ready = "table"): SeenView[] => [view(name, path, ready), { name: `${name}-forms`, path, ready, then: unfold }];

export const officeViews = (job: string): SeenView[] => [
  view("office", "/office", ".card"),
  ...unfolded("shelf", "/office/shelf"),
  view("receive", "/office/receive", "form"),
  ...unfolded("order", "/office/order"),
  ...unfolded("trends", "/office/trends", ".chart canvas"),
  view("costs", "/office/costs", "main p"),
  ...unfolded("crew", "/office/crew"),
  ...unfolded("person", "/office/crew/sedge"),
  ...unfolded("labels", "/office/labels"),
  view("adopt", "/office/labels/adopt", "textarea"),
  view("compare", "/office/labels/compare/fenmist-rtu", "textarea"),
  ...unfolded("gear", "/office/gear"),
  ...unfolded("fogger", "/office/gear/foggers/gust"),
  ...unfolded("places", "/office/places"),
  ...unfolded("audit", "/audit", "main h2"),
  view("jobs", "/audit/jobs"),
  ...unfolded("life", `/audit/jobs/${job}`, ".life"),
  view("entry", "/audit/entries/12", "pre.code"),
  view("record", "/audit/record", "textarea"),
  view("papers", "/audit/papers", ".papers"),
  view("keep", "/audit/keep"),
];
