// The list of everything that can be measured.

import { answerLine } from "./answer.js";
import { drawing } from "./drawn.js";
import { h, put } from "./dom.js";
import { doorNumbers, sectionsOf, stepsOf } from "./questions.js";
import { isMissing, plannedOf, valueOf, wrongOf } from "./values.js";

const place = (live, key) => `#/${live.job.id}/measure/${encodeURIComponent(key)}`;

function row(live, question) {
  const { text, typed } = valueOf(live, question);
  const wrong = wrongOf(live, question);
  const missing = !text && isMissing(live, question.key);
  const state = wrong ? "wrong" : missing ? "missing" : typed ? "typed" : "";
  const planned = plannedOf(live, question);
  const right = text || (missing ? "needed" : "\u2013");
  return h(
    "li",
    { class: `${state}${question.found ? " found" : ""}` },
    h(
      "a",
      { href: place(live, question.key) },
      h("span", {}, question.label, planned ? h("span", { class: "beside" }, `planned ${planned}`) : null),
      h("span", { class: "value" }, right, wrong ? h("em", {}, " \u2013 look again") : null),
    ),
  );
}

function doorButtons(live, again) {
  const add = () => {
    const count = Math.max(live.job.known?.doors ?? 1, Number(live.job.entries["~doors"] ?? 1));
    live.enter("~doors", String(count + 1));
    again();
  };
  const numbers = doorNumbers(live.job);
  const last = numbers.at(-1);
  const remove = () => {
    for (const key of Object.keys(live.job.entries)) {
      if (key.startsWith(`unit.doors.${last}.`)) delete live.job.entries[key];
    }
    live.enter(`~without.unit.doors.${last}`, "true");
    again();
  };
  return [
    h("button", { type: "button", class: "big", onclick: add }, "One more door or drawer"),
    last ? h("button", { type: "button", class: "big", onclick: remove }, `Remove door or drawer ${last}`) : null,
  ];
}

/** Return the screen. */
export function listScreen(live) {
  const answer = h("div", { class: "answer", role: "status" });
  const picture = h("div", { class: "picture" });
  const holder = h("div");

  const opened = (section) => {
    if (section.more) return false;
    return !(section.plan && live.job.text !== "");
  };
  const fill = () => {
    put(answer, answerLine(live));
    put(picture, drawing(live));
    const open = new Set([...holder.querySelectorAll("details[open]")].map((one) => one.dataset.name));
    const first = holder.childElementCount === 0;
    put(
      holder,
      sectionsOf(live.job).map((section) =>
        h(
          "details",
          { open: first ? opened(section) : open.has(section.name), "data-name": section.name },
          h("summary", {}, section.name),
          h("ul", { class: "rows" }, section.questions.map((question) => row(live, question))),
          section.doors ? doorButtons(live, fill) : null,
        ),
      ),
    );
  };
  const start = h("a", { class: "big first", href: place(live, stepsOf(live.job)[0].key) }, "Measure one by one");
  fill();
  return { name: "Measurements", body: h("div", {}, answer, start, picture, holder), stop: live.watch(fill) };
}
