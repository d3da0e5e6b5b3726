// SPDX-License-Identifier: Apache-2.0
// What can be done to a container, and what each asks for.
import type { OperationId } from "../api/generated";

export interface VesselAction {
  id: "draw" | "putBack" | "openContainer" | "moveVessel" | "countVessel" | "spill" | "dispose" | "correctContainer";
  members: { name: string; volume?: boolean; date?: boolean; needed: boolean }[];
}

export const vesselActions: (VesselAction & { id: OperationId })[] = [
  { id: "draw", members: [{ name: "volume", volume: true, needed: true }, { name: "job", needed: false }, { name: "reason", needed: false }] },
  { id: "putBack", members: [{ name: "volume", volume: true, needed: true }, { name: "job", needed: false }] },
  { id: "openContainer", members: [] },
  { id: "moveVessel", members: [{ name: "to", needed: true }] },
  { id: "countVessel", members: [{ name: "found", volume: true, needed: true }] },
  { id: "spill", members: [{ name: "volume", volume: true, needed: true }, { name: "what_was_done", needed: true }] },
  { id: "dispose", members: [{ name: "how", needed: true }, { name: "volume", volume: true, needed: false }] },
  { id: "correctContainer", members: [{ name: "lot", needed: false }, { name: "expires", date: true, needed: false }, { name: "supplier", needed: false }, { name: "cost", needed: false }, { name: "why", needed: true }] },
];

/** A batch was mixed, not received: nothing was typed off a label. What the label says is put right with the office alone. */
export const actionsOn = (vessel: { batch: boolean }, reachesOffice: boolean) =>
  vesselActions.filter(({ id }) => id !== "correctContainer" || (!vessel.batch && reachesOffice));
