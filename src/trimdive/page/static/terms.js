// A word of the trade: its explanation opens at the word by mouse, by keyboard and by touch, and Esc
// closes it.

import { where } from "./dom.js";

const meaning = Object.assign(document.createElement("div"), { id: "meaning", popover: "manual" });
meaning.setAttribute("role", "tooltip");
document.body.append(meaning);

/** @type {HTMLElement | null} */
let word = null; // whose explanation is open
let leaving = 0;

/** @param {HTMLElement} button */
function open(button) {
  clearTimeout(leaving);
  if (word === button) return;
  close();
  word = button;
  meaning.textContent = button.dataset.means ?? "";
  button.setAttribute("aria-describedby", "meaning");
  meaning.showPopover();
  const at = button.getBoundingClientRect();
  const left = Math.max(8, Math.min(at.left, innerWidth - meaning.offsetWidth - 8));
  const below = at.bottom + 6 + meaning.offsetHeight <= innerHeight;
  meaning.style.left = `${left}px`;
  meaning.style.top = `${below ? at.bottom + 6 : Math.max(8, at.top - 6 - meaning.offsetHeight)}px`;
}

function close() {
  clearTimeout(leaving);
  word?.removeAttribute("aria-describedby");
  word = null;
  if (meaning.matches(":popover-open")) meaning.hidePopover();
}

// The mouse may go over from the word to what explains it.
function leave() {
  clearTimeout(leaving);
  leaving = window.setTimeout(() => word !== document.activeElement && close(), 250);
}

/** @param {Event} event */
const termAt = (event) => where(event, "button.term", HTMLElement);
/** @param {Event} event */
const isInside = (event) => event.target instanceof Node && meaning.contains(event.target);

document.addEventListener("pointerover", (event) => {
  if (event.pointerType === "touch") return;
  const button = termAt(event);
  if (button) open(button);
  else if (isInside(event)) clearTimeout(leaving);
  else if (word) leave();
});
document.addEventListener("focusin", (event) => {
  const button = termAt(event);
  if (button?.matches(":focus-visible")) open(button);
});
document.addEventListener("focusout", (event) => {
  if (word && termAt(event) === word) close();
});
document.addEventListener("click", (event) => {
  const button = termAt(event);
  if (button) {
    event.preventDefault();
    open(button);
  } else if (!isInside(event)) close();
});
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || !word) return;
  event.preventDefault();
  close();
});
document.addEventListener("scroll", close, { capture: true, passive: true });
document.addEventListener("htmx:beforeSwap", close);
