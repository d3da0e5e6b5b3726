// SPDX-License-Identifier: Apache-2.0
import { gateEs } from "./gate_es";
import { sayings } from "./sayings";
import { sayingsEs, valuesEs } from "./sayings_es";

export const saidEs = sayings(sayingsEs, valuesEs, gateEs);
