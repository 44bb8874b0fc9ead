// Keeps jobs on the device. Each entry is written at once and in order, before anything else is
// done with it. A newer page may add to a record; it never drops one or what it does not know.
// The browser's database has been seen to close, or to come up empty, when a disk is full: so it is
// opened again, and a second copy of each job stands in another store of the browser.

const NAME = "bracecalc";
const VERSION = 1;
const JOBS = "jobs";
const SECOND = "bracecalc job ";
const LARGEST_SECOND = 200000; // letters; that store holds a few millions
const COPIED = "bracecalc copied"; // when the jobs were last saved to a file

let opening;
let database;

function forget() {
  opening = database = undefined;
}

function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      if (!request.result.objectStoreNames.contains(JOBS)) {
        request.result.createObjectStore(JOBS, { keyPath: "id" });
      }
    };
    request.onsuccess = () => {
      database = request.result;
      database.onclose = forget; // the browser closed it
      // a newer page in another tab may need to change the store: let go of it
      database.onversionchange = () => {
        request.result.close();
        forget();
      };
      resolve(database);
    };
    request.onerror = () => {
      forget();
      reject(request.error);
    };
  });
  return opening;
}

async function once(mode, act) {
  // where it is open, what is written is on its way before this function first waits
  const transaction = (database ?? (await open())).transaction(JOBS, mode, { durability: "strict" });
  const request = act(transaction.objectStore(JOBS));
  if (mode === "readwrite") transaction.commit?.();
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = () => reject(transaction.error ?? new Error("the write was broken off"));
  });
}

async function run(mode, act) {
  try {
    return await once(mode, act);
  } catch {
    try {
      database?.close();
    } finally {
      forget();
    }
    return once(mode, act);
  }
}

function secondCopy(job) {
  try {
    const text = JSON.stringify(job);
    if (text.length <= LARGEST_SECOND) localStorage.setItem(SECOND + job.id, text);
  } catch {
    // full or forbidden: the first copy has to do
  }
}

function secondCopies() {
  const jobs = [];
  try {
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith(SECOND)) jobs.push(JSON.parse(localStorage.getItem(key)));
    }
  } catch {
    return jobs.filter(isJob);
  }
  return jobs.filter(isJob);
}

const write = (job) => run("readwrite", (jobs) => jobs.put(job));
const everyJob = () => run("readonly", (jobs) => jobs.getAll());

/** Put back what the database lost; return how many jobs that were. */
export async function recover() {
  const here = new Map((await everyJob()).map((job) => [job.id, job]));
  let found = 0;
  for (const job of secondCopies()) {
    if (here.has(job.id) && here.get(job.id).changed >= job.changed) continue;
    await write(job);
    found += 1;
  }
  return found;
}

/** Return every job that is not in the bin, the one changed last first. */
export async function allJobs() {
  return (await everyJob()).filter((job) => !job.binned).sort((a, b) => b.changed - a.changed);
}

/** Return the jobs in the bin, the one put there last first. */
export async function binnedJobs() {
  return (await everyJob()).filter((job) => job.binned).sort((a, b) => b.binned - a.binned);
}

/** Return one job, or undefined. */
export function getJob(id) {
  return run("readonly", (jobs) => jobs.get(id));
}

/** Write a job; resolves when it is on the device. */
export function putJob(job) {
  job.changed = Date.now();
  return noteJob(job);
}

/** Write what the page itself noted of a job, which does not count as a change. */
export function noteJob(job) {
  secondCopy(job);
  return write(job);
}

/** Keep what the engine said of a job, unless another tab has written a newer one meanwhile. */
export async function noteAnswer(job) {
  const transaction = (database ?? (await open())).transaction(JOBS, "readwrite", { durability: "strict" });
  const jobs = transaction.objectStore(JOBS);
  const stored = jobs.get(job.id);
  stored.onsuccess = () => {
    if (stored.result?.changed !== job.changed) return;
    secondCopy(job);
    jobs.put(job);
  };
  return new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
}

/** Put a job into the bin. */
export async function binJob(id) {
  const job = await getJob(id);
  if (job) await noteJob({ ...job, binned: Date.now() });
}

/** Take a job out of the bin. */
export async function unbinJob(id) {
  const job = await getJob(id);
  if (!job) return;
  delete job.binned;
  await noteJob(job);
}

/** Take a job off the device for good. */
export function dropJob(id) {
  try {
    localStorage.removeItem(SECOND + id);
  } catch {
    // forbidden: then there is no second copy either
  }
  return run("readwrite", (jobs) => jobs.delete(id));
}

function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  // plain http has no randomUUID
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Return a new job: the text it was opened from (empty for a new one) and what was typed. */
export function newJob(text, title) {
  const now = Date.now();
  return { id: newId(), title, text, entries: {}, created: now, changed: now };
}

/** Return every job as one file that `importAll` reads. */
export async function exportAll() {
  return JSON.stringify({ bracecalc: "jobs 1", jobs: await allJobs() }, null, 1);
}

/** Note that the jobs are in a file now. */
export function noteCopy() {
  try {
    localStorage.setItem(COPIED, String(Date.now()));
  } catch {
    // then it is urged once more than needed
  }
}

/** Return how many jobs have changed since they were last saved to a file. */
export async function notCopied() {
  let last = 0;
  try {
    last = Number(localStorage.getItem(COPIED) ?? 0);
  } catch {
    last = 0;
  }
  return (await allJobs()).filter((job) => job.changed > last).length;
}

function isJob(job) {
  return (
    job !== null &&
    typeof job === "object" &&
    typeof job.id === "string" &&
    typeof job.text === "string" &&
    typeof job.entries === "object" &&
    job.entries !== null
  );
}

const NO_JOBS = "This is not a file of saved jobs; expected the .json that \u201cSave all jobs\u201d wrote.";

/** Add the jobs of an exported file and return how many; of one job the later version is kept. */
export async function importAll(text) {
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new Error(NO_JOBS);
  }
  if (file?.bracecalc !== "jobs 1" || !Array.isArray(file.jobs) || !file.jobs.every(isJob)) {
    throw new Error(NO_JOBS);
  }
  let added = 0;
  for (const job of file.jobs) {
    const here = await getJob(job.id);
    if (here && !here.binned && here.changed >= job.changed) continue;
    await noteJob({ ...job, changed: Number(job.changed) || 0 });
    added += 1;
  }
  return added;
}

/** Return whether the browser promised to keep the jobs; asks it for that where it may. */
export async function lasting({ ask = false } = {}) {
  if (!navigator.storage?.persist) return false;
  return (await navigator.storage.persisted()) || (ask && (await navigator.storage.persist()));
}

/** Return in words why an entry was not kept, and what helps. */
export function whyLost(error) {
  const full = error?.name === "QuotaExceededError" || /quota|full|space/i.test(error?.message ?? "");
  const why = full ? "The storage of this phone is full." : `The browser refused it (${error?.message ?? error}).`;
  return `Not stored yet: what was typed last. ${why} It is tried again by itself; free some space, and keep this page open.`;
}
