// Presses keys without a screen. Arguments: the page's folder of scripts, then either
// "all", a unit and a number of keys: every text that so many keys can write, what is stored of it,
// and what it reads as; or "these", a unit and sequences as JSON: what each writes.

import { pathToFileURL } from "node:url";

const [, , scripts, what, unit, told] = process.argv;
const { inches, press, withUnit } = await import(pathToFileURL(`${scripts}/length.js`));
const FRACTIONS = ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
const KEYS = [..."0123456789", ".", "minus", "delete", ...(unit === "in" ? ["feet", "sixteenth", ...FRACTIONS] : [])];

function everyText(most) {
  const all = new Set([""]);
  let last = all;
  for (let count = 0; count < most; count += 1) {
    const next = new Set();
    for (const text of last) {
      for (const key of KEYS) {
        const { text: after } = press(text, key, unit);
        if (!all.has(after)) next.add(after);
      }
    }
    for (const text of next) all.add(text);
    last = next;
  }
  return all;
}

if (what === "these") {
  const write = (keys) => keys.reduce((text, key) => press(text, key, unit).text, "");
  console.log(JSON.stringify(JSON.parse(told).map(write)));
} else {
  const lines = [];
  for (const text of everyText(Number(told))) {
    const stored = withUnit(text, unit);
    const read = inches(stored);
    lines.push(`${stored}\t${read ? `${read[0]}/${read[1]}` : ""}`);
  }
  process.stdout.write(`${lines.join("\n")}\n`);
}
