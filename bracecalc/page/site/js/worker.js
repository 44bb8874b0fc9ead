// Runs the Python engine. One request after the other, JSON text in, JSON text out.
// After a first start it keeps compiled copies of what it loaded, so that the next is quick.

const ENGINE = "/engine";
const LIBRARY = "pyodide/python_stdlib.zip";
const KEPT = "bracecalc-page-compiled-";
const QUIET = 1500; // ms without a request before compiling goes on
const fetchAny = globalThis.fetch;
let bridge;
let lastAsked = 0;

async function load(places, lock, kept) {
  // Pyodide looks for its machine code beside itself; in the single file it lies elsewhere.
  const machine = places["pyodide/pyodide.asm.wasm"];
  globalThis.fetch = async (asked, options) => {
    const address = String(asked.url ?? asked);
    if (kept && address === places[LIBRARY]) return new Response(kept.library);
    return fetchAny(address.endsWith(".wasm") ? machine : asked, options);
  };
  const packed = kept ? kept.engine : fetchAny(places["engine.tar.xz"]).then((reply) => reply.arrayBuffer());
  const { loadPyodide } = await import(places["pyodide/pyodide.mjs"]);
  const { default: createPyodideModule } = await import(places["pyodide/pyodide.asm.mjs"]);
  const python = await loadPyodide({
    indexURL: "file:///", // nothing is looked for there: each file is named below
    stdLibURL: places[LIBRARY],
    lockFileContents: lock,
    packageBaseUrl: "about:blank",
    createPyodideModule,
  });
  const form = kept ? "tar" : "xztar";
  python.unpackArchive(new Uint8Array(await packed), form, { extractDir: ENGINE });
  python.runPython(`import sys; sys.path.insert(0, "${ENGINE}")`);
  bridge = python.pyimport("bracecalc.page.bridge");
  return python;
}

async function keptCopies(name) {
  if (!globalThis.caches || !(await caches.has(name))) return null;
  const cache = await caches.open(name);
  const [library, engine] = await Promise.all([cache.match("/library"), cache.match("/engine")]);
  if (!library || !engine) return null;
  return { library: await library.blob(), engine: await engine.arrayBuffer() };
}

async function start({ parts, lock, name }) {
  const places = {};
  for (const [file, part] of Object.entries(parts)) {
    places[file] = part instanceof Blob ? URL.createObjectURL(part) : part;
  }
  const copies = KEPT + name;
  const kept = await keptCopies(copies).catch(() => null);
  if (kept) {
    try {
      await load(places, lock, kept);
      return;
    } catch {
      await caches.delete(copies); // a copy cut short: from the sources then
    }
  }
  const python = await load(places, lock, null);
  setTimeout(() => keepCompiled(python, copies).catch(() => {}), QUIET);
}

async function keepCompiled(python, copies) {
  if (!globalThis.caches) return;
  const compiler = python.pyimport("bracecalc.page.compiled").Compiler("/lib/python314.zip", ENGINE);
  while (compiler.step()) await quiet();
  const cache = await caches.open(copies);
  for (const part of ["library", "engine"]) {
    const bytes = compiler[part]();
    await cache.put(`/${part}`, new Response(bytes.toJs()));
    bytes.destroy();
    await quiet();
  }
  const old = (await caches.keys()).filter((name) => name.startsWith(KEPT) && name !== copies);
  await Promise.all(old.map((name) => caches.delete(name)));
  self.postMessage({ compiled: true });
}

/** Wait until no request came for a while, so that typing is never slowed. */
async function quiet() {
  do await new Promise((resolve) => setTimeout(resolve, 0));
  while (performance.now() - lastAsked < QUIET);
}

self.onmessage = async ({ data }) => {
  if (data.parts) {
    try {
      await start(data);
      self.postMessage({ ready: true });
      bridge.warm();
    } catch (error) {
      self.postMessage({ failed: String(error) });
    }
    return;
  }
  lastAsked = performance.now();
  try {
    self.postMessage({ id: data.id, reply: bridge.call(data.request) });
  } catch (error) {
    self.postMessage({ id: data.id, crash: String(error) });
  }
};
