// Compiles what the page runs, on the page's own Python, when the page is built.
// Arguments: Pyodide's folder, the folder of the sources, the file to write.

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [, , pyodide, sources, out] = process.argv;

try {
  const { loadPyodide } = await import(pathToFileURL(join(pyodide, "pyodide.mjs")));
  // no chance in it: the same sources give the same file
  const python = await loadPyodide({ env: { PYTHONHASHSEED: "0", HOME: "/home/pyodide" } });
  python.FS.mkdirTree("/sources");
  python.FS.mount(python.FS.filesystems.NODEFS, { root: sources }, "/sources");
  python.runPython(`import sys; sys.path.insert(0, "/sources"); sys.dont_write_bytecode = True`);
  const make = python.pyimport("bracecalc.page.compiling").library;
  writeFileSync(out, make("/lib/python314.zip", "/sources").toJs());
} catch (error) {
  console.error(String(error.message).trim());
  process.exit(1);
}
