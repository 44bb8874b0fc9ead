// Runs the Python engine. One request after the other, JSON text in, JSON text out.

const MACHINE = "pyodide/pyodide.asm.wasm";
const PACKED = `${MACHINE}.gz`; // as it lies on the host
const fetchAny = globalThis.fetch;
let bridge;

/** The machine code: kept unpacked on the device, packed on the host. */
async function machine(places) {
  if (places[MACHINE]) return fetchAny(places[MACHINE]);
  const { body } = await fetchAny(places[PACKED]);
  const headers = { "content-type": "application/wasm" };
  return new Response(body.pipeThrough(new DecompressionStream("gzip")), { headers });
}

async function start({ parts, lock }) {
  const places = {};
  for (const [file, part] of Object.entries(parts)) {
    places[file] = part instanceof Blob ? URL.createObjectURL(part) : part;
  }
  // asked for at once, as Pyodide would wait for its scripts first
  const [code, library] = [machine(places), fetchAny(places["pyodide/python.zip"])];
  globalThis.fetch = (asked, options) => {
    const address = String(asked.url ?? asked);
    if (address.endsWith(".wasm")) return code;
    return address === places["pyodide/python.zip"] ? library : fetchAny(asked, options);
  };
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([
    import(places["pyodide/pyodide.mjs"]),
    import(places["pyodide/pyodide.asm.mjs"]),
  ]);
  const python = await loadPyodide({
    indexURL: "file:///", // nothing is looked for there: each file is named below
    stdLibURL: places["pyodide/python.zip"],
    lockFileContents: lock,
    packageBaseUrl: "about:blank",
    createPyodideModule,
  });
  bridge = python.pyimport("bracecalc.page.bridge");
}

self.onmessage = async ({ data }) => {
  if (data.parts) {
    try {
      await start(data);
      self.postMessage({ ready: true });
    } catch (error) {
      self.postMessage({ failed: String(error) });
    }
    return;
  }
  try {
    self.postMessage({ id: data.id, reply: bridge.call(data.request) });
  } catch (error) {
    self.postMessage({ id: data.id, crash: String(error) });
  }
};
