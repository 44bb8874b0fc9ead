// The jobs on this device: start one, open one, find one, take them all out, bring them in.

import { licences } from "./assets.js";
import { chooseFile, download, h, put } from "./dom.js";
import { engine, EngineRefusal } from "./engine.js";
import { offline, SAID } from "./offline.js";
import { scanCode } from "./scan.js";
import { START } from "./start.js";
import * as store from "./store.js";

const MOST_BYTES = 1000000; // as large as the command line reads
const MANY = 6; // jobs from which on they can be searched
const SETTLED = 600; // ms in which a second tap is a slip of the first

const day = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
const titleOf = (job) => (job.title === "" ? "Untitled" : job.title);
const button = (words, act, kind = "big") => h("button", { type: "button", class: kind, onclick: act }, words);

async function startJob(text, title) {
  const job = store.newJob(text, title);
  await store.putJob(job);
  store.lasting({ ask: true }).catch(() => {});
  location.hash = `#/${job.id}/list`;
}

function told(error) {
  return error.message.split("\n").map((line) => h("p", { class: "wrong" }, line));
}

/** Bring in the bytes of a job file; what is wrong with them is told as on the command line. */
async function bringIn(bytes, name, said, partial = false) {
  put(said, "Reading\u2026");
  try {
    const { title, text } = await engine.ask("open", { bytes: inLetters(bytes), name, partial });
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
    await bringIn(new TextEncoder().encode(text), "code of the wall sheet", said, true);
  } catch (error) {
    put(said, told(error));
  }
}

function codePanel(said) {
  const field = h("textarea", { id: "code", rows: 3, autocapitalize: "off", spellcheck: "false" });
  const scan = async () => {
    const code = await scanCode(view, said);
    if (code) await bringCode(code, said);
  };
  const view = h("div", { class: "scan" });
  return h(
    "details",
    {},
    h("summary", {}, "Code of a wall sheet or of another phone"),
    button("Scan it", scan),
    view,
    h("label", { for: "code" }, "Or paste its text"),
    field,
    button("Open this code", () => bringCode(field.value, said)),
  );
}

async function bringAll(said, again) {
  const file = await chooseFile(".json,application/json");
  if (!file) return;
  try {
    const added = await store.importAll(await file.text());
    put(said, h("p", {}, `${added} ${added === 1 ? "job" : "jobs"} brought in.`));
    await again();
  } catch (error) {
    put(said, told(error));
  }
}

/** A tap that comes right after another one is a slip: it does nothing. */
function settled(act) {
  const from = performance.now();
  return () => (performance.now() - from < SETTLED ? undefined : act());
}

function row(job, again) {
  const holder = h("li", {});
  const bin = async () => {
    await store.binJob(job.id);
    const undo = settled(async () => {
      await store.unbinJob(job.id);
      await again();
    });
    put(holder, h("p", { class: "gone", role: "status" }, `${titleOf(job)} is in the bin.`), button("Undo", undo, "quiet"));
  };
  const copy = settled(async () => {
    const { text, entries, known } = job;
    const other = { ...store.newJob(text, `${titleOf(job)} (copy)`), entries: { ...entries }, known };
    if (entries.title !== undefined || text === "") other.entries.title = other.title;
    await store.putJob(other);
    await again();
  });
  const came = job.came?.by === START.version ? job.came : null;
  return put(
    holder,
    h(
      "a",
      { href: `#/${job.id}/verdict`, class: "job" },
      h("strong", {}, titleOf(job)),
      h("span", { class: came?.verdict ? `mark ${came.sign}` : "mark open" }, came?.verdict ?? "No verdict yet"),
      h("span", {}, day.format(job.changed)),
    ),
    h(
      "div",
      { class: "acts" },
      button("Copy", copy, "quiet"),
      h("button", { type: "button", class: "quiet drop", "aria-label": `Delete ${titleOf(job)}`, onclick: settled(bin) }, "Delete"),
    ),
  );
}

function binPanel(jobs, again) {
  if (jobs.length === 0) return null;
  const empty = async () => {
    for (const job of jobs) await store.dropJob(job.id);
    await again();
  };
  const sure = h("dialog", { "aria-label": "Empty the bin" });
  put(
    sure,
    h("p", {}, `${jobs.length} ${jobs.length === 1 ? "job goes" : "jobs go"} for good.`),
    button("Keep them", () => sure.close(), "big first"),
    button("Delete for good", settled(empty)),
  );
  return h(
    "details",
    { class: "bin" },
    h("summary", {}, `Bin (${jobs.length})`),
    h(
      "ul",
      { class: "rows" },
      jobs.map((job) =>
        h(
          "li",
          { class: "binned" },
          h("span", {}, titleOf(job)),
          button("Take it out", () => store.unbinJob(job.id).then(again), "quiet"),
        ),
      ),
    ),
    button("Empty the bin", () => sure.showModal()),
    sure,
  );
}

/** How safe the jobs are on this phone, and what to do about it. */
async function keeping(saveAll) {
  const [lasts, left] = await Promise.all([store.lasting().catch(() => false), store.notCopied()]);
  const save = button("Save all jobs", saveAll);
  if (lasts) return [h("p", { class: "hint" }, "Jobs last on this phone: the browser promised to keep them."), save];
  const urge = left > 0 ? ` ${left} ${left === 1 ? "job has" : "jobs have"} changed since they were last saved to a file.` : "";
  return [
    h("p", { class: left > 0 ? "urge" : "hint" }, `This browser may clear jobs when space is short.${urge}`),
    save,
  ];
}

function signal() {
  const holder = h("div", { role: "status" });
  const stop = offline.watch(() => {
    const { text, again } = SAID[offline.state];
    const mark = offline.state === "kept" ? "mark holds" : again || offline.state === "insecure" ? "urge" : "hint";
    put(holder, h("p", { class: mark }, text), again ? button("Try again", () => offline.again()) : null);
  });
  return { holder, stop };
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
      "The plan is not an engineer's approval. Local codes, the appliance's own instructions and " +
        "licensed trades come first.",
    ),
    h("p", {}, `bracecalc ${START.version}. Nothing leaves this phone.`),
    h("details", { ontoggle: show }, h("summary", {}, "Licences"), text),
  );
}

/** Work out the verdicts that are not known yet, one after the other. */
async function workOut(jobs, isHere, again) {
  await engine.ready;
  for (const job of jobs.filter((one) => one.came?.by !== START.version)) {
    if (!isHere()) return;
    const { text, entries, title } = job;
    try {
      const look = await engine.ask("look", { text, entries, title });
      job.came = { sign: look.sign, verdict: look.verdict, by: START.version };
    } catch (error) {
      if (!(error instanceof EngineRefusal)) return;
      job.came = { sign: "open", verdict: null, by: START.version };
    }
    const now = await store.getJob(job.id);
    if (now?.changed === job.changed) await store.noteJob({ ...now, came: job.came });
    await again();
  }
}

/** Return the first screen. */
export async function jobsScreen() {
  const said = h("div", { class: "said-here", role: "alert" });
  const [list, bin, safe] = [h("ul", { class: "jobs" }), h("div"), h("div")];
  const wanted = h("input", { id: "find", class: "field words", type: "search", autocomplete: "off", oninput: () => fill() });
  const finder = h("div", { hidden: true }, h("label", { for: "find" }, "Find a job"), wanted);
  let here = true;
  const saveAll = async () => {
    const name = `bracecalc-jobs-${new Date().toISOString().slice(0, 10)}.json`;
    download(name, await store.exportAll(), "application/json");
    store.noteCopy();
    await fill();
  };
  const fill = async () => {
    const jobs = await store.allJobs();
    finder.hidden = jobs.length < MANY && wanted.value === "";
    const letters = wanted.value.trim().toLowerCase();
    const shown = jobs.filter((job) => titleOf(job).toLowerCase().includes(letters));
    put(list, shown.map((job) => row(job, fill)));
    if (shown.length === 0) put(list, h("li", { class: "none" }, jobs.length ? "No job of that name." : "No job is on this phone yet."));
    put(bin, binPanel(await store.binnedJobs(), fill));
    put(safe, jobs.length ? await keeping(saveAll) : null);
    return jobs;
  };
  const { holder, stop } = signal();
  const body = h(
    "div",
    {},
    button("Start a new niche", () => startJob("", ""), "big first"),
    h("div", { class: "pair" }, button("Open a job file", () => openFile(said)), button("Import jobs", () => bringAll(said, fill))),
    codePanel(said),
    said,
    finder,
    list,
    bin,
    holder,
    safe,
    about(),
  );
  const jobs = await fill();
  workOut(jobs, () => here, fill).catch(() => {});
  const end = () => {
    here = false;
    stop();
  };
  return { body, stop: end };
}
