// Drives a real Firefox by WebDriver BiDi, as WebDriver's own protocol; one line of JSON in, one out.
// Arguments: the folder with the package ws, Firefox, an empty folder for its profile.

import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [, , packages, firefox, profile] = process.argv;
const { default: WebSocket } = await import(pathToFileURL(join(packages, "ws/wrapper.mjs")));
const started = ["-headless", "-no-remote", "-profile", profile, "-remote-debugging-port", "0"];
const browser = spawn(firefox, started, { stdio: ["ignore", "ignore", "pipe"] });
process.on("exit", () => browser.kill("SIGKILL"));

const place = await new Promise((resolve) => {
  createInterface(browser.stderr).on("line", (line) => {
    const found = /WebDriver BiDi listening on (\S+)/.exec(line);
    if (found) resolve(found[1]);
  });
});
const socket = new WebSocket(`${place}/session`);
await new Promise((resolve) => socket.on("open", resolve));
const waiting = new Map();
let next = 1;
socket.on("message", (text) => {
  const { id, result, error, message } = JSON.parse(text);
  const { resolve, reject } = waiting.get(id) ?? {};
  waiting.delete(id);
  if (error) reject?.(new Error(`${error}: ${message}`));
  else resolve?.(result);
});

function ask(method, params) {
  const id = next++;
  socket.send(JSON.stringify({ id, method, params }));
  return new Promise((resolve, reject) => waiting.set(id, { resolve, reject }));
}

await ask("session.new", { capabilities: {} });
const { contexts } = await ask("browsingContext.getTree", {});
const { context } = contexts[0];

const acts = {
  size: ([width, height]) => ask("browsingContext.setViewport", { context, viewport: { width, height } }),
  open: (url) => ask("browsingContext.navigate", { context, url, wait: "complete" }),
  reload: () => ask("browsingContext.reload", { context, wait: "complete" }),
  picture: async () => (await ask("browsingContext.captureScreenshot", { context })).data,
  run: async (expression) => {
    const told = await ask("script.evaluate", {
      expression: `(async () => JSON.stringify((await (${expression})) ?? null))()`,
      target: { context },
      awaitPromise: true,
    });
    if (told.type === "exception") throw new Error(told.exceptionDetails.text);
    return JSON.parse(told.result.value);
  },
};

console.log(JSON.stringify({ ready: true }));
for await (const line of createInterface(process.stdin)) {
  const [act, given] = JSON.parse(line);
  try {
    console.log(JSON.stringify({ result: (await acts[act](given)) ?? null }));
  } catch (error) {
    console.log(JSON.stringify({ error: String(error.message) }));
  }
}
process.exit(0);
