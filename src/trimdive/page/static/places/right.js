// What remains when each finding alone is mended follows a moment after the rest.

import { ROOT } from "../root.js";
import { held } from "../fields.js";

async function follow() {
  if (!document.querySelector(".place.right .following")) return;
  const asked = held();
  const answer = await fetch(`${ROOT}/right/remains?${new URLSearchParams(asked)}`).catch(() => null);
  const place = document.querySelector(".place.right");
  if (answer?.status !== 200 || !place || held().revision !== asked.revision) return;
  const open = new Set([...place.querySelectorAll("details[open] b")].map((one) => one.textContent));
  const pressed = place.contains(document.activeElement) ? document.activeElement.value : "";
  place.innerHTML = await answer.text();
  for (const one of place.querySelectorAll("details")) {
    if (open.has(one.querySelector("b")?.textContent)) one.open = true;
  }
  const count = document.querySelector('.places a[data-place="right"] b');
  const heads = place.querySelectorAll("h2 + .findings")[0]?.children.length ?? 0;
  if (count) count.textContent = String(heads);
  if (pressed) [...place.querySelectorAll("button")].find((one) => one.value === pressed)?.focus();
}

document.addEventListener("htmx:afterSettle", follow);
follow();
