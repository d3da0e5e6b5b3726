// SPDX-License-Identifier: Apache-2.0
// Before the first paint: nobody in the sun wants to see a dark page flash by, nor the other way round.
import { applyPreferences, preferences } from "./settings/preferences";

applyPreferences(preferences.value);
