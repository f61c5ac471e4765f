// Into a place and out of it, by keys and while something typed there is still being calculated.

import { all, any, input, where } from "./dom.js";
import { go } from "./fields.js";

const now = () => input(document, "place").value;

// What was typed in a place that was left meanwhile, and was done, does not lead back there; what was
// refused does, to its field.
document.addEventListener("htmx:beforeSwap", (event) => {
  const { detail } = /** @type {CustomEvent} */ (event);
  const asked = detail.requestConfig?.parameters.place;
  const answer = new DOMParser().parseFromString(asked && asked !== now() ? detail.serverResponse : "", "text/html");
  if (!any(answer, "#note.done", HTMLElement)) return;
  detail.shouldSwap = false;
  input(document, "revision").value = input(answer, "revision").value;
  go(now(), false);
});

// The doors close as another place is gone to. By keys: Enter on the name of the place that is shown goes
// into it, Escape there goes back to the name.
document.addEventListener("click", (event) => {
  const place = where(event, "a[data-place]", HTMLElement)?.dataset.place;
  if (place && place !== now()) for (const door of all(document, ".doors details", HTMLDetailsElement)) door.open = false;
}, true);

/** Goes into the place that is shown. */
export function enter() {
  const inside = all(document, ".place :is(a[href], button, input, select, summary, [tabindex='0'])", HTMLElement);
  inside.find((one) => one.checkVisibility() && !one.matches(":disabled"))?.focus();
}

document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (event.key !== "Escape" || event.defaultPrevented || !(at instanceof HTMLElement) || !at.closest(".place")) return;
  if (at instanceof HTMLSelectElement || (at instanceof HTMLInputElement && at.value !== at.defaultValue)) return;
  any(document, ".places a[aria-current]", HTMLElement)?.focus();
});
