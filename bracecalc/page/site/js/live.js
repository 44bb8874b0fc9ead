// The job that is open: keeps each entry at once, then asks the engine what it comes to.

import { engine, EngineRefusal } from "./engine.js";
import { START } from "./start.js";
import { getJob, noteAnswer, noteJob, putJob, whyLost } from "./store.js";

const TRY_AGAIN = 5000; // ms after a write that failed

class Live {
  constructor() {
    this.job = null;
    this.look = null; // the engine's last answer for this job as it stands
    this.trouble = null; // what stands in the way of an answer
    this.watchers = new Set();
    this.turn = 0;
    this.lost = null; // why what was typed last is not on the device yet
    this.saved = Promise.resolve();
    this.others = new BroadcastChannel("bracecalc");
    this.others.onmessage = ({ data }) => this.#changedElsewhere(data);
  }

  /** Another tab wrote a job: take it over, so that this tab never puts an older one back. */
  async #changedElsewhere(id) {
    if (this.job?.id !== id) return;
    const job = await getJob(id);
    if (!job || this.job?.id !== id) return;
    this.job = job;
    this.refresh();
  }

  /** Open a job of the store; returns false where it is not there. */
  async open(id) {
    if (this.job?.id === id) return true;
    await this.saved;
    const job = await getJob(id);
    if (!job || job.binned) return false;
    Object.assign(this, { job, look: null, trouble: null });
    this.refresh();
    return true;
  }

  /** Let go of the job, as when it is deleted or another copy was imported. */
  close() {
    this.job = null;
    this.turn += 1;
  }

  /** Put a value under a key; an empty one takes the entry away. Kept on the device at once. */
  enter(key, value) {
    const empty = value === "" || value === undefined || (Array.isArray(value) && !value.some(Boolean));
    if (empty) delete this.job.entries[key];
    else this.job.entries[key] = value;
    return this.keep();
  }

  /** Write the job as it is, and ask the engine again. */
  keep() {
    this.#save(putJob);
    this.refresh();
    return this.saved;
  }

  #save(put) {
    const { job } = this;
    clearTimeout(this.retry);
    this.saved = put(job).then(
      () => {
        const before = this.lost;
        this.lost = null;
        this.others.postMessage(job.id);
        if (before) this.#say();
      },
      (error) => {
        this.lost = whyLost(error);
        this.retry = setTimeout(() => this.job === job && this.#save(noteJob), TRY_AGAIN);
        this.#say();
      },
    );
  }

  /** What the engine is given: the job file's text and what was typed over it. */
  asked() {
    return { text: this.job.text, entries: this.job.entries, title: this.job.title };
  }

  async refresh() {
    const turn = (this.turn += 1);
    this.fresh = false;
    this.#say(); // what needs no engine is shown at once
    try {
      const look = await engine.ask("look", this.asked());
      if (turn !== this.turn) return;
      Object.assign(this, { look, trouble: null, fresh: true });
      this.#note(look);
    } catch (error) {
      if (turn !== this.turn) return;
      const told = error instanceof EngineRefusal ? error.message : `The engine stopped: ${error.message}`;
      Object.assign(this, { trouble: told, fresh: true });
    }
    this.#say();
  }

  /** Keep with the job what the list of jobs shows of it. */
  #note(look) {
    const { job } = this;
    const came = { sign: look.sign, verdict: look.verdict, by: START.version };
    job.known = look.known ?? job.known;
    const title = look.title || job.title;
    if (title === job.title && JSON.stringify(came) === JSON.stringify(job.came)) return;
    Object.assign(job, { title, came });
    // not kept: it is asked again next time
    this.saved = Promise.all([this.saved, noteAnswer(job).catch(() => {})]);
  }

  #say() {
    for (const watcher of this.watchers) watcher();
  }

  /** Call `watcher()` after each answer; returns how to stop. */
  watch(watcher) {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  }
}

export const live = new Live();
