// A door to a place, and there to a fold: it comes open, at the top.

import { any, input } from "../dom.js";
import { go } from "../fields.js";
import { keep } from "../folds.js";

const SCROLLED = 4; // frames until a place that is gone to lies as it was left

/**
 * @param {string} place
 * @param {string} [fold]
 */
export function goTo(place, fold) {
  if (fold) {
    if (place === "tub") input(document, "tub.at").value = fold;
    keep({ id: `fold-${place}-${fold}`, open: true });
  }
  document.addEventListener("htmx:afterSettle", () => top(place, fold), { once: true });
  return go(place);
}

/**
 * @param {string} place
 * @param {string} [fold]
 */
function top(place, fold, frames = SCROLLED) {
  if (frames) return requestAnimationFrame(() => top(place, fold, frames - 1));
  const head = fold ? any(document, `#fold-${place}-${fold} > summary`, HTMLElement) : null;
  head?.focus();
  head?.scrollIntoView();
}
