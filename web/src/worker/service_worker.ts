// SPDX-License-Identifier: Apache-2.0
/// <reference lib="webworker" />
// Keeps the pages on the phone, so that they open with no signal. The API never goes through it.
import { clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope;

cleanupOutdatedCaches();
precacheAndRoute(PRECACHE);
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//, /^\/health$/, /^\/metrics$/] }));
clientsClaim();

// A new version waits until whoever works with the old one says so: nothing changes in the middle of a job.
self.addEventListener("message", (event) => {
  if (event.data === "take-over") void self.skipWaiting();
});
