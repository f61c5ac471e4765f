// The page about the boat: what is loaded when it is wanted, what is said when something is amiss,
// and how she stands in her file.

import { Boat } from "./boat.js";
import { any, input, lost, one, refuse, where, Working } from "./dom.js";
import { isGoing, waiting } from "./morph.js";
import { ROOT } from "./root.js";

export class BoatDrawing extends Working {
  /** @type {Boat | null} */
  boat = null;

  /** @param {AbortSignal} signal */
  begin(signal) {
    this.boat = new Boat(this, signal, this.boat?.now() ?? null); // as she was before the answer
  }
}

customElements.define("boat-drawing", BoatDrawing);

/** @returns {Promise<Stand>} */
async function stand() {
  return (await fetch(`${ROOT}/now`)).json();
}

function revision() {
  return input(document, "revision").value;
}

// Looked at again, a window shows how she is now: changed in another one, or on disk.
window.addEventListener("focus", async () => {
  try {
    const now = await stand();
    const isShown = document.querySelector("#note.changed-on-disk") !== null;
    if (waiting.length || [...document.querySelectorAll("input")].some(isGoing)) return; // which would be lost
    if (String(now.revision) !== revision() || now.is_changed_on_disk !== isShown) location.reload();
  } catch {
    lost();
  }
});

// What is wanted now and then is loaded when it is first pressed.
document.addEventListener("click", async (event) => {
  const button = where(event, "[data-loads]", HTMLElement);
  const boat = button && where(event, "boat-drawing", BoatDrawing)?.boat;
  if (!boat) return;
  /** @type {{ pressed: (button: HTMLElement, boat: Boat) => void }} */
  const loaded = await import(`./${button.dataset.loads}.js`);
  loaded.pressed(button, boat);
});
if (matchMedia("(min-width: 60rem) and (min-height: 62rem)").matches) import("./plan.js"); // room for it at once
document.addEventListener("click", async (event) => {
  const button = where(event, "button.why", HTMLElement);
  if (!button) return;
  event.preventDefault();
  (await import("./why.js")).asked(button);
});
// The sheet for paper, before a key or a menu can ask for it; and what is needed to leave a place.
for (const sign of ["pointermove", "keydown", "beforeprint"]) window.addEventListener(sign, () => void import("./print.js"), { once: true });
for (const sign of ["pointerdown", "keydown"]) window.addEventListener(sign, () => void import("./leaving.js"), { once: true });
document.addEventListener("gone", () => (one(document, "#gone", HTMLElement).hidden = false));
document.addEventListener("refused", ({ detail }) => {
  const note = one(document, "#note", HTMLElement);
  note.className = "refused";
  note.replaceChildren(Object.assign(document.createElement("p"), { textContent: detail.slice(0, 300) }));
});

// Marks that are not calculated yet follow the page.
async function follow() {
  if (!document.querySelector(".places .later")) return;
  try {
    /** @type {{ revision: number, marks: Record<string, string> }} */
    const found = await (await fetch(`${ROOT}/marks`)).json();
    if (String(found.revision) !== revision()) return;
    for (const [place, html] of Object.entries(found.marks)) {
      const mark = any(document, `.places a[data-place="${place}"] .mark`, HTMLElement);
      if (mark) mark.outerHTML = html.trim();
    }
  } catch {
    lost();
  }
}
document.addEventListener("htmx:afterSettle", follow);
follow();

document.addEventListener("htmx:sendError", lost);
document.addEventListener("htmx:responseError", ({ detail }) => refuse(detail.xhr.responseText));
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  /** @type {Record<string, string>} */
  const deeds = { z: event.shiftKey ? "redo" : "undo", y: "redo", s: "save" };
  const pressed = deeds[event.key.toLowerCase()];
  const button = pressed && any(document, `button[value="${pressed}"]`, HTMLButtonElement);
  if (!button) return;
  event.preventDefault();
  if (!button.disabled) button.click();
});
