// SPDX-License-Identifier: Apache-2.0
// One value that views watch. The whole of our state management.
import { useEffect, useState } from "preact/hooks";

export class Observable<T> {
  private readonly watchers = new Set<(value: T) => void>();

  constructor(private current: T) {}

  get value(): T {
    return this.current;
  }

  set(value: T): void {
    if (Object.is(value, this.current)) return;
    this.current = value;
    for (const watcher of [...this.watchers]) watcher(value);
  }

  /** Calls for each later value; gives what ends it. */
  watch(watcher: (value: T) => void): () => void {
    this.watchers.add(watcher);
    return () => void this.watchers.delete(watcher);
  }
}

/** The value, for a component that is drawn again whenever it changes. */
export function useObservable<T>(observable: Observable<T>): T {
  const [value, setValue] = useState(observable.value);
  useEffect(() => {
    setValue(observable.value);
    return observable.watch(setValue);
  }, [observable]);
  return value;
}
