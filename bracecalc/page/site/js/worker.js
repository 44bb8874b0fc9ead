// Runs the Python engine. One request after the other, JSON text in, JSON text out.

const SITE_PACKAGES = "/engine";
let bridge;

async function start({ parts, lock }) {
  const places = {};
  for (const [name, part] of Object.entries(parts)) {
    places[name] = part instanceof Blob ? URL.createObjectURL(part) : part;
  }
  // Pyodide looks for its machine code beside itself; in the single file it lies elsewhere.
  const machine = places["pyodide/pyodide.asm.wasm"];
  const fetchAny = globalThis.fetch;
  globalThis.fetch = (asked, options) =>
    fetchAny(String(asked.url ?? asked).endsWith(".wasm") ? machine : asked, options);
  const engine = fetchAny(places["engine.tar.xz"]).then((reply) => reply.arrayBuffer());
  const { loadPyodide } = await import(places["pyodide/pyodide.mjs"]);
  const { default: createPyodideModule } = await import(places["pyodide/pyodide.asm.mjs"]);
  const python = await loadPyodide({
    indexURL: "file:///", // nothing is looked for there: each file is named below
    stdLibURL: places["pyodide/python_stdlib.zip"],
    lockFileContents: lock,
    packageBaseUrl: "about:blank",
    createPyodideModule,
  });
  python.unpackArchive(new Uint8Array(await engine), "xztar", { extractDir: SITE_PACKAGES });
  python.runPython(`import sys; sys.path.insert(0, "${SITE_PACKAGES}")`);
  bridge = python.pyimport("bracecalc.page.bridge");
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
  try {
    self.postMessage({ id: data.id, reply: bridge.call(data.request) });
  } catch (error) {
    self.postMessage({ id: data.id, crash: String(error) });
  }
};
