// Words of the engine with links in them: a key of the job file becomes the name of its field.

import { h } from "./dom.js";
import { questionOf } from "./questions.js";

const KEYS = /\b(?:unit|niche|floor|wall|boards|screws|rules|loads|opening|route|floor_load|as_found|built)(?:\.[a-z_0-9]*[a-z0-9])+/gi;

/** Return the text as pieces; a key that the page asks for is a link to its field. */
export function linked(job, text) {
  const pieces = [];
  let from = 0;
  for (const found of text.matchAll(KEYS)) {
    const question = job && questionOf(job, found[0]);
    if (!question) continue;
    pieces.push(text.slice(from, found.index), linkTo(job, question));
    from = found.index + found[0].length;
  }
  return [...pieces, text.slice(from)];
}

/** Return a link to the field of a question, by its name. */
export const linkTo = (job, question) =>
  h("a", { href: `#/${job.id}/measure/${encodeURIComponent(question.key)}`, class: "inline" }, question.label);
