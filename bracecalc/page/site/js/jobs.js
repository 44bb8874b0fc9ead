// The jobs on this device: open one, start one, bring one in, take them all out.

import { licences } from "./assets.js";
import { chooseFile, download, h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";
import { scanCode } from "./scan.js";
import { START } from "./start.js";
import { allJobs, askToKeep, dropJob, exportAll, importAll, newJob, putJob } from "./store.js";

const MOST_BYTES = 1000000; // as large as the command line reads

const day = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });

async function startJob(text, title) {
  const job = newJob(text, title);
  await putJob(job);
  askToKeep();
  location.hash = `#/${job.id}/list`;
}

/** Bring in the bytes of a job file; what is wrong with them is told as on the command line. */
async function bringIn(bytes, name, said) {
  put(said, "Reading\u2026");
  try {
    const { title, text } = await engine.ask("open", { bytes: inLetters(bytes), name });
    await startJob(text, title);
  } catch (error) {
    put(said, told(error));
  }
}

function inLetters(bytes) {
  let letters = "";
  const step = 8192;
  for (let at = 0; at < bytes.length; at += step) {
    letters += String.fromCharCode(...bytes.subarray(at, at + step));
  }
  return btoa(letters);
}

function told(error) {
  if (!(error instanceof EngineRefusal)) return h("p", { class: "wrong" }, error.message);
  return error.message.split("\n").map((line) => h("p", { class: "wrong" }, line));
}

async function openFile(said) {
  const file = await chooseFile(".toml,text/plain");
  if (!file) return;
  // one byte over the limit is enough for the engine to refuse it
  const bytes = new Uint8Array(await file.slice(0, MOST_BYTES + 1).arrayBuffer());
  await bringIn(bytes, file.name, said);
}

async function bringCode(code, said) {
  put(said, "Reading\u2026");
  try {
    const { text } = await engine.ask("decode", { code });
    await bringIn(new TextEncoder().encode(text), "code of the sheet", said);
  } catch (error) {
    put(said, told(error));
  }
}

function codePanel(said) {
  const field = h("textarea", { id: "code", rows: 3, autocapitalize: "off", spellcheck: "false" });
  const paste = h("button", { type: "button", class: "big", onclick: () => bringCode(field.value, said) }, "Open this code");
  const scan = async () => {
    const code = await scanCode(view, said);
    if (code) await bringCode(code, said);
  };
  const view = h("div", { class: "scan" });
  return h(
    "details",
    {},
    h("summary", {}, "Code of the sheet"),
    h("button", { type: "button", class: "big", onclick: scan }, "Scan it"),
    view,
    h("label", { for: "code" }, "Or paste its text"),
    field,
    paste,
  );
}

async function bringAll(said, again) {
  const file = await chooseFile(".json,application/json");
  if (!file) return;
  try {
    const added = await importAll(await file.text());
    put(said, h("p", {}, `${added} ${added === 1 ? "job" : "jobs"} brought in.`));
    await again();
  } catch (error) {
    put(said, told(error));
  }
}

function row(job, again) {
  const drop = async (event) => {
    const button = event.currentTarget;
    if (button.dataset.sure !== "yes") {
      button.dataset.sure = "yes";
      button.textContent = "Delete for good?";
      return;
    }
    await dropJob(job.id);
    await again();
  };
  return h(
    "li",
    {},
    h(
      "a",
      { href: `#/${job.id}/list`, class: "job" },
      h("strong", {}, job.title === "" ? "Niche without a name" : job.title),
      h("span", {}, day.format(job.changed)),
    ),
    h("button", { type: "button", class: "quiet", onclick: drop }, "Delete"),
  );
}

function about() {
  const text = h("pre");
  const show = async () => {
    if (text.textContent === "") put(text, await licences());
  };
  return h(
    "footer",
    {},
    h(
      "p",
      {},
      "The plan is not an engineer's approval. Local codes, the unit's own instructions and " +
        "licensed trades come first.",
    ),
    h(
      "p",
      {},
      `bracecalc ${START.version}, on Pyodide ${START.pyodide} (Mozilla Public License 2.0).`,
    ),
    h("details", { ontoggle: show }, h("summary", {}, "Licences"), text),
  );
}

/** Return the screen of all jobs. */
export async function jobsScreen() {
  const list = h("ul", { class: "jobs", "aria-label": "Jobs on this phone" });
  const said = h("div", { class: "said-here", role: "alert" });
  const fill = async () => {
    const jobs = await allJobs();
    put(list, jobs.map((job) => row(job, fill)));
    empty.hidden = jobs.length > 0;
  };
  const empty = h("p", { class: "hint" }, "No job is on this phone yet.");
  const saveAll = async () =>
    download(`bracecalc-jobs-${new Date().toISOString().slice(0, 10)}.json`, await exportAll(), "application/json");
  const button = (words, act, kind = "big") => h("button", { type: "button", class: kind, onclick: act }, words);
  const body = h(
    "div",
    {},
    list,
    empty,
    said,
    button("Start a new niche", () => startJob("", ""), "big first"),
    button("Open a job file", () => openFile(said)),
    codePanel(said),
    h(
      "div",
      { class: "pair" },
      button("Save all jobs", saveAll),
      button("Bring jobs in", () => bringAll(said, fill)),
    ),
    about(),
  );
  await fill();
  return { body };
}
