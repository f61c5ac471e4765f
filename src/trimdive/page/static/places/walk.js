// The tour above the boat, which is told how far she was slid; and on all places, what of them is
// fetched after the place itself.

import { all, where } from "../dom.js";
import { go } from "../fields.js";
import { ROOT } from "../root.js";

let filling = 0; // grows with every answer: what was asked for before it is not shown

// Parts of the place that are worked out after the place itself, one after another.
async function fill() {
  const mine = ++filling;
  for (const part of all(document, "[data-from]", HTMLElement)) {
    const from = part.dataset.from ?? "";
    part.removeAttribute("data-from");
    try {
      const answer = await fetch(from);
      const text = await answer.text();
      if (mine !== filling) return;
      if (answer.ok) part.innerHTML = text;
      else part.textContent = text;
    } catch {
      return; // the program has stopped; the page says so elsewhere
    }
  }
}

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

document.addEventListener("htmx:afterSwap", fill);
if (location.hash === "#new-boat") begin();
fill();
