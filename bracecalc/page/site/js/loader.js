// Stands in the single file only: makes a module of each carried text, in order of need.
(async () => {
  const blocks = new Map();
  for (const block of document.querySelectorAll("script[data-name]")) {
    blocks.set(block.dataset.name, block);
  }
  const bytes = async (name) => {
    const packed = Uint8Array.from(atob(blocks.get(name).textContent), (one) => one.charCodeAt(0));
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Uint8Array(await new Response(stream).arrayBuffer());
  };
  const places = new Map();
  for (const name of "{{modules}}") {
    const text = new TextDecoder().decode(await bytes(name));
    const linked = text.replace(
      /((?:from|import)\s+)["']\.\/([\w.-]+)["']/g,
      (_, word, other) => `${word}"${places.get(`js/${other}`)}"`,
    );
    places.set(name, URL.createObjectURL(new Blob([linked], { type: "text/javascript" })));
  }
  globalThis.bracecalcCarried = { bytes, places };
  await import(places.get("js/main.js"));
})();
