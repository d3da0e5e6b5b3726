// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import { clock } from "../data/clock";

/** The time, again and again. */
export function useNow(everyMs: number): number {
  const [now, setNow] = useState(clock.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(clock.now()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}
