// Keeps one whole build of the page on the device. BUILD is written above by the build: each file
// with the digest of its content, and which of them lie packed on the host.
// Stored jobs live in IndexedDB, which nothing here touches.

const PREFIX = "bracecalc-page-";
const CACHE = PREFIX + BUILD.id;
const NAMES = Object.keys(BUILD.files);
const TRIES = 3;
const TYPES = { wasm: "application/wasm" };

const digest = async (bytes) =>
  [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))]
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("");

const isWhole = async (name, reply) => (await digest(await reply.arrayBuffer())) === BUILD.files[name];

async function fetched(name) {
  const packed = BUILD.packed.includes(name);
  const reply = await fetch(packed ? `${name}.gz` : name, { cache: "no-cache" });
  if (!reply.ok) throw new Error(`${name}: ${reply.status}`);
  if (!packed) return reply;
  const headers = new Headers(reply.headers);
  for (const about of ["content-encoding", "content-length"]) headers.delete(about);
  headers.set("content-type", TYPES[name.split(".").pop()]);
  return new Response(reply.body.pipeThrough(new DecompressionStream("gzip")), { headers });
}

/** Fetch one file and keep it; what isn't of this build is never kept. */
async function keep(name) {
  const reply = await fetched(name);
  const copy = reply.clone();
  if (!(await isWhole(name, copy))) throw new Error(`${name}: not of this build`);
  await (await caches.open(CACHE)).put(name, reply.clone());
  return reply;
}

async function keepStubbornly(name) {
  for (let left = TRIES; ; left -= 1) {
    try {
      await keep(name);
      return true;
    } catch {
      if (left === 1) return false;
      await new Promise((resolve) => setTimeout(resolve, 300));
    }
  }
}

/** Fetch what is missing; return what still is, and how many were fetched. What is kept stays. */
async function mend({ verify = false } = {}) {
  const cache = await caches.open(CACHE);
  const missing = [];
  let mended = 0;
  for (const name of NAMES) {
    const kept = await cache.match(name);
    if (kept && (!verify || (await isWhole(name, kept)))) continue;
    if (await keepStubbornly(name)) mended += 1;
    else missing.push(name);
  }
  return { missing, mended };
}

self.addEventListener("install", (event) => {
  event.waitUntil(
    mend().then(({ missing }) => {
      if (missing.length) throw new Error(`not kept: ${missing.join(", ")}`);
    }),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((name) => name.startsWith(PREFIX) && name !== CACHE))
      .then((old) => Promise.all(old.map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  const { data, ports } = event;
  // A new build waits until the person taps "update", so that no two builds ever mix.
  if (data.ask === "take over") self.skipWaiting();
  if (data.ask === "mend") {
    event.waitUntil(mend(data).then((found) => ports[0].postMessage(found)));
  }
});

async function answer(request) {
  const place = new URL(request.url).href.slice(self.registration.scope.length).split(/[?#]/)[0];
  const name = request.mode === "navigate" ? "index.html" : place;
  if (!Object.hasOwn(BUILD.files, name)) return fetch(request);
  const kept = await (await caches.open(CACHE)).match(name);
  if (kept) return kept;
  return keep(name).catch(() => fetch(request));
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});
