// SPDX-License-Identifier: Apache-2.0
// The faults of a label that was not adopted, each at its line: the desk says "text:12:3".
import { Refused } from "../api/http";

export interface LabelFault {
  line: number | null;
  column: number | null;
  where: string;
  words: string;
  hint: string;
}

interface ToldFault {
  detail?: string;
  where?: string;
  hint?: string;
}

export function labelFaults(fault: unknown): LabelFault[] {
  if (!(fault instanceof Refused)) return [];
  const told = (fault.problem.faults ?? [fault.problem]) as ToldFault[];
  return told.map(({ detail = "", where = "", hint = "" }) => {
    const place = /:(\d+)(?::(\d+))?$/.exec(where);
    return { line: place ? Number(place[1]) : null, column: place?.[2] ? Number(place[2]) : null, where, words: detail, hint };
  });
}
