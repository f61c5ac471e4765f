// What of a place is fetched after the place itself.

import { all } from "../dom.js";

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

document.addEventListener("htmx:afterSwap", fill);
fill();
