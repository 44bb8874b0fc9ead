// Talks to the engine, which runs in a worker of its own so that the page never waits for it.

import { address, carried, engineParts } from "./assets.js";
import { START } from "./start.js";

/** What the engine said is wrong with the input: one line for each mistake. */
export class EngineRefusal extends Error {
  constructor(error) {
    super(error.text);
    this.mistakes = error.mistakes;
  }
}

// A file opened from the disk may not start a worker as a module.
const KIND = carried ? {} : { type: "module" };

class Engine {
  constructor() {
    this.waiting = new Map();
    this.next = 1;
    this.state = "starting";
    this.watchers = new Set();
    this.ready = this.#start();
    this.ready.catch(() => {});
  }

  async #start() {
    try {
      const worker = new Worker(await address("js/worker.js"), KIND);
      this.worker = worker;
      const ready = new Promise((resolve, reject) => {
        worker.onmessage = ({ data }) => this.#hear(data, resolve, reject);
        worker.onerror = (event) => {
          const error = new Error(event.message || "the worker did not start");
          reject(error);
          this.#stop(error);
        };
      });
      worker.postMessage({ parts: await engineParts(), lock: START.lock });
      await ready;
      this.#say("ready");
    } catch (error) {
      this.#stop(error);
      throw error;
    }
  }

  /** The engine is gone: nothing that waits for it may wait for ever. */
  #stop(error) {
    this.failure = error;
    for (const { reject } of this.waiting.values()) reject(error);
    this.waiting.clear();
    this.#say("failed");
  }

  #hear(data, resolve, reject) {
    if (data.ready) resolve();
    else if (data.failed) reject(new Error(data.failed));
    else {
      const asked = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      if (data.crash) asked.reject(new Error(data.crash));
      else {
        const reply = JSON.parse(data.reply);
        if (reply.error) asked.reject(new EngineRefusal(reply.error));
        else asked.resolve(reply.result);
      }
    }
  }

  #say(state) {
    this.state = state;
    for (const watcher of this.watchers) watcher(state);
  }

  /** Call `watcher(state)` now and whenever the state changes: starting, ready, failed. */
  watch(watcher) {
    this.watchers.add(watcher);
    watcher(this.state);
    return () => this.watchers.delete(watcher);
  }

  /** Return the engine's answer; waits for the engine where it is still starting. */
  async ask(method, params) {
    await this.ready;
    if (this.state === "failed") throw this.failure;
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.worker.postMessage({ id, request: JSON.stringify({ method, params }) });
    });
  }
}

export const engine = new Engine();
