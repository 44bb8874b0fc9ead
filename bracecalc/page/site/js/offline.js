// Whether the page opens without a signal, as it is and not as it is hoped, and what mends that.

import { carried } from "./assets.js";

const AGAIN = 60000; // ms between tries while something is missing
const PATIENCE = 120000; // ms for the worker to fetch what is missing

/** What is said of each state; those under `again` can be tried again by the person. */
export const SAID = {
  coming: { text: "Being kept for use without signal\u2026" },
  kept: { text: "Ready without signal." },
  missing: { text: "Not kept for use without signal yet.", again: true },
  single: { text: "This file needs no signal. Look that a job is still there after closing it." },
  insecure: {
    text:
      "This address is not https, so a browser won't keep the page: it needs the signal each time. " +
      "Put the page on an https host, or use the single file.",
  },
  unable: { text: "This browser can't keep the page: it needs the signal each time." },
};

class Offline {
  constructor() {
    this.state = "coming";
    this.watchers = new Set();
    this.waiting = null; // a newer page, whole, that the person may take over
  }

  watch(watcher) {
    this.watchers.add(watcher);
    watcher();
    return () => this.watchers.delete(watcher);
  }

  #say(state) {
    this.state = state;
    document.documentElement.dataset.offline = state;
    for (const watcher of this.watchers) watcher();
  }

  async start() {
    if (carried) return this.#say("single");
    if (!globalThis.isSecureContext) return this.#say("insecure");
    if (!navigator.serviceWorker || !globalThis.caches) return this.#say("unable");
    this.#say("coming");
    const had = Boolean(navigator.serviceWorker.controller);
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (had) location.reload();
    });
    addEventListener("online", () => this.again());
    setInterval(() => this.state === "missing" && this.again(), AGAIN);
    return this.again();
  }

  /** Fetch what is missing and find out how things stand. */
  async again() {
    if (!["coming", "missing", "kept"].includes(this.state)) return;
    if (this.state === "missing") this.#say("coming");
    const registration = await navigator.serviceWorker.register("sw.js").catch(() => null);
    const known = registration ?? (await navigator.serviceWorker.getRegistration().catch(() => null));
    if (!known) return this.#say("missing");
    this.#expectNewer(known);
    const worker = known.active ?? (await installed(known));
    if (!worker) return this.#say("missing");
    const answer = await ask(worker, { ask: "mend" });
    return this.#say(answer?.missing.length === 0 ? "kept" : "missing");
  }

  #expectNewer(registration) {
    const offer = () => {
      if (!registration.waiting || !navigator.serviceWorker.controller) return;
      this.waiting = registration.waiting;
      this.#say(this.state);
    };
    offer();
    registration.onupdatefound = () => {
      registration.installing?.addEventListener("statechange", offer);
    };
  }

  /** Change over to the newer page; the address is opened anew by it. */
  takeOver() {
    this.waiting?.postMessage({ ask: "take over" });
  }

  /** Hold every kept file to its digest and fetch anew what differs; return how many did. */
  async mendAll() {
    const worker = navigator.serviceWorker?.controller;
    if (!worker) return 0;
    const answer = await ask(worker, { ask: "mend", verify: true });
    return answer?.mended ?? 0;
  }
}

function ask(worker, message) {
  const { port1, port2 } = new MessageChannel();
  const answer = new Promise((resolve) => {
    port1.onmessage = ({ data }) => resolve(data);
    setTimeout(() => resolve(null), PATIENCE);
  });
  worker.postMessage(message, [port2]);
  return answer;
}

/** Return the worker once it has all files; null where it could not get them. */
function installed(registration) {
  const coming = registration.installing ?? registration.waiting;
  if (!coming) return Promise.resolve(registration.active);
  return new Promise((resolve) => {
    const look = () => {
      if (coming.state === "activated") resolve(coming);
      if (coming.state === "redundant") resolve(null);
    };
    coming.addEventListener("statechange", look);
    look();
  });
}

export const offline = new Offline();
