// Folds stay as the builder left them: over an answer, over places, until the window is closed.

import { all } from "./dom.js";

const KEPT = "trimdive folds";
const FOLDS = ".place details[id]";
/** @type {Record<string, boolean>} */
const open = JSON.parse(sessionStorage.getItem(KEPT) ?? "{}");

function restore() {
  for (const fold of all(document, FOLDS, HTMLDetailsElement)) {
    const is = open[fold.id];
    if (is !== undefined && fold.open !== is) fold.open = is;
  }
}

document.addEventListener("toggle", ({ target }) => {
  if (!(target instanceof HTMLDetailsElement) || !target.matches(FOLDS)) return;
  open[target.id] = target.open;
  sessionStorage.setItem(KEPT, JSON.stringify(open));
}, true);
document.addEventListener("htmx:afterSwap", restore);
restore();
