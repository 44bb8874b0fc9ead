// Runs the project's tests on the Python of the page, under Node.
// Arguments: Pyodide's folder, the project's folder, a folder of pure packages, pytest's own.

const [, , pyodide, project, packages, ...options] = process.argv;
const { loadPyodide } = await import(`${pyodide}/pyodide.mjs`);
const python = await loadPyodide();
for (const [place, root] of [
  ["/project", project],
  ["/packages", packages],
]) {
  python.FS.mkdirTree(place);
  python.FS.mount(python.FS.filesystems.NODEFS, { root }, place);
}
const code = await python.runPythonAsync(`
import os, sys
sys.path[:0] = ["/packages", "/project", "/project/tests"]
sys.dont_write_bytecode = True
os.chdir("/project")
from page import engine_in_node
engine_in_node.run(${JSON.stringify(options)})
`);
process.exit(code);
