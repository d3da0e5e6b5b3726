// SPDX-License-Identifier: Apache-2.0
import type { Person } from "../api/generated";

interface FitTest {
  what: string;
  facepiece?: string;
  facepiece_model?: string;
  facepiece_size?: string;
  withdrawn?: unknown;
}

/** What somebody was fit-tested with, each once, as the gate takes it: "half-mask, Saltwing 40, M". */
export function facepiecesOf(person: Person | undefined): string[] {
  const tests = ((person?.credentials ?? []) as unknown as FitTest[]).filter((one) => one.what === "fit-test" && !one.withdrawn);
  const whole = tests.flatMap(({ facepiece, facepiece_model, facepiece_size }) =>
    (facepiece && facepiece_model && facepiece_size ? [[facepiece, facepiece_model, facepiece_size].join(", ")] : []));
  return [...new Set(whole)];
}
