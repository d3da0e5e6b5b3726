// SPDX-License-Identifier: Apache-2.0
// What can be done to a container, and what each asks for.
import type { OperationId } from "../api/generated";

export interface VesselAction {
  id: "draw" | "putBack" | "openContainer" | "moveVessel" | "countVessel" | "spill" | "dispose";
  members: { name: string; volume?: boolean; needed: boolean }[];
}

export const vesselActions: (VesselAction & { id: OperationId })[] = [
  { id: "draw", members: [{ name: "volume", volume: true, needed: true }, { name: "job", needed: false }, { name: "reason", needed: false }] },
  { id: "putBack", members: [{ name: "volume", volume: true, needed: true }, { name: "job", needed: false }] },
  { id: "openContainer", members: [] },
  { id: "moveVessel", members: [{ name: "to", needed: true }] },
  { id: "countVessel", members: [{ name: "found", volume: true, needed: true }] },
  { id: "spill", members: [{ name: "volume", volume: true, needed: true }, { name: "what_was_done", needed: true }] },
  { id: "dispose", members: [{ name: "how", needed: true }, { name: "volume", volume: true, needed: false }] },
];
