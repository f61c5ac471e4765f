// "Why?": a small panel beside the figure that was asked; Esc or a click beside it closes it, and
// the focus is then where it was.

import { ROOT } from "./root.js";
const panel = Object.assign(document.createElement("div"), { id: "why", popover: "auto" });
panel.setAttribute("role", "dialog");
panel.setAttribute("aria-labelledby", "why-title");
document.body.append(panel);

let asker = null; // the button that was pressed on the page
let trail = []; // keys asked one from another

async function ask(key) {
  const form = new FormData(document.getElementById("sheet"));
  const asked = new URLSearchParams({ key });
  for (const name of ["filling", "up", "touched"]) asked.set(name, form.get(name) ?? "");
  try {
    const answer = await fetch(`${ROOT}/why?${asked}`);
    const text = await answer.text();
    if (!answer.ok) return document.dispatchEvent(new CustomEvent("refused", { detail: text }));
    panel.innerHTML = text;
  } catch {
    return document.dispatchEvent(new CustomEvent("refused", { detail: "The program has stopped." }));
  }
  if (trail.length > 1) panel.querySelector(".why-head").prepend(back());
  if (!panel.matches(":popover-open")) panel.showPopover();
  place();
  panel.scrollTop = 0;
  panel.querySelector("h2").focus({ preventScroll: true });
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

document.addEventListener("click", (event) => {
  const button = event.target.closest?.("button.why");
  if (button) {
    event.preventDefault();
    if (panel.contains(button)) trail.push(button.dataset.why);
    else {
      asker = button;
      trail = [button.dataset.why];
    }
    ask(trail.at(-1));
    return;
  }
  if (event.target.closest?.(".why-close")) panel.hidePopover();
  if (event.target.closest?.(".why-back")) {
    trail.pop();
    ask(trail.at(-1));
  }
});

panel.addEventListener("toggle", (event) => {
  if (event.newState !== "closed") return;
  if (document.activeElement === document.body || panel.contains(document.activeElement)) asker?.focus({ preventScroll: true });
});
document.addEventListener("htmx:beforeSwap", () => panel.matches(":popover-open") && panel.hidePopover());
addEventListener("resize", () => panel.matches(":popover-open") && place());
