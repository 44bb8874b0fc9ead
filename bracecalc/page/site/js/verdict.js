// The verdict: what holds, what does not and what mends it, the legs at each corner, what to do.

import { h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";
import { blocksOf } from "./blocks.js";
import { cornerWords, questionOf } from "./questions.js";
import { picture } from "./picture.js";

// The engine's sections in the order of the work; what is not named is folded away between.
const FIRST = ["What to do", "Miss"];
const NEXT = ["Contact as found", "Mark", "Cut", "Fix", "Set"];
const LAST = ["Findings", "Warnings"];
const END = ["Cautions"];
const OPEN = [FIRST, NEXT, LAST, END].flat();

const isOf = (names, heading) => names.some((name) => heading === name || heading.startsWith(`${name}: `));

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

function sections(check, names) {
  const folded = names === undefined;
  const wanted = check.sections.filter(({ heading }) =>
    folded ? !isOf(OPEN, heading) : isOf(names, heading),
  );
  return wanted.map(({ heading, blocks }) =>
    folded
      ? h("details", {}, h("summary", {}, heading), blocksOf(blocks))
      : h("section", {}, h("h2", {}, heading), blocksOf(blocks)),
  );
}

function wrongs(job, error) {
  if (!(error instanceof EngineRefusal)) return h("li", {}, `The engine stopped: ${error.message}`);
  return error.mistakes.map(({ key, text, told }) => {
    const question = questionOf(job, key);
    if (!question) return h("li", {}, text);
    const href = `#/${job.id}/measure/${encodeURIComponent(question.key)}`;
    return h("li", {}, h("a", { href }, question.label, h("span", {}, told)));
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
        sections(check, FIRST),
        picture(check.drawings),
        legs(check),
        sections(check, NEXT),
        sections(check, LAST),
        sections(check),
        sections(check, END),
      );
    } catch (error) {
      if (now !== turn) return;
      put(
        holder,
        h("section", { class: "banner open" }, h("h2", {}, "No verdict yet"), h("p", {}, "Still needed, or to look at again:")),
        h("ul", { class: "wrongs" }, wrongs(live.job, error)),
      );
    }
  };
  fill();
  return { body: holder, stop: live.watch(fill) };
}

