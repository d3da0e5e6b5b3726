// SPDX-License-Identifier: Apache-2.0
import { es } from "./es";
import { gateEs } from "./gate_es";
import { sayings } from "./sayings";
import { sayingsEs, valuesEs } from "./sayings_es";

/** "fog-started": "nebulización empezada". */
const kinds = Object.entries(es).filter(([key]) => key.startsWith("entry.")).map(([key, words]) => [key.slice("entry.".length), words.charAt(0).toLowerCase() + words.slice(1)] as const);

export const saidEs = sayings(sayingsEs, { ...Object.fromEntries(kinds), ...valuesEs }, gateEs);
