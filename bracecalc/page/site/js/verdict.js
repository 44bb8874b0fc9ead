// The verdict: what holds, what does not and what mends it, the legs at each corner, what to do.

import { h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";
import { blocksOf } from "./blocks.js";
import { cornerWords } from "./questions.js";
import { picture } from "./picture.js";

const SHOWN = new Set(["What to do", "Contact as found", "Mark", "Cut", "Fix", "Set", "Findings", "Warnings", "Cautions"]);
const FIRST = (heading) => heading === "What to do" || heading.startsWith("Miss");

function banner(check) {
  return h(
    "section",
    { class: `banner ${check.sign}` },
    h("h2", {}, check.verdict),
    check.said.map((text) => h("p", {}, text)),
  );
}

function legs(check) {
  if (!check.legs) return null;
  return h(
    "section",
    {},
    h("h2", {}, "Legs at contact"),
    h(
      "p",
      { class: "hint" },
      check.legs_mended ? "Once what is listed above is done. " : "",
      "How far each is out when the top just touches. The rear is drawn above.",
    ),
    h(
      "div",
      { class: "corners" },
      ["rear_left", "rear_right", "front_left", "front_right"].map((corner) => {
        const leg = check.legs[corner];
        return h(
          "div",
          { class: `corner ${leg.sign}` },
          h("h3", {}, cornerWords(corner)),
          h("p", { class: "large" }, leg.extension),
          leg.turns ? h("p", {}, leg.turns) : null,
          h("p", { class: "hint" }, leg.margin),
        );
      }),
    ),
  );
}

function sections(check, wanted) {
  return check.sections.filter(wanted).map((section) => {
    const blocks = blocksOf(section.blocks);
    if (SHOWN.has(section.heading) || FIRST(section.heading)) {
      return h("section", {}, h("h2", {}, section.heading), blocks);
    }
    return h("details", {}, h("summary", {}, section.heading), blocks);
  });
}

/** Return the screen of the verdict. */
export function verdictScreen(live) {
  const holder = h("div", { "aria-live": "polite" }, h("p", { class: "hint" }, "Waiting for the engine\u2026"));
  let turn = 0;
  const fill = async () => {
    const now = (turn += 1);
    try {
      const check = await engine.ask("check", live.asked());
      if (now !== turn) return;
      put(
        holder,
        banner(check),
        sections(check, ({ heading }) => FIRST(heading)),
        picture(check.drawings),
        legs(check),
        sections(check, ({ heading }) => !FIRST(heading)),
      );
    } catch (error) {
      if (now !== turn) return;
      const lines = error instanceof EngineRefusal ? error.message.split("\n") : [`The engine stopped: ${error.message}`];
      put(
        holder,
        h("section", { class: "banner open" }, h("h2", {}, "No verdict yet"), h("p", {}, "This is still needed or wrong:")),
        h("ul", { class: "wrongs" }, lines.map((line) => h("li", {}, line))),
      );
    }
  };
  fill();
  return { body: holder, stop: live.watch(fill) };
}

