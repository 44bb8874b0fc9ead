// Keeps jobs on the device. Each entry is written at once and in order, before anything else is
// done with it. A newer page may add to a record; it never drops one or what it does not know.

const NAME = "bracecalc";
const VERSION = 1;
const JOBS = "jobs";

let opened;

function database() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      if (!request.result.objectStoreNames.contains(JOBS)) {
        request.result.createObjectStore(JOBS, { keyPath: "id" });
      }
    };
    request.onsuccess = () => {
      // a newer page in another tab may need to change the store: let go of it
      request.result.onversionchange = () => {
        request.result.close();
        opened = undefined;
      };
      resolve(request.result);
    };
    request.onerror = () => {
      opened = undefined;
      reject(request.error);
    };
  });
  return opened;
}

async function run(mode, act) {
  const transaction = (await database()).transaction(JOBS, mode, { durability: "strict" });
  const request = act(transaction.objectStore(JOBS));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = () => reject(transaction.error);
    transaction.onerror = () => reject(transaction.error);
  });
}

/** Return every job, the one changed last first. */
export async function allJobs() {
  const jobs = await run("readonly", (jobs) => jobs.getAll());
  return jobs.sort((a, b) => b.changed - a.changed);
}

/** Return one job, or undefined. */
export function getJob(id) {
  return run("readonly", (jobs) => jobs.get(id));
}

/** Write a job; resolves when it is on the device. */
export function putJob(job) {
  job.changed = Date.now();
  return run("readwrite", (jobs) => jobs.put(job));
}

/** Take a job off the device. */
export function dropJob(id) {
  return run("readwrite", (jobs) => jobs.delete(id));
}

/** Return a new job: the text it was opened from (empty for a new one) and what was typed. */
export function newJob(text, title) {
  const now = Date.now();
  return { id: crypto.randomUUID(), title, text, entries: {}, created: now, changed: now };
}

/** Return every job as one file that `importAll` reads. */
export async function exportAll() {
  return JSON.stringify({ bracecalc: "jobs 1", jobs: await allJobs() }, null, 1);
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

/** Add the jobs of an exported file and return how many; of one job the later version is kept. */
export async function importAll(text) {
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new Error("This is not a file of exported jobs; expected the .json that Export wrote.");
  }
  if (file?.bracecalc !== "jobs 1" || !Array.isArray(file.jobs) || !file.jobs.every(isJob)) {
    throw new Error("This is not a file of exported jobs; expected the .json that Export wrote.");
  }
  let added = 0;
  for (const job of file.jobs) {
    const here = await getJob(job.id);
    if (here && here.changed >= job.changed) continue;
    await run("readwrite", (jobs) => jobs.put({ ...job, changed: Number(job.changed) || 0 }));
    added += 1;
  }
  return added;
}

/** Ask the browser to keep the jobs even when space is short. */
export async function askToKeep() {
  if (!navigator.storage?.persist) return false;
  return (await navigator.storage.persisted()) || navigator.storage.persist();
}
