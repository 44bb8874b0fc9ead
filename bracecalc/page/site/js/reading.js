// What the keypad writes: text as a person would write it, read by the engine alone.

const FRACTION = /^(.*?)(?:(?:^|\s)(\d+)\/(\d+))?$/;
const SIXTEENTHS = 16;

function split(text) {
  const [, before, top, bottom] = FRACTION.exec(text.trim());
  const count = top && SIXTEENTHS % Number(bottom) === 0 ? (top * SIXTEENTHS) / bottom : 0;
  return { before: before.trimEnd(), count: top ? count : 0 };
}

function join(before, count) {
  if (count === 0) return before;
  let [top, bottom] = [count, SIXTEENTHS];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return `${before}${before ? " " : ""}${top}/${bottom}`;
}

/** Return the text after a key of the keypad. */
export function press(text, key) {
  if (key === "delete") return text.replace(/(\s*\d+\/\d+|'\s*|.)$/, "");
  if (key === "feet") return /^\d+$/.test(text.trim()) ? `${text.trim()}' ` : text;
  if (key === "sixteenth") {
    const { before, count } = split(text);
    return join(before, (count + 1) % SIXTEENTHS);
  }
  if (key.includes("/")) {
    const [top, bottom] = key.split("/");
    return join(split(text).before, (top * SIXTEENTHS) / bottom);
  }
  if (/\d\/\d+$/.test(text)) return text; // a digit after a fraction would change the fraction
  if (key === "." && /\.\d*$/.test(text)) return text;
  if (key === "minus") return text.startsWith("-") ? text.slice(1) : `-${text}`;
  return text + key;
}

/** Return what is stored: the text with its unit, so that it means the same everywhere. */
export function withUnit(text, unit) {
  const bare = text.trim();
  if (bare === "") return "";
  if (/[a-z"\u2033]/i.test(bare)) return bare; // the person wrote a unit
  if (unit === "mm" || unit === "lb" || unit === "kg") return `${bare} ${unit}`;
  if (bare.includes("'")) return /'$/.test(bare) ? `${bare} 0"` : `${bare}"`;
  return `${bare} in`;
}

/** Return the text of a stored value without the unit that `withUnit` put there. */
export function withoutUnit(stored) {
  const match = /^(.*?)\s*(in|mm|lb|kg|")$/.exec(String(stored));
  return match ? { text: match[1], unit: match[2] === '"' ? "in" : match[2] } : null;
}
