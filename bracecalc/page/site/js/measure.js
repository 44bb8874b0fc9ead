// One measurement at a time: the niche drawn, one big field, its keys, and what it comes to.

import { answerLine } from "./answer.js";
import { drawing } from "./drawn.js";
import { h, put } from "./dom.js";
import { Reading } from "./field.js";
import { floorWay, sectionsOf, stepsOf } from "./questions.js";
import { isWithout, saidOf, wrongOf } from "./values.js";

function radios(question, current, enter) {
  const pick = (event) => enter(event.target.value);
  const options = question.optional ? [["", "Not given"], ...question.options] : question.options;
  return h(
    "fieldset",
    { class: "choices", "aria-describedby": "trouble hint" },
    h("legend", { class: "away" }, question.label),
    options.map(([value, words]) =>
      h(
        "label",
        {},
        h("input", { type: "radio", name: "choice", value, checked: value === current, onchange: pick }),
        h("span", {}, words),
      ),
    ),
  );
}

function textField(current, enter) {
  const field = h("input", {
    id: "field",
    class: "field words",
    autocomplete: "off",
    maxlength: 120,
    value: current,
    "aria-labelledby": "asked",
    "aria-describedby": "trouble hint",
    oninput: () => enter(field.value),
  });
  return field;
}

/** What takes the answer: `{row, keys}`, the field with what stands beside it, and its keypad. */
function controlOf(live, question) {
  const enter = (value) => live.enter(question.key, value);
  const current = live.job.entries[question.key];
  const told = current ?? live.look?.values?.[question.key];
  if (question.kind === "choice") {
    const usual = question.key.startsWith("~") ? floorWay(live.job, question.key.includes("found")) : "";
    return { row: radios(question, String(told ?? usual), enter) };
  }
  if (question.kind === "text") return { row: textField(told ?? "", enter) };
  const reading = new Reading(live, question);
  return { row: reading.row, keys: reading.pad, after: [reading.note, reading.chips] };
}

/** A switch to leave out what the file says of something that is not there. */
function withoutSwitch(live, question) {
  const key = `~without.${question.key}`;
  const words = () => (isWithout(live, question.key) ? "Take it in again" : "It is not there: leave it out");
  const turn = () => {
    live.enter(key, isWithout(live, question.key) ? "" : "true");
    put(button, words());
  };
  const button = h("button", { type: "button", class: "big", onclick: turn }, words());
  return button;
}

const goesWithout = (live, question) =>
  question.optional && !question.key.startsWith("~") && live.look?.values?.[question.key] !== undefined;

function around(live, questions, at) {
  const place = (n) => `#/${live.job.id}/measure/${encodeURIComponent(questions[n].key)}`;
  const home = `#/${live.job.id}/list`;
  const next =
    at >= 0 && at + 1 < questions.length
      ? h("a", { class: "big first", href: place(at + 1) }, "Next")
      : h("a", { class: "big first", href: `#/${live.job.id}/verdict` }, "Verdict");
  const back = h("a", { class: "big", href: at > 0 ? place(at - 1) : home }, at > 0 ? "Back" : "List");
  return { next, bar: h("div", { class: "steps", role: "navigation", "aria-label": "Steps" }, back, next) };
}

/** Return the screen of one measurement. */
export function measureScreen(live, key) {
  const steps = stepsOf(live.job);
  const all = sectionsOf(live.job).flatMap((section) => section.questions);
  const question = all.find((one) => one.key === key) ?? steps[0];
  const { next, bar } = around(live, steps, steps.findIndex((one) => one.key === question.key));
  const { row, keys, after } = controlOf(live, question);
  const answer = h("div", { class: "answer", role: "status" });
  const picture = h("div", { class: "picture" });
  const trouble = h("p", { id: "trouble", class: "trouble", role: "status" });
  const said = h("span", { class: "planned" });
  const extra = h("div");
  const field = row.id === "field" ? row : row.querySelector("#field");
  const fill = () => {
    const wrong = wrongOf(live, question);
    put(answer, answerLine(live, { short: true, wrong: Boolean(wrong) }));
    put(picture, drawing(live, question.mark));
    put(said, saidOf(live, question) ? ` ${saidOf(live, question)}` : "");
    put(trouble, wrong);
    if (!extra.firstChild && goesWithout(live, question)) put(extra, withoutSwitch(live, question));
    field?.setAttribute("aria-invalid", String(Boolean(wrong)));
  };
  fill();
  const byKey = (event) => {
    if (event.key === "Enter" && event.target.matches("input")) next.click();
  };
  const body = h(
    "div",
    { class: keys ? "measure keyed" : "measure", onkeydown: byKey },
    h(
      "div",
      { class: "asking" },
      answer,
      picture,
      h("p", { id: "hint", class: "hint" }, question.hint, said),
      row,
      trouble,
      after,
      extra,
    ),
    keys,
  );
  return { name: question.label, body, bar, focus: keys ? field : null, stop: live.watch(fill) };
}
