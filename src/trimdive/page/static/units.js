// The units in which everything is shown: kept by the browser until it is closed, never in the file.

import { any, one } from "./dom.js";
import { held, show } from "./fields.js";
import { ROOT } from "./root.js";

const chosen = () => document.cookie.match(/(?:^|; )units=([a-z]*)/)?.[1] ?? "";

async function again() {
  const asked = new URLSearchParams(held());
  const answer = await fetch(`${ROOT}/${asked.get("place") ?? ""}?${asked}`, { headers: { "hx-request": "true" } });
  show(await answer.text());
}

document.addEventListener("change", (event) => {
  if (!(event.target instanceof HTMLSelectElement) || event.target.id !== "units") return;
  document.cookie = `units=${event.target.value}; path=${ROOT}/; SameSite=Strict`;
  again();
});

// Another window may have chosen others meanwhile.
addEventListener("focus", () => {
  const select = any(document, "#units", HTMLSelectElement);
  if (select && select.value !== chosen()) again();
});

// A field says in which unit a number counts that is typed without one.
document.addEventListener("focusin", (event) => {
  const field = event.target;
  if (!(field instanceof HTMLInputElement) || !field.dataset.field || field.title) return;
  if (/^\W*[a-z]/i.test(field.value || field.placeholder)) return; // a name counts in none
  field.title = `A number without a unit is in the file's unit: ${one(document, "#units", HTMLSelectElement).dataset.bare}`;
});
