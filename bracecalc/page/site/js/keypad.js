// A keypad for cold and gloved thumbs: whole numbers, feet, eighths and a step of a sixteenth.

import { h } from "./dom.js";
import { press } from "./reading.js";

const ROWS = [
  ["1", "2", "3", "1/8", "5/8"],
  ["4", "5", "6", "1/4", "3/4"],
  ["7", "8", "9", "3/8", "7/8"],
  ["feet", "0", ".", "1/2", "sixteenth"],
];
const FACES = { feet: "ft", sixteenth: "+1/16", delete: "\u232b", minus: "\u2212" };
const SPOKEN = { feet: "feet", sixteenth: "one sixteenth more", ".": "point", minus: "minus" };

function key(name, field, changed) {
  const act = () => {
    field.value = press(field.value, name);
    changed();
  };
  const kind = name.includes("/") || name === "sixteenth" ? "key part" : "key";
  const attributes = { type: "button", class: kind, "aria-label": SPOKEN[name] ?? name, onclick: act };
  return h("button", attributes, FACES[name] ?? name);
}

/**
 * Return the keypad of a field. `unit` decides what it has: inches have fractions and feet.
 * `changed()` is called after each key.
 */
export function keypad(field, unit, changed) {
  const inches = unit === "in";
  const names = ROWS.flatMap((row) => (inches ? row : row.slice(0, 3)));
  const pad = h("div", { class: inches ? "pad inch" : "pad", role: "group", "aria-label": "Keypad" });
  for (const name of names) {
    if (name === "feet" && !inches) pad.append(h("span"));
    else pad.append(key(name, field, changed));
  }
  return pad;
}

/** Return the key that turns a height to one under the datum. */
export function minusKey(field, changed) {
  const sign = key("minus", field, changed);
  sign.classList.add("back");
  return sign;
}

/** Return the key that takes back what was typed last. */
export function backKey(field, changed) {
  const act = () => {
    field.value = press(field.value, "delete");
    changed();
  };
  return h("button", { type: "button", class: "key back", "aria-label": "delete", onclick: act }, FACES.delete);
}
