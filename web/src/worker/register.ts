// SPDX-License-Identifier: Apache-2.0
import { Observable } from "../observable";

/** A newer version that waits; null where there is none. */
export const waitingVersion = new Observable<ServiceWorker | null>(null);

function watchFor(registration: ServiceWorkerRegistration): void {
  const tell = () => {
    // The very first worker waits for nobody: there is no older version on the screen.
    if (registration.waiting && navigator.serviceWorker.controller) waitingVersion.set(registration.waiting);
  };
  tell();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", tell);
  });
}

export function registerServiceWorker(): void {
  if (!("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register("/service_worker.js").then(watchFor, (fault: unknown) => {
    console.warn("the pages will not open without a signal:", fault);
  });
}

/** Once, when somebody asks for it: the new version takes over and the page begins anew. */
export function takeNewVersion(): void {
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waitingVersion.value?.postMessage("take-over");
}
