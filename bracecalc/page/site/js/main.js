// Starts the page and shows the screen that the address names.

import { h, put } from "./dom.js";
import { engine } from "./engine.js";
import { jobsScreen } from "./jobs.js";
import { listScreen } from "./list.js";
import { live } from "./live.js";
import { measureScreen } from "./measure.js";
import { offline } from "./offline.js";
import { shareScreen } from "./share.js";
import { recover } from "./store.js";
import { verdictScreen } from "./verdict.js";
import { workScreen } from "./work.js";

const TABS = [
  ["verdict", "Verdict", verdictScreen],
  ["list", "Measure", listScreen],
  ["work", "Why", workScreen],
  ["share", "Share", shareScreen],
];
const STATES = {
  starting: "Engine starting; you can type already",
  ready: "",
  failed: "The engine did not start",
};
const TRIED = "bracecalc mended"; // so that mending never turns in a circle

const page = document.getElementById("page");
const said = h("p", { class: "state", role: "status" });
const news = h("div", { class: "news" });
let leave = () => {};
let turn = 0;

function tabsOf(tab) {
  return h(
    "nav",
    { "aria-label": "Parts of the job" },
    TABS.map(([name, words]) =>
      h("a", { href: `#/${live.job.id}/${name}`, "aria-current": name === tab ? "page" : null }, words),
    ),
  );
}

/** Put a screen into the window: its head, what it shows, and the bar at the bottom. */
function frame({ title, over, back, body, bar, focus }) {
  const head = h(
    "header",
    {},
    back ? h("a", { href: back, class: "backlink", "aria-label": "Back to the list" }, "\u2039") : null,
    h("div", { class: "heading" }, over ? h("p", { class: "over" }, over) : null, h("h1", { id: "asked", tabindex: "-1" }, title)),
  );
  const main = h("main", {}, body);
  put(page, head, said, main, bar, news);
  document.title = [title, over, "bracecalc"].filter((part, n, all) => part && all.indexOf(part) === n).join(" \u2013 ");
  (focus ?? head.querySelector("h1")).focus({ preventScroll: true });
  main.scrollTop = 0;
}

async function show() {
  const now = (turn += 1);
  const [id, name, ...rest] = location.hash.slice(2).split("/").map(decodeURIComponent);
  const there = id ? await live.open(id) : false;
  if (now !== turn) return;
  leave();
  leave = () => {};
  if (!there) {
    live.close();
    const { body, stop } = await jobsScreen();
    if (now !== turn) return stop?.();
    leave = stop ?? leave;
    return frame({ title: "bracecalc", body });
  }
  const over = live.job.title === "" ? "Untitled" : live.job.title;
  if (name === "measure") {
    const { name: asked, body, bar, focus, stop } = measureScreen(live, rest.join("/"));
    leave = stop;
    return frame({ title: asked, over, back: `#/${id}/list`, body, bar, focus });
  }
  const [tab, , screen] = TABS.find(([one]) => one === name) ?? TABS[0];
  const { name: words, body, stop } = screen(live);
  leave = stop;
  return frame({ title: words, over, back: "#/", body, bar: tabsOf(tab) });
}

engine.watch((state) => {
  const reason = state === "failed" ? `: ${engine.failure.message}` : "";
  said.textContent = STATES[state] + reason;
  document.documentElement.dataset.engine = state;
});

/** A file that was damaged on the device may be why the engine did not start: fetch it anew. */
async function mend() {
  if (sessionStorage.getItem(TRIED)) return;
  sessionStorage.setItem(TRIED, "yes");
  if ((await offline.mendAll()) > 0) location.reload();
}

function showNews() {
  if (!offline.waiting) return put(news);
  return put(
    news,
    h(
      "div",
      { class: "update", role: "status" },
      h("span", {}, "A newer version is ready. Your jobs stay."),
      h("button", { type: "button", onclick: () => offline.takeOver() }, "Update"),
    ),
  );
}

function showSafely() {
  show().catch((error) => {
    const told = `This browser keeps no jobs (${error.message}). A private window is the usual cause.`;
    frame({ title: "bracecalc", body: h("p", { class: "wrong", role: "alert" }, told) });
  });
}

window.addEventListener("hashchange", showSafely);
offline.watch(showNews);
recover().catch(() => {}).finally(showSafely);
// the engine first: on a slow phone both at once would take longer than one after the other
engine.ready.catch(mend).finally(() => offline.start());
