// Keeps the pages for work at the machine, and what they need, so that they can
// be read while the network is away. The network is asked first; what it
// answers replaces what is kept.
"use strict";
const kept = "work-1";
const keeps = (u) => /^\/docket\/[^/]+\/work$/.test(u.pathname) || u.pathname.startsWith("/look/");

self.addEventListener("install", (e) => {
  e.waitUntil(caches.open(kept).then((c) => c.addAll(["/look/table.css", "/look/work.js", "/look/table.js", "/look/mark.svg"])).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (e) => {
  e.waitUntil(caches.keys().then((all) => Promise.all(all.filter((k) => k !== kept).map((k) => caches.delete(k)))).then(() => self.clients.claim()));
});
self.addEventListener("fetch", (e) => {
  const u = new URL(e.request.url);
  if (e.request.method !== "GET" || u.origin !== location.origin || !keeps(u)) return;
  e.respondWith((async () => {
    const cache = await caches.open(kept);
    try {
      const resp = await fetch(e.request);
      // A page that led elsewhere (to the sign-in) is not the work.
      if (resp.ok && !resp.redirected) await cache.put(u.pathname, resp.clone());
      return resp;
    } catch (err) {
      const old = await cache.match(u.pathname);
      if (old) return old;
      throw err;
    }
  })());
});
