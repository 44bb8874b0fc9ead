// Hands the job on: the job file, a code for another phone, the sheet to print.

import { download, h, put, s } from "./dom.js";
import { engine } from "./engine.js";

const plainName = (title) => title.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "").toLowerCase() || "niche";

async function handOn(name, text, said) {
  const file = new File([text], name, { type: "text/plain" });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title: name });
      return;
    } catch (error) {
      if (error.name === "AbortError") return;
    }
  }
  download(name, text, "text/plain");
  put(said, `${name} is in the downloads.`);
}

const QUIET = 4; // cells of white around a code (ISO/IEC 18004)

/** Draw a code as wide as the screen, dark on white in either theme. */
function codeOf(rows) {
  const size = rows.length + 2 * QUIET;
  const cells = rows.flatMap((row, y) =>
    [...row.matchAll(/1+/g)].map(({ 0: run, index }) => `M${index + QUIET} ${y + QUIET}h${run.length}v1h-${run.length}z`),
  );
  return s(
    "svg",
    { viewBox: `0 0 ${size} ${size}`, class: "code", role: "img", "aria-label": "Code of this job", "shape-rendering": "crispEdges" },
    s("rect", { width: size, height: size, fill: "#ffffff" }),
    s("path", { d: cells.join(""), fill: "#000000" }),
  );
}

/** Return the screen that gives the job out again. */
export function shareScreen(live) {
  const said = h("div", { class: "said-here", role: "alert" });
  const sheet = h("div", { class: "sheet" });
  const code = h("div");
  const name = plainName(live.job.title);
  const tried = (act) => async () => {
    put(said, "Working\u2026");
    try {
      await act();
    } catch (error) {
      put(said, error.message.split("\n").map((line) => h("p", { class: "wrong" }, line)));
    }
  };
  const jobFile = tried(async () => {
    const { text } = await engine.ask("write", live.asked());
    put(said);
    await handOn(`${name}.toml`, text, said);
  });
  const hand = tried(async () => {
    const { rows, why } = await engine.ask("hand", live.asked());
    put(said, why ?? "");
    if (!rows) return put(code);
    put(
      code,
      h("p", { class: "hint" }, "On the other phone: Code of a wall sheet or of another phone, then Scan it."),
      codeOf(rows),
    );
    return code.scrollIntoView();
  });
  const today = () => {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  };
  const wish = (form) => ({ ...live.asked(), form, paper: paper.value, date: today() });
  const show = tried(async () => {
    const { pages } = await engine.ask("sheet", wish("svg"));
    const images = pages.map((page, n) => {
      const place = URL.createObjectURL(new Blob([page], { type: "image/svg+xml" }));
      return h("img", { src: place, alt: `The wall sheet of this job, page ${n + 1} of ${pages.length}` });
    });
    put(sheet, images);
    await Promise.all(images.map((image) => image.decode()));
    put(said, "The sheet is below.");
    print.hidden = false;
  });
  const file = tried(async () => {
    const { text } = await engine.ask("sheet", wish("html"));
    download(`${name}.html`, text, "text/html");
    put(said, `${name}.html is in the downloads; it opens in any browser.`);
  });
  const metric = live.look?.units === "mm";
  const paper = h("select", { id: "paper" }, h("option", { value: "letter" }, "Letter"), h("option", { value: "a4", selected: metric }, "A4"));
  const button = (words, act, kind = "big") => h("button", { type: "button", class: kind, onclick: act }, words);
  const print = button("Print it", () => window.print(), "big first");
  print.hidden = true;
  const body = h(
    "div",
    {},
    h("h2", {}, "The job"),
    h("p", { class: "hint" }, "One file with the plan and what was found, as the command line reads it."),
    button("Share job file", jobFile, "big first"),
    button("Show a code for another phone", hand),
    code,
    h("h2", {}, "The wall sheet"),
    h("label", { for: "paper" }, "Paper"),
    paper,
    button("Show the sheet", show),
    button("Save the sheet as a file", file),
    said,
    print,
    sheet,
  );
  return { name: "Share", body, stop: () => {} };
}
