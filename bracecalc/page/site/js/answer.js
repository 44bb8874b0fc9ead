// The answer in one or two lines, for the top of every screen of a job.

import { h } from "./dom.js";

/**
 * Return what the job comes to as it stands: the verdict, the height to build to, what is open.
 * `short` is for beside a field; where that is `wrong`, its own message says why.
 */
export function answerLine(live, { short = false, wrong = false } = {}) {
  const { look, trouble, lost } = live;
  if (lost) return h("p", { class: "wrong" }, lost);
  if (trouble) return h("p", { class: "wrong" }, trouble.split("\n")[0]);
  if (!look) return h("p", { class: "hint" }, "The answer comes when the engine is there.");
  const kind = short ? "brief" : null;
  if (!look.verdict) return h("p", { class: kind }, wrong ? "No verdict yet." : look.why);
  const said = look.target && short ? look.target : look.why;
  return h("p", { class: kind }, h("strong", { class: `mark ${look.sign}` }, look.verdict), wrong ? "" : ` ${said}`);
}
