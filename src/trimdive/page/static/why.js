// "Why?": a small panel beside the figure that was asked; Esc or a click beside it closes it, and
// the focus is then where it was. Loaded when it is first asked.

import { one, refuse, where } from "./dom.js";
import { ROOT } from "./root.js";
import { styled } from "./sheet.js";

const panel = Object.assign(document.createElement("div"), { id: "why", popover: "auto" });
panel.setAttribute("role", "dialog");
panel.setAttribute("aria-labelledby", "why-title");
document.body.append(panel);

await styled("why_panel.css");

/** @type {HTMLElement | null} */
let asker = null; // the button that was pressed on the page
/** @type {string[]} */
let trail = []; // keys asked one from another

async function ask() {
  const key = trail.at(-1);
  if (key === undefined) return;
  const asked = new URLSearchParams({ key });
  for (const [name, value] of new FormData(one(document, "#sheet", HTMLFormElement))) {
    if (["filling", "up", "touched"].includes(name)) asked.set(name, String(value));
  }
  try {
    const answer = await fetch(`${ROOT}/why?${asked}`);
    const text = await answer.text();
    if (!answer.ok) return refuse(text);
    panel.innerHTML = text;
  } catch {
    return refuse("The program has stopped.");
  }
  if (trail.length > 1) one(panel, ".why-head", HTMLElement).prepend(back());
  if (!panel.matches(":popover-open")) panel.showPopover();
  place();
  panel.scrollTop = 0;
  one(panel, "h2", HTMLElement).focus({ preventScroll: true });
}

function back() {
  const button = Object.assign(document.createElement("button"), { type: "button", className: "why-back", textContent: "←" });
  button.setAttribute("aria-label", "Back");
  return button;
}

// Under the figure where there is room, else over it; never off the screen.
function place() {
  const at = (asker?.closest(".figures > div") ?? asker)?.getBoundingClientRect();
  if (!at) return;
  const { offsetWidth: wide, offsetHeight: high } = panel;
  const left = Math.max(8, Math.min(at.left, innerWidth - wide - 8));
  const below = at.bottom + 6;
  const top = below + high <= innerHeight - 8 ? below : Math.max(8, Math.min(at.top - high - 6, innerHeight - high - 8));
  panel.style.left = `${left}px`;
  panel.style.top = `${top < 8 ? 8 : top}px`;
}

/** @param {HTMLElement} button that was pressed */
export function asked(button) {
  const key = button.dataset.why ?? "";
  if (panel.contains(button)) trail.push(key);
  else {
    asker = button;
    trail = [key];
  }
  ask();
}

document.addEventListener("click", (event) => {
  if (where(event, ".why-close", HTMLElement)) panel.hidePopover();
  if (where(event, ".why-back", HTMLElement)) {
    trail.pop();
    ask();
  }
});

panel.addEventListener("toggle", (event) => {
  if (event.newState !== "closed") return;
  if (document.activeElement === document.body || panel.contains(document.activeElement)) asker?.focus({ preventScroll: true });
});
document.addEventListener("htmx:beforeSwap", () => {
  if (panel.matches(":popover-open")) panel.hidePopover();
});
addEventListener("resize", () => {
  if (panel.matches(":popover-open")) place();
});
