// Reads a square code with the camera, or from a photo where there is no live camera.

import { codeReader } from "./assets.js";
import { chooseFile, h, put } from "./dom.js";

const LONGEST_SIDE = 1600;
const LOOK_EVERY = 200; // ms

async function detector() {
  if ("BarcodeDetector" in globalThis) {
    const known = await globalThis.BarcodeDetector.getSupportedFormats().catch(() => []);
    if (known.includes("qr_code")) return new globalThis.BarcodeDetector({ formats: ["qr_code"] });
  }
  const { default: decodeQR } = await codeReader();
  return { detect: async (source) => byReader(decodeQR, source) };
}

function byReader(decodeQR, source) {
  const width = source.videoWidth ?? source.width;
  const height = source.videoHeight ?? source.height;
  if (!width || !height) return [];
  const shrink = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  const size = { width: Math.round(width * shrink), height: Math.round(height * shrink) };
  const canvas = Object.assign(document.createElement("canvas"), size);
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  pen.drawImage(source, 0, 0, size.width, size.height);
  try {
    return [{ rawValue: decodeQR(pen.getImageData(0, 0, size.width, size.height)) }];
  } catch {
    return []; // no code in this picture
  }
}

async function fromPhoto(reader) {
  const file = await chooseFile("image/*", "environment");
  if (!file) return undefined;
  const picture = await createImageBitmap(file);
  const [found] = await reader.detect(picture);
  if (!found) throw new Error("No code was found in the picture; hold the phone nearer and level.");
  return found.rawValue;
}

async function fromCamera(reader, stream, view) {
  const video = h("video", { playsinline: true, muted: true, "aria-label": "Camera" });
  video.srcObject = stream;
  let stopped = false;
  const stop = h("button", { type: "button", class: "big", onclick: () => (stopped = true) }, "Stop");
  put(view, video, stop);
  await video.play();
  while (!stopped && video.isConnected) {
    const [found] = await reader.detect(video);
    if (found) return found.rawValue;
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY));
  }
  return undefined;
}

/** Return the text of a code, or undefined where the person stopped. What went wrong is said. */
export async function scanCode(view, said) {
  put(said);
  try {
    const reader = await detector();
    let stream;
    try {
      const wanted = { video: { facingMode: "environment", width: { ideal: 1280 } } };
      stream = await navigator.mediaDevices.getUserMedia(wanted);
    } catch {
      return await fromPhoto(reader); // no camera, or not allowed
    }
    try {
      return await fromCamera(reader, stream, view);
    } finally {
      for (const track of stream.getTracks()) track.stop();
      put(view);
    }
  } catch (error) {
    put(said, h("p", { class: "wrong" }, error.message));
    return undefined;
  }
}
