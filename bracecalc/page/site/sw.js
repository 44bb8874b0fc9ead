// Keeps one whole build of the page on the device. BUILD is written above by the build.
// Stored jobs live in IndexedDB, which nothing here touches.

const PREFIX = "bracecalc-page-";
const CACHE = PREFIX + BUILD.id;
const COMPILED = `${PREFIX}compiled-`; // the engine's own, which it renews itself

self.addEventListener("install", (event) => {
  const wanted = BUILD.files.map((name) => new Request(name, { cache: "no-cache" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(wanted)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith(PREFIX) && !name.startsWith(COMPILED))
            .filter((name) => name !== CACHE)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});

// A new build waits until the person taps "update", so that no two builds ever mix.
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const asked = new URL(request.url);
  if (request.method !== "GET" || asked.origin !== self.location.origin) return;
  const key = request.mode === "navigate" ? "index.html" : request;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(key, { ignoreSearch: true }))
      .then((kept) => kept || fetch(request)),
  );
});
