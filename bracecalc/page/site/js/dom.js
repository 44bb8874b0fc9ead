// Makes elements. Text goes in as text alone: nothing of a job is ever read as markup.

const SVG = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value") element.value = value;
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  for (const child of children.flat(Infinity)) {
    if (child === undefined || child === null || child === false) continue;
    element.append(child instanceof Node ? child : document.createTextNode(String(child)));
  }
  return element;
}

/** Return an HTML element; functions under `on...` become listeners. */
export function h(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** Return an SVG element. */
export function s(tag, attributes = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

/** Put these children in the place of what an element holds. */
export function put(element, ...children) {
  element.replaceChildren();
  return fill(element, {}, children);
}

/** Hand a text or a blob to the person as a file. */
export function download(name, content, type) {
  const blob = content instanceof Blob ? content : new Blob([content], { type });
  const link = h("a", { href: URL.createObjectURL(blob), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** Ask for a file and return it; undefined where nothing was chosen. */
export function chooseFile(accept, capture) {
  const input = h("input", { type: "file", accept, capture, hidden: true });
  document.body.append(input);
  const chosen = new Promise((resolve) => {
    input.addEventListener("change", () => resolve(input.files[0]));
    input.addEventListener("cancel", () => resolve(undefined));
  });
  input.click();
  return chosen.finally(() => input.remove());
}
