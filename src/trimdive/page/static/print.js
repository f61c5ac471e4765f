// The sheet for paper: loaded at the first sign of a hand, so that the first page stays small. The
// place and the day stand in its head, her name at the foot of each leaf, and she is drawn as large
// as the leaf allows.

import { all, any } from "./dom.js";
import { BoatDrawing } from "./page.js";
import { ROOT } from "./root.js";

const LEAF = "width: 695px; height: 219px"; // of her drawing: print.css
const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", media: "print", href: `${ROOT}/static/print.css` });
const foot = Object.assign(document.createElement("style"), { media: "print" });
document.head.append(sheet, foot);

/** A string of CSS. @param {string} text */
function quoted(text) {
  return `"${text.replace(/["\\<\n\f\r]/g, (sign) => `\\${sign.charCodeAt(0).toString(16)} `)}"`;
}

function dated() {
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
  const place = any(document, ".place", HTMLElement)?.getAttribute("aria-label") ?? "";
  const name = any(document, "#sheet > header h1", HTMLElement)?.textContent ?? "";
  any(document, "#sheet > header", HTMLElement)?.setAttribute("data-print", `${place}, ${day}`);
  foot.textContent = `@page { @bottom-left { content: ${quoted(`${name}, ${place}, ${day}`)}; font: 8.5pt "DejaVu Sans", Verdana, sans-serif; } }`;
}

/** What the heads of tables say that sort when they are pressed. */
function headed() {
  for (const head of all(document, "thead th:has(button)", HTMLElement)) head.dataset.print = head.innerText;
}

/** Her drawing, fitted to the leaf; on the screen she is again as she was. */
function fitted() {
  const boat = any(document, "boat-drawing", BoatDrawing)?.boat;
  if (!boat) return;
  const { drawing, scene } = boat;
  const { held } = drawing;
  scene.style.cssText = `position: fixed; max-width: none; ${LEAF}`;
  boat.fit();
  scene.style.cssText = "";
  window.addEventListener("afterprint", () => {
    drawing.fit();
    drawing.held = held;
    boat.show(boat.lie);
  }, { once: true });
}

window.addEventListener("beforeprint", () => {
  dated();
  headed();
  fitted();
});
dated();
