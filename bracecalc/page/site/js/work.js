// The shown work: each step of the verification with its equation, numbers, result and source.

import { h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";

function stepOf([result, told]) {
  return h("li", {}, h("p", { class: "large" }, result), h("p", {}, told));
}

/** Return the screen of the shown work. */
export function workScreen(live) {
  const holder = h("div", {}, h("p", { class: "hint" }, "Waiting for the engine\u2026"));
  let turn = 0;
  const fill = async () => {
    if (!live.fresh) return;
    const now = (turn += 1);
    try {
      const { parts } = await engine.ask("work", live.asked());
      if (now !== turn) return;
      const opened = new Set([...holder.querySelectorAll("details[open]")].map((one) => one.dataset.name));
      put(
        holder,
        h("p", { class: "hint" }, "Made by the computation itself, for the governing screw and case."),
        parts.map((part, n) =>
          h(
            "details",
            { "data-name": part.name, open: opened.size ? opened.has(part.name) : n === 0 },
            h("summary", {}, part.name),
            h("ol", { class: "work" }, part.blocks.flatMap((block) => block.items).map(stepOf)),
          ),
        ),
        parts.length ? null : h("p", {}, "There is no strength to show for this restraint."),
      );
    } catch (error) {
      if (now !== turn) return;
      const open = error instanceof EngineRefusal;
      const told = open ? "There is no work to show before there is a verdict." : error.message;
      const see = h("a", { class: "big first", href: `#/${live.job.id}/verdict` }, "See what is still needed");
      put(holder, h("p", {}, told), open ? see : null);
    }
  };
  fill();
  return { name: "Why", body: holder, stop: live.watch(fill) };
}
