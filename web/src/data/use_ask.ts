// SPDX-License-Identifier: Apache-2.0
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { OperationId, Operations } from "../api/generated";
import type { Call } from "../api/operation";
import { useObservable } from "../observable";
import { ask } from "./ask";
import { desk } from "./engines";
import { changes } from "./tabs";

export interface Asked<T> {
  answer: T | undefined;
  fault: unknown;
  again: () => void;
}

/** What an operation answers, asked again whenever the book changes. The last answer stays while a new one comes. */
export function useAsk<Id extends OperationId>(id: Id, call: Call<Id> = {}, everyMs = 0): Asked<Operations[Id]["answer"]> {
  const [state, setState] = useState<{ answer?: Operations[Id]["answer"]; fault?: unknown }>({});
  const change = useObservable(changes);
  const local = useObservable(desk);
  const key = JSON.stringify([id, call]);
  const asked = useRef(0);
  const shown = useRef(0);

  const again = useCallback(() => {
    const mine = ++asked.current;
    // An answer that comes late says less than the one that was asked for after it, or is another question's.
    const show = (next: (before: { answer?: Operations[Id]["answer"]; fault?: unknown }) => typeof before) => {
      if (mine <= shown.current) return;
      shown.current = mine;
      setState(next);
    };
    ask(id, call).then((answer) => show(() => ({ answer })), (fault: unknown) => show((before) => ({ ...before, fault })));
    // `key` says all there is to say of id and call.
  }, [key]);

  useEffect(() => {
    shown.current = asked.current;
    setState({});
  }, [key]);
  useEffect(again, [again, change, local]);
  useEffect(() => {
    if (everyMs === 0) return;
    const timer = setInterval(again, everyMs);
    return () => clearInterval(timer);
  }, [again, everyMs]);

  return { answer: state.answer, fault: state.fault, again };
}
