// The field of a length or weight with its keypad; several readings where they make sense.

import { h, put } from "./dom.js";
import { engine } from "./engine.js";
import { besideKey, keypad } from "./keypad.js";
import { withoutUnit, withUnit } from "./length.js";

const readings = (value) => (Array.isArray(value) ? value : value === undefined ? [] : [value]);

export class Reading {
  constructor(live, question) {
    this.live = live;
    this.question = question;
    this.units = question.kind === "weight" ? ["lb", "kg"] : ["in", "mm"];
    this.kept = readings(live.job.entries[question.key]).map(String);
    this.at = Math.max(0, question.list ? this.kept.length : 0);
    this.several = Boolean(question.list || question.many);
    this.current = this.#usualUnit();
    this.field = h("input", {
      id: "field",
      class: "field",
      inputmode: "none",
      autocomplete: "off",
      spellcheck: "false",
      maxlength: 40,
      "aria-labelledby": "asked",
      "aria-describedby": "trouble hint",
      oninput: () => this.changed(""),
    });
    this.switch = h("button", { type: "button", class: "key unit", onclick: () => this.#turn() });
    this.pad = h("div", { class: "keys" });
    this.note = h("p", { class: "note", role: "status" });
    this.chips = h("ul", { class: "chips", "aria-label": "Readings" });
    this.row = h(
      "div",
      { class: "fieldrow" },
      question.signed ? besideKey("minus", this) : null,
      this.field,
      besideKey("delete", this),
      this.switch,
    );
    this.#show();
  }

  unit() {
    return this.current;
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
    if (ours) this.current = plain.unit;
    this.field.value = ours ? plain.text : stored;
    this.#faces();
  }

  #faces() {
    const other = this.units[1 - this.units.indexOf(this.current)];
    put(this.switch, this.current);
    this.switch.setAttribute("aria-label", `in ${this.current}; tap for ${other}`);
    put(this.pad, keypad(this));
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
    const other = this.units[1 - this.units.indexOf(this.current)];
    const stored = this.kept[this.at];
    if (stored) {
      const written = await this.#rewritten(stored, other);
      if (written === undefined) {
        put(this.note, `What stands there is in ${this.current}. Clear it to type in ${other}.`);
        return;
      }
      this.kept[this.at] = written;
    }
    this.current = other;
    if (this.question.kind === "length") this.live.job.entries["~metric"] = other;
    this.#keep();
    this.#show();
  }

  async #rewritten(stored, unit) {
    if (this.question.kind !== "length" || engine.state !== "ready") return undefined;
    const answer = await engine.ask("rewrite", { value: stored, unit }).catch(() => undefined);
    return answer?.text;
  }

  /** Take over what stands in the field now; `why` says of a key why it did nothing. */
  changed(why) {
    if (!why) {
      this.kept[this.at] = withUnit(this.field.value, this.current);
      this.#keep();
      this.#chips();
    }
    put(this.note, why);
  }

  #keep() {
    const kept = this.kept.filter((text) => text);
    this.live.enter(this.question.key, kept.length > 1 || this.question.list ? kept : kept[0]);
  }
}
