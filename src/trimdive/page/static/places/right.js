// What remains when each finding alone is mended follows a moment after the rest.

import { all, any } from "../dom.js";
import { held } from "../fields.js";
import { ROOT } from "../root.js";

async function follow() {
  if (!document.querySelector(".place.right .following")) return;
  const asked = held();
  const answer = await fetch(`${ROOT}/right/remains?${new URLSearchParams(asked)}`).catch(() => null);
  const place = any(document, ".place.right", HTMLElement);
  if (answer?.status !== 200 || !place || held().revision !== asked.revision) return;
  const open = new Set(all(place, "details[open] b", HTMLElement).map((label) => label.textContent));
  const at = document.activeElement;
  const pressed = at instanceof HTMLButtonElement && place.contains(at) ? at.value : "";
  place.innerHTML = await answer.text();
  for (const fold of all(place, "details", HTMLDetailsElement)) {
    const label = fold.querySelector("b")?.textContent;
    if (label && open.has(label)) fold.open = true;
  }
  const count = any(document, '.places a[data-place="right"] b', HTMLElement);
  const heads = place.querySelector("h2 + .findings")?.children.length ?? 0;
  if (count) count.textContent = String(heads);
  if (pressed) all(place, "button", HTMLButtonElement).find((button) => button.value === pressed)?.focus();
}

document.addEventListener("htmx:afterSettle", follow);
follow();
