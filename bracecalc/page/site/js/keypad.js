// A keypad for cold and gloved thumbs: whole numbers, feet, eighths and a step of a sixteenth.

import { h } from "./dom.js";
import { press } from "./length.js";

const DIGITS = [..."123456789", "feet", "0", "."];
const PARTS = ["1/8", "5/8", "1/4", "3/4", "3/8", "7/8", "1/2", "sixteenth"];
const FACES = { feet: "ft", sixteenth: "+1/16", delete: "\u232b", minus: "\u2212" };
// what is seen comes first, so that a key can be called by it
const SPOKEN = { feet: "ft, feet", sixteenth: "+1/16, one sixteenth more", ".": ". point", minus: "\u2212 minus" };
const WHY = {
  fraction: "Nothing can follow a fraction; delete it first.",
  decimals: "Decimals are there already; a fraction can't follow them.",
  long: "More digits than anything measured here has.",
  foot: "After feet, the inches are less than 12.",
  feet: "Feet need a whole number before them, once.",
};

function key(name, held) {
  const act = () => {
    const { text, refused } = press(held.field.value, name, held.unit());
    held.field.value = text;
    held.changed(refused ? WHY[refused] : "");
  };
  const kind = name.includes("/") || name === "sixteenth" ? "key part" : "key";
  return h("button", { type: "button", class: kind, "aria-label": SPOKEN[name] ?? name, onclick: act }, FACES[name] ?? name);
}

/**
 * Return the keypad of `held`: its `field`, its `unit()`, which decides what it has, as inches have
 * fractions and feet, and `changed(why)`, called after each key with why one did nothing.
 */
export function keypad(held) {
  const inches = held.unit() === "in";
  const digits = DIGITS.map((name) => (name === "feet" && !inches ? h("span") : key(name, held)));
  return h(
    "div",
    { class: inches ? "pad inch" : "pad", role: "group", "aria-label": "Keypad" },
    h("div", { class: "digits" }, digits),
    inches ? h("div", { class: "parts" }, PARTS.map((name) => key(name, held))) : null,
  );
}

/** Return a key that stands beside the field: "minus" or "delete". */
export const besideKey = (name, held) => key(name, held);
