// Asks the page's own library for everything, as the page does. Arguments: the built page's folder of
// Pyodide, the folder that Pyodide was unpacked in, a file of requests (JSON), one a line.

import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [, , built, pyodide, requests] = process.argv;
const { loadPyodide } = await import(pathToFileURL(`${pyodide}/pyodide.mjs`));
const python = await loadPyodide({ stdLibURL: pathToFileURL(`${built}/python.zip`).href });
const bridge = python.pyimport("bracecalc.page.bridge");
const replies = readFileSync(requests, "utf-8").trim().split("\n").map((one) => bridge.call(one));
const loaded = python.runPython(`
import sys, json
json.dumps(sorted({name.partition(".")[0] for name in sys.modules}))`);
console.log(JSON.stringify({ replies: replies.map((one) => JSON.parse(one)), loaded: JSON.parse(loaded) }));
