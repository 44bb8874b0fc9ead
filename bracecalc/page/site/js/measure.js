// The measurements: the whole list, and one big field at a time with the niche drawn beside it.

import { h, put } from "./dom.js";
import { engine } from "./engine.js";
import { backKey, keypad, minusKey } from "./keypad.js";
import { floorWay, saidUnder, sectionsOf } from "./questions.js";
import { withoutUnit, withUnit } from "./reading.js";
import { sketch } from "./sketch.js";

const PLACES = {
  width: ["as_found.width", "niche.width"],
  depth: ["as_found.depth", "niche.depth"],
  soffit: ["as_found.soffit", "niche.soffit"],
  unit_depth: ["unit.depth"],
};

const shown = (value) => (Array.isArray(value) ? value.filter(Boolean).join(", ") : String(value));
const readings = (value) => (Array.isArray(value) ? value : value === undefined ? [] : [value]);

/** What is to be shown for a question: what was typed, else what the file says. */
function valueOf(live, question) {
  const typed = live.job.entries[question.key];
  if (typed !== undefined) return { text: spoken(question, shown(typed)), typed: true };
  if (question.key.startsWith("~")) {
    return { text: spoken(question, floorWay(live.job, question.key.includes("found"))), typed: false };
  }
  const told = live.look?.values?.[question.key];
  return { text: told === undefined ? "" : spoken(question, told), typed: false };
}

function spoken(question, text) {
  const words = question.options?.find(([value]) => value === text)?.[1] ?? text;
  return words.split(": ")[0];
}

function problemOf(live, key) {
  return live.look?.problems?.find((one) => one.key === key || one.key.startsWith(`${key}[`));
}

/** Whether the engine still asks for a question's answer, or for the table it is the first of. */
function isMissing(live, key) {
  return (live.look?.missing ?? []).some((one) => one === key || key === `${one}.1.material`);
}

/** The drawing of the job as it stands, with one measurement lit. */
function drawing(live, mark) {
  const labels = {};
  for (const [name, keys] of Object.entries(PLACES)) {
    const typed = keys.map((key) => live.job.entries[key] ?? live.look?.values?.[key]).find(Boolean);
    if (typed !== undefined) labels[name] = shown(typed).split(", ")[0];
  }
  return sketch(live.look?.numbers ?? {}, labels, mark);
}

function verdictLine(live) {
  const { look, trouble, lost } = live;
  if (lost) return h("p", { class: "wrong" }, lost);
  if (trouble) return h("p", { class: "wrong" }, trouble.split("\n")[0]);
  if (!look) return "";
  if (look.verdict) return h("p", {}, h("strong", { class: `mark ${look.sign}` }, look.verdict), ` ${look.why}`);
  return h("p", {}, look.why);
}

/** Return the list of everything that can be measured. */
export function listScreen(live) {
  const base = `#/${live.job.id}/measure/`;
  const answer = h("div", { class: "answer", role: "status" });
  const picture = h("div", { class: "picture" });
  const holder = h("div");

  const rowOf = (question) => {
    const { text, typed } = valueOf(live, question);
    const problem = problemOf(live, question.key);
    const missing = !text && isMissing(live, question.key);
    const state = problem ? "wrong" : missing ? "missing" : typed ? "typed" : "";
    const right = text || (missing ? "needed" : question.optional ? "\u2013" : "");
    return h(
      "li",
      { class: state },
      h(
        "a",
        { href: base + encodeURIComponent(question.key) },
        h("span", {}, question.label),
        h("span", { class: "value" }, right, problem ? h("em", {}, " \u2013 look again") : null),
      ),
    );
  };

  const fill = () => {
    put(answer, verdictLine(live));
    put(picture, drawing(live));
    const open = new Set([...holder.querySelectorAll("details[open]")].map((one) => one.dataset.name));
    const first = holder.childElementCount === 0;
    put(
      holder,
      sectionsOf(live.job).map((section, index) => {
        const folded = section.plan && live.job.text !== "";
        const isOpen = first ? !folded && (index < 6 || live.job.text !== "") : open.has(section.name);
        return h(
          "details",
          { open: isOpen, "data-name": section.name },
          h("summary", {}, section.name),
          h("ul", { class: "rows" }, section.questions.map(rowOf)),
          section.name === "The unit" ? moreDoors(live, fill) : null,
        );
      }),
    );
  };
  const first = sectionsOf(live.job)[0].questions[0].key;
  const start = h("a", { class: "big first", href: base + encodeURIComponent(first) }, "Measure one by one");
  fill();
  return { body: h("div", {}, answer, picture, start, holder), stop: live.watch(fill) };
}

function moreDoors(live, again) {
  const more = () => {
    live.enter("~doors", String(Number(live.job.entries["~doors"] ?? live.job.known?.doors ?? 1) + 1));
    again();
  };
  return h("button", { type: "button", class: "big", onclick: more }, "One more door or drawer");
}

function radios(question, current, enter) {
  const pick = (event) => enter(event.target.value);
  const options = question.optional ? [["", "Not given"], ...question.options] : question.options;
  return h(
    "fieldset",
    { class: "choices" },
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

function textField(question, current, enter) {
  const field = h("input", {
    id: "field",
    class: "field",
    autocomplete: "off",
    maxlength: 120,
    value: current,
    oninput: () => enter(field.value),
  });
  return field;
}

/** The field of a length or weight with its keypad; several readings where they make sense. */
class Reading {
  constructor(live, question) {
    this.live = live;
    this.question = question;
    this.units = question.kind === "weight" ? ["lb", "kg"] : ["in", "mm"];
    this.kept = readings(live.job.entries[question.key]).map(String);
    this.at = Math.max(0, question.list ? this.kept.length : 0);
    this.several = Boolean(question.list || question.many);
    this.unit = this.#usualUnit();
    this.field = h("input", {
      id: "field",
      class: "field",
      inputmode: "none",
      autocomplete: "off",
      spellcheck: "false",
      maxlength: 40,
      "aria-describedby": "hint trouble",
      oninput: () => this.#changed(),
    });
    this.switch = h("button", { type: "button", class: "key unit", onclick: () => this.#turn() });
    this.pad = h("div");
    this.note = h("p", { class: "hint", role: "status" });
    this.chips = h("ul", { class: "chips", "aria-label": "Readings" });
    this.element = h(
      "div",
      {},
      h(
        "div",
        { class: "fieldrow" },
        question.signed ? minusKey(this.field, () => this.#changed()) : null,
        this.field,
        backKey(this.field, () => this.#changed()),
        this.switch,
      ),
      this.note,
      this.chips,
      this.pad,
    );
    this.#show();
  }

  #usualUnit() {
    const last = withoutUnit(this.kept[0] ?? "");
    if (last && this.units.includes(last.unit)) return last.unit;
    const chosen = this.live.job.entries["~metric"];
    const metric = chosen === undefined ? this.live.look?.units === "mm" : chosen === "mm";
    return this.units[metric ? 1 : 0];
  }

  #show() {
    const stored = this.kept[this.at] ?? "";
    const plain = withoutUnit(stored);
    const ours = plain && this.units.includes(plain.unit);
    if (ours) this.unit = plain.unit;
    this.field.value = ours ? plain.text : stored;
    this.#faces();
  }

  #faces() {
    const other = this.units[1 - this.units.indexOf(this.unit)];
    put(this.switch, this.unit);
    this.switch.setAttribute("aria-label", `in ${this.unit}; tap for ${other}`);
    put(this.pad, keypad(this.field, this.unit, () => this.#changed()));
    put(this.note);
    this.#chips();
  }

  #chips() {
    if (!this.several) return;
    const chip = (text, n) => {
      const go = () => {
        this.at = this.kept.slice(0, n).filter(Boolean).length; // emptied readings fall away
        this.kept = this.kept.filter(Boolean);
        this.#show();
      };
      const current = n === this.at ? "true" : null;
      return h("li", {}, h("button", { type: "button", class: "chip", "aria-current": current, onclick: go }, text));
    };
    const words = this.question.list ? "Next one" : this.question.many;
    const chips = this.kept.map((text, n) => chip(text || "\u2013", n));
    put(this.chips, chips, chip(`+ ${words}`, this.kept.length));
  }

  /** Change the unit; what stands in the field keeps its length and is written anew. */
  async #turn() {
    const other = this.units[1 - this.units.indexOf(this.unit)];
    const stored = this.kept[this.at];
    if (stored) {
      const written = await this.#rewritten(stored, other);
      if (written === undefined) {
        put(this.note, `What stands there is in ${this.unit}. Clear it to type in ${other}.`);
        return;
      }
      this.kept[this.at] = written;
    }
    this.unit = other;
    if (this.question.kind === "length") this.live.job.entries["~metric"] = other;
    this.#keep();
    this.#show();
  }

  async #rewritten(stored, unit) {
    if (this.question.kind !== "length" || engine.state !== "ready") return undefined;
    const answer = await engine.ask("rewrite", { value: stored, unit }).catch(() => undefined);
    return answer?.text;
  }

  #changed() {
    this.kept[this.at] = withUnit(this.field.value, this.unit);
    this.#keep();
    this.#chips();
    put(this.note);
  }

  #keep() {
    const kept = this.kept.filter((text) => text);
    this.live.enter(this.question.key, kept.length > 1 || this.question.list ? kept : kept[0]);
  }
}

/** What the job file or the plan made of it says of a measurement. */
function saidOf(live, question) {
  if (question.kind === "text" || question.kind === "choice") return "";
  const planned = live.look?.planned?.[question.key];
  if (planned) return ` By the plan ${planned}.`;
  const told = live.look?.values?.[saidUnder(question.key)];
  return told ? ` The file says ${told}.` : "";
}

/** Return the screen of one measurement. */
export function measureScreen(live, key) {
  const questions = sectionsOf(live.job).flatMap((section) => section.questions);
  const at = Math.max(0, questions.findIndex((one) => one.key === key));
  const question = questions[at];
  const href = (n) => `#/${live.job.id}/measure/${encodeURIComponent(questions[n].key)}`;
  const picture = h("div", { class: "picture" });
  const trouble = h("p", { id: "trouble", class: "trouble", role: "status" });
  const enter = (value) => live.enter(question.key, value);
  const current = live.job.entries[question.key];
  let control;
  if (question.kind === "choice") {
    const told = current ?? live.look?.values?.[question.key];
    const fallback = question.key.startsWith("~") ? floorWay(live.job, question.key.includes("found")) : "";
    control = radios(question, String(told ?? fallback), enter);
  } else if (question.kind === "text") {
    control = textField(question, current ?? live.look?.values?.[question.key] ?? "", enter);
  } else {
    control = new Reading(live, question).element;
  }
  const planned = h("span", { class: "planned" });
  const fill = () => {
    put(picture, drawing(live, question.mark));
    put(planned, saidOf(live, question));
    const problem = problemOf(live, question.key);
    put(trouble, live.lost ?? problem?.text ?? live.trouble?.split("\n")[0] ?? "");
  };
  fill();
  const next =
    at + 1 < questions.length
      ? h("a", { class: "big first", href: href(at + 1) }, "Next")
      : h("a", { class: "big first", href: `#/${live.job.id}/verdict` }, "Verdict");
  const byKey = (event) => {
    if (event.key === "Enter" && event.target.matches("input")) next.click();
  };
  const body = h(
    "div",
    { class: "measure", onkeydown: byKey },
    picture,
    h(
      "div",
      { class: "asking" },
      h("label", { for: "field", class: "asked" }, question.label),
      h("p", { id: "hint", class: "hint" }, question.hint, planned),
      control,
      trouble,
      h(
        "div",
        { class: "pair" },
        at > 0 ? h("a", { class: "big", href: href(at - 1) }, "Back") : h("span"),
        next,
      ),
    ),
  );
  return { body, stop: live.watch(fill) };
}
