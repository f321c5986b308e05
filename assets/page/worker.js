"use strict";
// Keeps the page for use without a network. What is kept is named by its content, so that files of two versions never meet: a newer page is fetched as a whole
// beside the older one, and taken at a start at which no page of the older one is open.
const version = "VERSION";
const cacheName = `propsoff-page-${version}`;
const files = FILES;

self.addEventListener("install", (e) => {
  e.waitUntil(caches.open(cacheName).then((cache) => cache.addAll(files.map((f) => new Request(f === "./" ? f : `${f}?v=${version}`, f === "./" ? { cache: "no-cache" } : {})))));
});

self.addEventListener("activate", (e) => {
  e.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith("propsoff-page-") && name !== cacheName) await caches.delete(name);
    await self.clients.claim();
  })());
});

self.addEventListener("message", (e) => {
  if (e.data !== "begin") return;
  e.waitUntil(self.clients.matchAll({ type: "window", includeUncontrolled: true }).then((open) => open.length <= 1 ? self.skipWaiting() : undefined));
});

self.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url), here = new URL("./", self.location);
  if (e.request.method !== "GET" || url.origin !== here.origin || !url.pathname.startsWith(here.pathname)) return;
  const name = url.pathname.slice(here.pathname.length) || "./";
  const kept = name === "index.html" ? "./" : name;
  if (!files.includes(kept)) return;
  e.respondWith(caches.open(cacheName).then((cache) => cache.match(kept, { ignoreSearch: true })).then((found) => found || fetch(e.request)));
});
