// The verdict: what holds, what does not and what mends it, the legs at each corner, what to do.

import { h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";
import { blocksOf } from "./blocks.js";
import { cornerWords, questionOf } from "./questions.js";
import { picture } from "./picture.js";
import { linked, linkTo } from "./words.js";

function settle(job, { text, key }) {
  const question = key && questionOf(job, key);
  return h("li", {}, h("span", {}, linked(job, text)), question ? linkTo(job, question) : null);
}

function banner(check, job) {
  return h(
    "section",
    { class: `banner ${check.sign}` },
    h("h2", {}, check.verdict),
    check.mark ? h("p", { class: "strike" }, check.mark) : null,
    check.said.slice(0, 1).map((text) => h("p", {}, linked(job, text))),
    check.open.length ? h("h3", {}, "Not settled yet") : null,
    check.open.length ? h("ul", { class: "wrongs" }, check.open.map((one) => settle(job, one))) : null,
    check.said.slice(1).map((text) => h("p", {}, linked(job, text))),
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

/** The engine's sections that stand at one place of the screen; those of no place are folded away. */
function sections(check, place, job) {
  return check.sections
    .filter((section) => section.place === place)
    .map(({ code, heading, blocks }) =>
      place === "folded"
        ? h("details", { "data-code": code }, h("summary", {}, heading), blocksOf(blocks, job))
        : h("section", { "data-code": code }, h("h2", {}, heading), blocksOf(blocks, job)),
    );
}

function wrongs(job, error) {
  if (!(error instanceof EngineRefusal)) return h("li", {}, `The engine stopped: ${error.message}`);
  return error.mistakes.map(({ key, text, told }) => {
    const question = questionOf(job, key);
    if (!question) return h("li", {}, text);
    return h("li", {}, linkTo(job, question), h("span", {}, told));
  });
}

/** Return the screen of the verdict. */
export function verdictScreen(live) {
  const holder = h("div", { "aria-live": "polite" }, h("p", { class: "hint" }, "Waiting for the engine\u2026"));
  let turn = 0;
  const fill = async () => {
    if (!live.fresh) return;
    const now = (turn += 1);
    const { job } = live;
    try {
      const check = await engine.ask("check", live.asked());
      if (now !== turn) return;
      put(
        holder,
        banner(check, job),
        sections(check, "first", job),
        picture(check.drawings),
        legs(check),
        sections(check, "work", job),
        sections(check, "last", job),
        sections(check, "folded", job),
        sections(check, "end", job),
      );
    } catch (error) {
      if (now !== turn) return;
      put(
        holder,
        h("section", { class: "banner open" }, h("h2", {}, "No verdict yet"), h("p", {}, "Still needed, or to look at again:")),
        h("ul", { class: "wrongs" }, wrongs(job, error)),
      );
    }
  };
  fill();
  return { name: "Verdict", body: holder, stop: live.watch(fill) };
}
