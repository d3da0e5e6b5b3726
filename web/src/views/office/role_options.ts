// SPDX-License-Identifier: Apache-2.0
import type { Option } from "../../components/choice";

const sets = ["technician", "owner", "safety-officer", "technician,owner", "technician,safety-officer", "owner,safety-officer", "technician,owner,safety-officer"];

/** Every set of roles somebody can have, as one choice. */
export const roleOptions = (word: (group: string, name: string) => string): Option<string>[] =>
  sets.map((set) => ({ value: set, words: set.split(",").map((role) => word("role", role)).join(", ") }));
