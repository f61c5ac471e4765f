// What remains when each finding alone is mended follows a moment after the rest.

import { any, where } from "../dom.js";
import { held } from "../fields.js";
import { put } from "../morph.js";
import { ROOT } from "../root.js";

async function follow() {
  if (!document.querySelector(".place.right .following")) return;
  const asked = held();
  const answer = await fetch(`${ROOT}/right/remains?${new URLSearchParams(asked)}`).catch(() => null);
  const place = any(document, ".place.right", HTMLElement);
  if (answer?.status !== 200 || !place) return;
  const html = await answer.text();
  if (held().revision !== asked.revision) return;
  if (isTouched(place)) await put(place, html);
  else place.innerHTML = html; // what keeps focus and folds need not be loaded for that
}

/**
 * Whether something in a place has the focus, or is unfolded.
 * @param {HTMLElement} place
 */
function isTouched(place) {
  return place.contains(document.activeElement) || place.querySelector("details[open]") !== null;
}

document.addEventListener("htmx:afterSettle", follow);
follow();

document.addEventListener("click", (event) => {
  const { goes, fold } = where(event, "[data-goes]", HTMLElement)?.dataset ?? {};
  if (goes) import("./mending.js").then(({ goTo }) => goTo(goes, fold));
});
