// The tour above the boat, which is told how far she was slid.

import { where } from "../dom.js";
import { go } from "../fields.js";
import { ROOT } from "../root.js";

// "Start mine": the shelf, at the first field of a new boat.
document.addEventListener("click", async (event) => {
  if (!where(event, "[data-start-mine]", HTMLElement) || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  await go("shelf");
  setTimeout(begin);
}, true);

function begin() {
  document.getElementById("new-boat")?.scrollIntoView();
  document.getElementById("new-name")?.focus({ preventScroll: true });
}

// The walk is told when the slider is let go, and its line put in the place of the one before.
document.addEventListener("change", async (event) => {
  const slider = event.target;
  if (!(slider instanceof HTMLInputElement) || slider.name !== "filling" || !document.getElementById("walk")) return;
  const isUp = slider.closest("boat-drawing")?.boat?.isUp;
  const slid = new URLSearchParams({ filling: slider.value, up: isUp ? "1" : "" });
  try {
    const answer = await fetch(`${ROOT}/shelf/slid?${slid}`);
    if (!answer.ok) return;
    const text = await answer.text();
    const there = document.getElementById("walk");
    if (there && text !== there.outerHTML) there.outerHTML = text;
  } catch {
    // the program has stopped; the page says so elsewhere
  }
});

if (location.hash === "#new-boat") begin();
