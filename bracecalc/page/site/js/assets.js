// Where the page's own files are: beside it on a host, or inside it in the single file.

import { START } from "./start.js";

const ROOT = START.carried ? null : new URL("../", import.meta.url);

/** Return the address of one of the page's files. */
export async function address(name, type) {
  if (ROOT) return new URL(name, ROOT).href;
  const { bytes, places } = globalThis.bracecalcCarried;
  return places.get(name) ?? URL.createObjectURL(new Blob([await bytes(name)], { type }));
}

const MACHINE = "pyodide/pyodide.asm.wasm";
const TYPES = {
  "pyodide/pyodide.mjs": "text/javascript",
  "pyodide/pyodide.asm.mjs": "text/javascript",
  "pyodide/python.zip": "application/zip",
};

/**
 * Return where the engine's worker finds each file: an address, or in the single file the bytes
 * themselves, as a worker there can't read what the page has made an address of.
 */
export async function engineParts() {
  const parts = {};
  const types = ROOT ? TYPES : { ...TYPES, [MACHINE]: "application/wasm" };
  for (const [name, type] of Object.entries(types)) {
    parts[name] = ROOT
      ? await address(name)
      : new Blob([await globalThis.bracecalcCarried.bytes(name)], { type });
  }
  if (ROOT) {
    const name = navigator.serviceWorker?.controller ? MACHINE : `${MACHINE}.gz`;
    parts[name] = await address(name);
  }
  return parts;
}

/** Return the reader of square codes; loaded when a code is first scanned. */
export async function codeReader() {
  if (ROOT) return import(new URL("qr/decode.js", ROOT).href);
  const { bytes } = globalThis.bracecalcCarried;
  const text = async (name) => new TextDecoder().decode(await bytes(name));
  const made = (source) => URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
  const index = made(await text("qr/index.js"));
  return import(made((await text("qr/decode.js")).replace("./index.js", index)));
}

const LICENCES = ["NOTICE", "MPL-2.0", "QR-MIT", "TOMLKIT-MIT", "SEGNO-BSD"];

/** Return the licences of what the page carries, one after the other. */
export async function licences() {
  const texts = LICENCES.map(async (name) => {
    const file = `licences/${name}.txt`;
    if (ROOT) return (await fetch(new URL(file, ROOT))).text();
    return new TextDecoder().decode(await globalThis.bracecalcCarried.bytes(file));
  });
  return (await Promise.all(texts)).join("\n\n");
}

/** Whether the page stands alone in one file. */
export const carried = Boolean(START.carried);
