// A word of the trade: its explanation opens at the word by mouse, by keyboard and by touch, and Esc
// closes it.

const meaning = Object.assign(document.createElement("div"), { id: "meaning", popover: "manual" });
meaning.setAttribute("role", "tooltip");
document.body.append(meaning);

let word = null; // whose explanation is open
let leaving = 0;

function open(button) {
  clearTimeout(leaving);
  if (word === button) return;
  close();
  word = button;
  meaning.textContent = button.dataset.means;
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
  leaving = setTimeout(() => word !== document.activeElement && close(), 250);
}

const termAt = (event) => event.target.closest?.("button.term");

document.addEventListener("pointerover", (event) => {
  if (event.pointerType === "touch") return;
  if (termAt(event)) open(termAt(event));
  else if (meaning.contains(event.target)) clearTimeout(leaving);
  else if (word) leave();
});
document.addEventListener("focusin", (event) => {
  if (termAt(event)?.matches(":focus-visible")) open(termAt(event));
});
document.addEventListener("focusout", (event) => termAt(event) === word && word && close());
document.addEventListener("click", (event) => {
  const button = termAt(event);
  if (button) {
    event.preventDefault();
    open(button);
  } else if (!meaning.contains(event.target)) close();
});
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || !word) return;
  event.preventDefault();
  close();
});
document.addEventListener("scroll", close, { capture: true, passive: true });
document.addEventListener("htmx:beforeSwap", close);
