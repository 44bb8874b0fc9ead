// Shows the engine's paragraphs, lists and tables; a table becomes a card a row on a phone.

import { h } from "./dom.js";
import { linked } from "./words.js";

function items({ items: listed }, say) {
  const numbered = listed.every(([head]) => /^\d+\.$/.test(head));
  if (numbered) return h("ol", {}, listed.map(([, text]) => h("li", {}, say(text))));
  if (listed.every(([head]) => head === "-")) return h("ul", {}, listed.map(([, text]) => h("li", {}, say(text))));
  return h("ul", { class: "points" }, listed.map(([head, text]) => h("li", {}, h("strong", {}, head), h("span", {}, say(text)))));
}

function cards({ headings, rows }) {
  const [first, ...names] = headings; // a bare number says nothing without its heading
  return h(
    "ul",
    { class: "cards" },
    rows.map(([title, ...values]) =>
      h(
        "li",
        {},
        h("strong", {}, /^\d+$/.test(title) ? `${first} ${title}` : title),
        h(
          "dl",
          {},
          values.map((value, n) =>
            value === "" ? null : h("div", {}, names[n] ? h("dt", {}, names[n]) : null, h("dd", {}, value)),
          ),
        ),
      ),
    ),
  );
}

/** Return the elements of the blocks of one section; keys in them lead to their fields. */
export function blocksOf(blocks, job) {
  const say = (text) => linked(job, text);
  return blocks.map((block) => {
    if (block.kind === "paragraph") return h("p", {}, say(block.text));
    return block.kind === "items" ? items(block, say) : cards(block);
  });
}
