// Shows a drawing of the engine as a picture: a document of its own that can't run or load a thing.

import { h } from "./dom.js";

/** Return the drawings, each `{name, svg, told}`, one under the other. */
export function picture(drawings) {
  return h(
    "div",
    { class: "drawings" },
    (drawings ?? []).map(({ svg, told }) => {
      const place = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
      return h("img", { src: place, alt: told, class: "drawing", onload: () => URL.revokeObjectURL(place) });
    }),
  );
}
