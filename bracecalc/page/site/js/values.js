// What is shown of each question: what was typed, what the file says, what the plan says.

import { inchesNear } from "./length.js";
import { floorWay, saidUnder } from "./questions.js";
import { START } from "./start.js";

export const shown = (value) => (Array.isArray(value) ? value.filter(Boolean).join(", ") : String(value));

export const isWithout = (live, key) => live.job.entries[`~without.${key}`] === "true";

/** What is to be shown for a question: what was typed, else what the file says. */
export function valueOf(live, question) {
  if (isWithout(live, question.key)) return { text: "left out", typed: true };
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

/** What was planned of a thing that is measured as found; "" where nothing says it. */
export function plannedOf(live, question) {
  if (!question.found) return "";
  return live.look?.planned?.[question.key] ?? live.look?.values?.[saidUnder(question.key)] ?? "";
}

/** What the job file or the plan made of it says beside the field. */
export function saidOf(live, question) {
  if (question.kind === "choice") return "";
  const planned = plannedOf(live, question);
  if (planned) return `Planned: ${planned}.`;
  const told = question.found ? "" : live.look?.values?.[question.key];
  return told && live.job.entries[question.key] !== undefined ? `The file says ${told}.` : "";
}

function outside(value, { above, least, most }) {
  return (
    (above !== undefined && !(value > above)) ||
    (least !== undefined && !(value >= least)) ||
    (most !== undefined && !(value <= most))
  );
}

/** What the form itself sees is wrong with an entry, before the engine has answered. */
function seenAtOnce(live, question) {
  const limit = START.limits[question.key];
  const typed = live.job.entries[question.key];
  if (!limit || typed === undefined) return "";
  for (const one of Array.isArray(typed) ? typed : [typed]) {
    const value = inchesNear(one);
    if (value !== null && outside(value, limit)) return `Read '${one}'; expected ${limit.words[one.endsWith(" mm") ? "mm" : "inch"]}.`;
  }
  return "";
}

/** What is wrong with a question's answer, in words; "" where nothing is. */
export function wrongOf(live, question) {
  const { key } = question;
  const known = live.fresh
    ? live.look?.problems?.find((one) => one.key === key || one.key.startsWith(`${key}[`))
    : null;
  return known?.text ?? seenAtOnce(live, question);
}

/** Whether the engine still asks for a question's answer, or for the table it is the first of. */
export function isMissing(live, key) {
  return (live.look?.missing ?? []).some((one) => one === key || key === `${one}.1.material`);
}
