// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";

const pauseMs = 250;

/** What was typed, once nobody types any more. */
export function useSettled(text: string): string {
  const [settled, setSettled] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(text), pauseMs);
    return () => clearTimeout(timer);
  }, [text]);
  return settled;
}
