// The sketch of the job as it stands: what was typed is in it at once, before the engine answers.

import { inchesNear } from "./length.js";
import { sketch } from "./sketch.js";
import { isWithout, shown } from "./values.js";

const PLACES = {
  width: ["as_found.width", "niche.width"],
  depth: ["as_found.depth", "niche.depth"],
  soffit: ["as_found.soffit", "niche.soffit"],
  unit_height: ["unit.height"],
  unit_width: ["unit.width"],
  unit_depth: ["unit.depth"],
};
const LABELLED = ["width", "depth", "soffit", "unit_depth"];

const first = (value) => (Array.isArray(value) ? value.find(Boolean) : value);

/** Return the drawing, with one measurement lit. */
export function drawing(live, mark) {
  const labels = {};
  const numbers = { ...live.look?.numbers };
  for (const [name, keys] of Object.entries(PLACES)) {
    const key = keys.find((one) => live.job.entries[one] ?? live.look?.values?.[one]);
    if (!key || isWithout(live, key)) continue;
    const typed = live.job.entries[key];
    const near = typed === undefined ? null : inchesNear(first(typed));
    if (near !== null) numbers[name] = near;
    if (LABELLED.includes(name)) labels[name] = shown(typed ?? live.look.values[key]).split(", ")[0];
  }
  const spots = live.job.entries["as_found.studs"] ?? live.job.entries["wall.stud_spots"];
  const read = [spots].flat().map((one) => (one ? inchesNear(one) : null));
  if (spots && !read.includes(null)) numbers.studs = read;
  return sketch(numbers, labels, mark);
}
