// What the keypad writes and reads: a length as people write it. No screen, no engine: text in,
// text out. The tests hold every sequence of keys to the engine's own reader.

const SIXTEENTHS = 16;
const INCHES_PER_FOOT = 12;
const MOST = {
  in: { whole: 4, decimals: 4 },
  mm: { whole: 5, decimals: 1 },
  lb: { whole: 5, decimals: 2 },
  kg: { whole: 5, decimals: 2 },
};
const MOST_FEET = 3;

/** Why a key changed nothing; the screen has the words. */
export const REFUSED = {
  fraction: "fraction", // a digit or a point after a fraction
  decimals: "decimals", // a fraction after decimals
  long: "long", // more digits than anything measured has
  foot: "foot", // 12 in or more after feet
  feet: "feet", // feet need a whole number before them, once
};

/**
 * Return a text taken apart, or null where the keypad can't have written it:
 * `{minus, feet, whole, decimals, top, bottom}`; what is not there is "" (feet, decimals: null).
 */
export function parts(text) {
  const bare = text.trim();
  const fraction = /(?:^|[-' ])(\d+)\/(\d+)$/.exec(bare);
  const before = fraction ? bare.slice(0, bare.length - `${fraction[1]}/${fraction[2]}`.length).trimEnd() : bare;
  const match = /^(-)?(?:(\d+)'\s*)?(?:(\d+)(?:\.(\d*))?)?$/.exec(before);
  if (!match) return null;
  const [, minus, feet, whole = "", decimals] = match;
  if (fraction && decimals !== undefined) return null;
  const [top, bottom] = fraction ? [Number(fraction[1]), Number(fraction[2])] : [0, 0];
  return { minus: Boolean(minus), feet: feet ?? null, whole, decimals: decimals ?? null, top, bottom };
}

function written({ minus, feet, whole, decimals, top, bottom }) {
  const sign = minus ? "-" : "";
  const before = feet === null ? "" : `${feet}' `;
  const point = decimals === null ? "" : `.${decimals}`;
  const fraction = bottom ? `${whole ? " " : ""}${top}/${bottom}` : "";
  return `${sign}${before}${whole}${point}${fraction}`;
}

function sixteenths(count) {
  let [top, bottom] = [count, SIXTEENTHS];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return { top, bottom };
}

const reaches = (read) => read.feet !== null && Number(`${read.whole || 0}.${read.decimals ?? 0}`) >= INCHES_PER_FOOT;

function digit(read, key, most) {
  if (read.bottom) return REFUSED.fraction;
  if (read.decimals !== null) {
    if (read.decimals.length === most.decimals) return REFUSED.long;
    return { ...read, decimals: read.decimals + key };
  }
  const whole = read.whole === "0" ? key : read.whole + key;
  if (whole.length > most.whole) return REFUSED.long;
  return { ...read, whole };
}

function point(read) {
  if (read.bottom) return REFUSED.fraction;
  if (read.decimals !== null) return REFUSED.decimals;
  return { ...read, whole: read.whole || "0", decimals: "" };
}

function eighths(read, key) {
  if (read.decimals !== null) return REFUSED.decimals;
  const [top, bottom] = key.split("/").map(Number);
  return { ...read, top, bottom };
}

/** One sixteenth more of what stands there, whichever sign it has; a full inch is carried. */
function sixteenth(read, most) {
  if (read.decimals !== null) return REFUSED.decimals;
  const count = read.bottom ? (read.top * SIXTEENTHS) / read.bottom : 0;
  if (!Number.isInteger(count)) return REFUSED.fraction;
  if (count + 1 < SIXTEENTHS) return { ...read, ...sixteenths(count + 1) };
  let [feet, whole] = [read.feet, Number(read.whole || 0) + 1];
  if (feet !== null && whole === INCHES_PER_FOOT) [feet, whole] = [String(Number(feet) + 1), 0];
  if (String(whole).length > most.whole) return REFUSED.long;
  return { ...read, feet, whole: String(whole), top: 0, bottom: 0 };
}

function feetOf(read) {
  if (read.feet !== null || !read.whole || read.decimals !== null || read.bottom) return REFUSED.feet;
  if (read.whole.length > MOST_FEET) return REFUSED.long;
  return { ...read, feet: read.whole, whole: "" };
}

function without(read) {
  if (read.bottom) return { ...read, top: 0, bottom: 0 };
  if (read.decimals) return { ...read, decimals: read.decimals.slice(0, -1) };
  if (read.decimals === "") return { ...read, decimals: null };
  if (read.whole) return { ...read, whole: read.whole.slice(0, -1) };
  if (read.feet !== null) return { ...read, feet: null, whole: read.feet };
  return { ...read, minus: false };
}

function pressed(read, key, unit) {
  const most = MOST[unit];
  if (key === "delete") return without(read);
  if (key === "minus") return { ...read, minus: !read.minus };
  if (key === "feet") return feetOf(read);
  if (key === "sixteenth") return sixteenth(read, most);
  if (key === ".") return point(read);
  return key.includes("/") ? eighths(read, key) : digit(read, key, most);
}

/**
 * Return `{text, refused}` after a key of the keypad: 0 to 9, ".", "feet", "sixteenth", "minus",
 * "delete" or a fraction as "3/8". A key that doesn't fit changes nothing, and `refused` says why.
 * A text that a keyboard wrote in another way is only taken back letter by letter.
 */
export function press(text, key, unit) {
  const read = parts(text);
  if (!read) return key === "delete" ? { text: text.trimEnd().slice(0, -1) } : { text, refused: REFUSED.feet };
  const next = pressed(read, key, unit);
  if (typeof next === "string") return { text, refused: next };
  if (reaches(next)) return { text, refused: REFUSED.foot };
  return { text: written(next) };
}

/** Return what is stored: the text with its unit, so that it means the same everywhere. */
export function withUnit(text, unit) {
  const bare = text.trim();
  if (bare === "") return "";
  if (/[a-z"\u2033]/i.test(bare)) return bare; // the person wrote a unit
  if (unit !== "in") return `${bare} ${unit}`;
  if (!bare.includes("'")) return `${bare} in`;
  return bare.endsWith("'") ? `${bare} 0"` : `${bare}"`;
}

/** Return the text and the unit of a stored value that `withUnit` made; null for any other. */
export function withoutUnit(stored) {
  const match = /^(.*?)\s*(in|mm|lb|kg|")$/.exec(String(stored));
  return match ? { text: match[1], unit: match[2] === '"' ? "in" : match[2] } : null;
}

const MM = [127, 5]; // in an inch: 25.4 exactly
const known = { in: [1, 1], mm: [MM[1], MM[0]] };

/** Return a stored length as `[upper, lower]` in inches, exact; null where the engine must read it. */
export function inches(stored) {
  const plain = withoutUnit(stored);
  const read = plain && known[plain.unit] ? parts(plain.text) : null;
  if (!read || (!read.whole && !read.bottom && read.feet === null)) return null;
  if (read.bottom && read.top >= read.bottom && read.whole) return null;
  if (reaches(read) || (plain.unit !== "in" && (read.feet !== null || read.bottom))) return null;
  if (plain.text.trim().endsWith("'")) return null; // `7'"` is nobody's length
  const scale = 10n ** BigInt((read.decimals ?? "").length);
  const lower = BigInt(read.bottom || 1);
  const whole = BigInt(read.feet ?? 0) * 12n * scale + BigInt((read.whole || "0") + (read.decimals ?? ""));
  const upper = whole * lower + BigInt(read.top) * scale;
  const [by, over] = known[plain.unit].map(BigInt);
  return [(read.minus ? -upper : upper) * by, scale * lower * over];
}

/** Return a stored length in inches as a number, to draw by and to hold to a limit; or null. */
export function inchesNear(stored) {
  const exact = inches(stored);
  return exact && Number(exact[0]) / Number(exact[1]);
}
