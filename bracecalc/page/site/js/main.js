// Starts the page and shows the screen that the address names.

import { carried } from "./assets.js";
import { h, put } from "./dom.js";
import { engine } from "./engine.js";
import { jobsScreen } from "./jobs.js";
import { live } from "./live.js";
import { measureScreen, listScreen } from "./measure.js";
import { shareScreen } from "./share.js";
import { verdictScreen } from "./verdict.js";
import { workScreen } from "./work.js";

const TABS = [
  ["list", "Measure", listScreen],
  ["verdict", "Verdict", verdictScreen],
  ["work", "Why", workScreen],
  ["share", "Share", shareScreen],
];
const STATES = {
  starting: "Engine starting; you can type already",
  ready: "",
  failed: "The engine did not start",
};

const page = document.getElementById("page");
const said = h("p", { class: "state", role: "status" });
let leave = () => {};

function frame(title, back, body, tab) {
  const head = h(
    "header",
    {},
    back ? h("a", { href: back, class: "backlink", "aria-label": "Back" }, "\u2039") : null,
    h("h1", { tabindex: "-1" }, title),
  );
  const tabs = tab
    ? h(
        "nav",
        { "aria-label": "Parts of the job" },
        TABS.map(([name, words]) =>
          h("a", { href: `#/${live.job.id}/${name}`, "aria-current": name === tab ? "page" : null }, words),
        ),
      )
    : null;
  put(page, head, said, h("main", {}, body), tabs);
  document.body.classList.toggle("tabbed", Boolean(tab));
  head.querySelector("h1").focus({ preventScroll: true });
  window.scrollTo(0, 0);
}

async function show() {
  leave();
  leave = () => {};
  const [id, name, ...rest] = location.hash.slice(2).split("/").map(decodeURIComponent);
  if (!id || !(await live.open(id))) {
    live.close();
    const { body, stop } = await jobsScreen();
    leave = stop ?? leave;
    frame("bracecalc", null, body);
    return;
  }
  const title = live.job.title === "" ? "Niche without a name" : live.job.title;
  if (name === "measure") {
    const { body, stop } = measureScreen(live, rest.join("/"));
    leave = stop;
    frame(title, `#/${id}/list`, body);
    return;
  }
  const [tab, , screen] = TABS.find(([one]) => one === name) ?? TABS[0];
  const { body, stop } = screen(live);
  leave = stop;
  frame(title, "#/", body, tab);
}

engine.watch((state) => {
  const reason = state === "failed" ? `: ${engine.failure.message}` : "";
  said.textContent = STATES[state] + reason;
  document.documentElement.dataset.engine = state;
});

function offerUpdate(registration) {
  const { waiting } = registration;
  if (!waiting || !navigator.serviceWorker.controller) return;
  const take = () => waiting.postMessage("take over");
  const bar = h(
    "div",
    { class: "update", role: "status" },
    h("span", {}, "A newer version is ready. Your jobs stay."),
    h("button", { type: "button", onclick: take }, "Update"),
  );
  document.querySelector(".update")?.remove();
  document.body.append(bar);
}

async function keepOffline() {
  if (carried || !navigator.serviceWorker) return;
  const had = Boolean(navigator.serviceWorker.controller);
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    document.documentElement.dataset.offline = "ready";
    if (had) location.reload();
  });
  if (had) document.documentElement.dataset.offline = "ready";
  const registration = await navigator.serviceWorker.register("sw.js");
  offerUpdate(registration);
  registration.addEventListener("updatefound", () => {
    const coming = registration.installing;
    coming.addEventListener("statechange", () => offerUpdate(registration));
  });
}

function showSafely() {
  show().catch((error) => {
    const told = `This browser keeps no jobs (${error.message}). A private window is the usual cause.`;
    frame("bracecalc", null, h("p", { class: "wrong", role: "alert" }, told));
  });
}

window.addEventListener("hashchange", showSafely);
showSafely();
keepOffline().catch(() => {
  document.documentElement.dataset.offline = "refused";
});
