// Draws the niche from the numbers that the engine read. Before it has read any, the niche is
// drawn in usual proportions. The middle of its height is left out, as drawings of tall things do,
// so that what matters, the floor and the top, is large enough to be seen.

import { s } from "./dom.js";

const USUAL = { width: 33, depth: 25, soffit: 93, unit_height: 81, unit_width: 32.75, unit_depth: 23 };
const PAPER = { width: 320, height: 158 };
const SIDE_VIEW = new Set(["depth", "unit_depth", "projection", "layer"]);
const CORNERS = ["front_left", "front_right", "rear_left", "rear_right"];
const BREAK = 104; // where the height is broken, on the paper
const FLOOR = 144; // the datum
const OFTEN = 8; // differences of the floor are drawn so many times as large as they are

const line = (x1, y1, x2, y2, name) => s("line", { x1, y1, x2, y2, class: name });
const box = (x, y, width, height, name) =>
  s("rect", { x, y, width: Math.max(width, 0), height: Math.max(height, 0), class: name });
const words = (x, y, text, anchor = "middle") =>
  s("text", { x, y, "text-anchor": anchor, class: "said" }, text);
const lit = (mark, wanted) => (mark === wanted || (mark ?? "").startsWith(`${wanted}.`) ? " lit" : "");

function sizesOf(numbers) {
  const sizes = { ...USUAL };
  for (const [name, value] of Object.entries(numbers)) {
    if (typeof value === "number" && value > 0) sizes[name] = value;
  }
  if (!(numbers.soffit > 0)) sizes.soffit = sizes.unit_height + 12;
  return sizes;
}

/** A measured distance: a line with end ticks and what was read. */
function span(one, two, text, on) {
  const [x1, y1] = one;
  const [x2, y2] = two;
  const level = y1 === y2;
  const tick = (x, y) => (level ? line(x, y - 4, x, y + 4, "dim") : line(x - 4, y, x + 4, y, "dim"));
  const said = level ? words((x1 + x2) / 2, y1 - 5, text) : words(x1 + 8, (y1 + y2) / 2 + 4, text, "start");
  const name = on ? "span on" : "span";
  return s("g", { class: name }, line(x1, y1, x2, y2, "dim"), tick(x1, y1), tick(x2, y2), said);
}

/** The niche from the room, its middle height left out. */
function front(numbers, labels, mark) {
  const sizes = sizesOf(numbers);
  const raised = numbers.raised ?? 0.5;
  const unitTop = sizes.unit_height + raised;
  const high = Math.max(sizes.soffit, unitTop) + 1;
  const scale = Math.min(5.2, (PAPER.width - 130) / sizes.width, 92 / Math.max(high - unitTop + 8, 14));
  const left = (PAPER.width - 56 - sizes.width * scale) / 2;
  const x = (across) => left + across * scale;
  const top = (height) => 8 + (high - height) * scale;
  const on = (name) => Boolean(lit(mark, name));
  const right = x(sizes.width);
  const soffit = top(sizes.soffit);
  const known = numbers.soffit > 0;
  const parts = [box(x(0), soffit, right - x(0), FLOOR - soffit, "recess")];
  for (const spot of numbers.studs ?? []) {
    parts.push(line(x(spot), soffit, x(spot), FLOOR, `stud${lit(mark, "studs")}`));
  }
  const side = (sizes.width - sizes.unit_width) / 2;
  const name = `unit${lit(mark, "unit_height")}${lit(mark, "unit_width")}`;
  parts.push(box(x(side), top(unitTop), sizes.unit_width * scale, FLOOR - 4 - top(unitTop), name));
  if (numbers.board) {
    const { left: from, length, low, high: upper } = numbers.board;
    parts.push(box(x(from), top(upper), length * scale, (upper - low) * scale, `board${lit(mark, "board")}`));
  }
  const ceiling = known || on("soffit") ? `H${right}` : `M${right} ${soffit}`;
  parts.push(s("path", { class: "wall", d: `M${x(0)} ${FLOOR}V${soffit}${ceiling}V${FLOOR}` }));
  parts.push(...breakLine(x(0) - 14, right + 14));
  parts.push(floorOf(numbers.floor ?? {}, x, sizes, mark));
  parts.push(span([x(0), BREAK - 16], [right, BREAK - 16], labels.width ?? "width", on("width")));
  if (known || on("soffit")) {
    parts.push(span([right + 12, FLOOR], [right + 12, soffit], labels.soffit ?? "soffit", on("soffit")));
  }
  return parts;
}

function breakLine(from, to) {
  const zigzag = (y) => `M${from} ${y}h${(to - from) / 2 - 8}l5 -6l6 12l5 -6H${to}`;
  return [
    s("path", { class: "gap", d: `${zigzag(BREAK)}v7h-${(to - from) / 2 - 8}l-5 6l-6 -12l-5 6H${from}Z` }),
    s("path", { class: "edge", d: zigzag(BREAK) }),
    s("path", { class: "edge", d: zigzag(BREAK + 7) }),
  ];
}

/** The floor from leg to leg; the rear is the thinner line. */
function floorOf(heights, x, sizes, mark) {
  const inset = sizes.width * 0.1;
  const ends = { left: x(inset), right: x(sizes.width - inset) };
  const values = CORNERS.map((corner) => heights[corner] ?? 0);
  const most = Math.max(...values.map(Math.abs), 0.001);
  const per = Math.min(OFTEN, 12 / most);
  const height = (corner) => FLOOR - (heights[corner] ?? 0) * per;
  const group = s("g", { class: `floor${lit(mark, "floor")}` });
  for (const where of ["rear", "front"]) {
    const spread = where === "front" ? 12 : 0; // the front is nearer, so it is drawn wider
    const [one, two] = [ends.left - spread, ends.right + spread];
    const lift = where === "rear" ? -6 : 4;
    const y = { left: height(`${where}_left`) + lift, right: height(`${where}_right`) + lift };
    group.append(line(one, y.left, two, y.right, `floor-${where}`));
    for (const [side, cx] of [
      ["left", one],
      ["right", two],
    ]) {
      const on = mark === `floor.${where}_${side}`;
      group.append(s("circle", { cx, cy: y[side], r: on ? 7 : 3, class: on ? "spot on" : "spot" }));
    }
  }
  return group;
}

/** The top of the niche from the side: the wall at the right, the room at the left. */
function side(numbers, labels, mark) {
  const sizes = sizesOf(numbers);
  const wall = PAPER.width - 64;
  const scale = (wall - 40) / Math.max(sizes.depth, sizes.unit_depth);
  const at = (out) => wall - out * scale;
  const frontLine = at(sizes.depth);
  const housing = frontLine + sizes.unit_depth * scale;
  const boards = numbers.boards ?? [];
  const under = 34 + 5.5 * 6;
  const parts = [
    box(wall, 0, 10, PAPER.height, `layer${lit(mark, "layer")}`),
    box(wall + 10, 0, 36, PAPER.height, "studside"),
    box(frontLine, under, housing - frontLine, PAPER.height - under, "unit"),
  ];
  let out = 0;
  for (const thickness of boards) {
    parts.push(box(at(out + thickness), 34, thickness * scale, under - 34, `board${lit(mark, "projection")}`));
    out += thickness;
  }
  parts.push(line(frontLine, 0, frontLine, PAPER.height, "front"));
  const on = (name) => mark === name;
  parts.push(span([frontLine, 20], [wall, 20], labels.depth ?? "depth", on("depth")));
  parts.push(span([frontLine, 120], [housing, 120], labels.unit_depth ?? "unit", on("unit_depth")));
  if (out > 0 && on("projection")) parts.push(span([at(out), 96], [wall, 96], "", true));
  return parts;
}

/**
 * Return the drawing of the niche.
 * `numbers` are inches from the engine, `labels` what was typed, `mark` what is being measured.
 */
export function sketch(numbers, labels, mark) {
  const sideways = SIDE_VIEW.has(mark);
  const parts = sideways ? side(numbers, labels, mark) : front(numbers, labels, mark);
  const view = sideways ? "The niche from the side" : "The niche from the front";
  const known = Object.entries(labels).map(([name, text]) => `${name.replaceAll("_", " ")} ${text}`);
  const told = known.length ? `${view}: ${known.join(", ")}` : view;
  const frame = `0 0 ${PAPER.width} ${PAPER.height}`;
  return s("svg", { viewBox: frame, role: "img", class: "sketch", "aria-label": told }, parts);
}
