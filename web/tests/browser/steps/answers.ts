// SPDX-License-Identifier: Apache-2.0
// What stands on the things at hand in the demo world.
import type { Answers } from "./gate";

export const readyToUse: Answers = {
  registration: "DEMO-1",
  containers: ["F1"],
  lastDay: "2026-11-30",
  respirator: "half-mask, Saltwing 40, M",
  cartridge: "p1",
  tank: "16",
  left: "2",
};

export const highStrength: Answers = {
  registration: "DEMO-2",
  containers: ["A1", "B1"],
  lastDay: "2026-11-30",
  respirator: "full-facepiece, Saltwing 40, M",
  cartridge: "y1",
  tank: "20",
  left: "7",
  batch: "M1",
};

/** The batch that a high-strength job takes, mixed at the terminal. */
export const mixIt = ["stock", "mix", "brackwater-20", "--make", "1/2 gal", "--part", "A1", "--part", "B1", "--place", "heron", "--id", "M1", "--respirator-worn"];
