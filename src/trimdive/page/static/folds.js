// Folds stay as the builder left them: over an answer, over places, until the window is closed.

import { all } from "./dom.js";

const KEPT = "trimdive folds";
const FOLDS = ".place details[id]:not(.doors *)"; // which close as another place is gone to
/** @type {Record<string, boolean>} */
const open = JSON.parse(sessionStorage.getItem(KEPT) ?? "{}");

/** Opens and closes folds as they were left; what comes later than an answer asks for it. */
export function restore() {
  for (const fold of all(document, FOLDS, HTMLDetailsElement)) {
    const is = open[fold.id];
    if (is === undefined && fold.open) keep(fold); // it came open, before this listened
    else if (is !== undefined && fold.open !== is) fold.open = is;
  }
}

/** @param {{ id: string, open: boolean }} fold */
export function keep(fold) {
  open[fold.id] = fold.open;
  sessionStorage.setItem(KEPT, JSON.stringify(open));
}

document.addEventListener("toggle", ({ target }) => {
  if (target instanceof HTMLDetailsElement && target.matches(FOLDS)) keep(target);
}, true);
document.addEventListener("htmx:afterSwap", restore);
restore();
