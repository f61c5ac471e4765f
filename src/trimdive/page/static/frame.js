// The edge between boat and place: dragged or moved by arrow keys, kept for the next time. And each
// place is found again as far down as it was left.

import { any, input, one, where } from "./dom.js";

const KEPT = "trimdive edge"; // of the room that both share: the boat's, in percent
const [LEAST, MOST] = [30, 80];
const STEP = 2;
/** @type {Record<string, number>} */
const WAYS = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 };
const root = document.documentElement;

/** @param {number} share */
function set(share) {
  const kept = Math.min(Math.max(share, LEAST), MOST);
  root.style.setProperty("--split", `${kept.toFixed(1)}%`);
  any(document, ".divide", HTMLElement)?.setAttribute("aria-valuenow", String(Math.round(kept)));
  localStorage.setItem(KEPT, kept.toFixed(1));
}

/** @param {PointerEvent} event */
function share(event) {
  const boat = one(document, "boat-drawing", HTMLElement).getBoundingClientRect();
  const work = one(document, ".work", HTMLElement).getBoundingClientRect();
  const whole = one(document, "main", HTMLElement).getBoundingClientRect();
  return work.left >= boat.right
    ? (100 * (event.clientX - whole.left)) / whole.width
    : (100 * (event.clientY - boat.top)) / whole.height;
}

document.addEventListener("pointerdown", (event) => {
  const edge = where(event, ".divide", HTMLElement);
  if (!edge) return;
  event.preventDefault();
  edge.setPointerCapture(event.pointerId);
  /** @param {PointerEvent} to */
  const moved = (to) => set(share(to));
  edge.addEventListener("pointermove", moved);
  edge.addEventListener("lostpointercapture", () => edge.removeEventListener("pointermove", moved), { once: true });
});

document.addEventListener("keydown", (event) => {
  const way = WAYS[event.key];
  if (!way || !where(event, ".divide", HTMLElement)) return;
  event.preventDefault();
  set(parseFloat(getComputedStyle(root).getPropertyValue("--split")) + way * STEP);
});

const kept = parseFloat(localStorage.getItem(KEPT) ?? "");
if (kept >= LEAST && kept <= MOST) set(kept);

/** In a narrow window the bar of places is slid to the one that is shown. */
function slide() {
  const here = any(document, ".places [aria-current]", HTMLElement);
  const bar = here?.parentElement;
  if (!here || !bar) return;
  const [own, all] = [here.getBoundingClientRect(), bar.getBoundingClientRect()];
  if (own.left < all.left || own.right > all.right) bar.scrollLeft += (own.left + own.right - all.left - all.right) / 2;
}
slide();

/** @type {Map<string, [number, string]>} */
const downs = new Map(); // by place: how far [px], and of which revision
const at = () => input(document, "revision").value;
/** The place, or the form that stands over it. */
const place = () => `${input(document, "place").value} ${any(document, "input[name=entry_of]", HTMLInputElement)?.value ?? ""}`;
let shown = place(); // whose scrolling is the builder's own
let standing = 0; // in it, just before an answer comes into the page
let isSwapping = false; // to another place: what scrolls then is not

/** How far down the work is. */
const down = () => any(document, ".place", HTMLElement)?.scrollTop ?? 0;

document.addEventListener("scroll", (event) => {
  if (isSwapping || shown !== place()) return;
  if (event.target instanceof Element && event.target.matches(".place")) downs.set(place(), [event.target.scrollTop, at()]);
}, true);
document.addEventListener("htmx:beforeSwap", () => {
  standing = down();
});
// In the same place all stays where it is, at once: who scrolls on while it settles is not thrown back.
document.addEventListener("htmx:afterSwap", () => {
  isSwapping = shown !== place();
  const here = any(document, ".place", HTMLElement);
  if (here && !isSwapping) here.scrollTop = standing;
});
document.addEventListener("htmx:afterSettle", () => {
  slide();
  if (isSwapping) requestAnimationFrame(arrive);
});

/** Finds another place as far down as it was left. */
function arrive() {
  const here = any(document, ".place", HTMLElement);
  const [far, of] = downs.get(place()) ?? [0, ""];
  // What is to put right is another list after a change: it opens at its head.
  const isOther = place() === "right " && of !== at();
  if (here && !here.querySelector("[aria-invalid=true]")) here.scrollTop = isOther ? 0 : far;
  requestAnimationFrame(() => {
    isSwapping = false;
    shown = place();
  });
}
