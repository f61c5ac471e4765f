// The plan under the side view, on the same x, loaded when it is first unfolded; in a high window it
// is open at once.

import { input, lost, one } from "./dom.js";
import { element, still } from "./drawing.js";
import { ROOT } from "./root.js";

const AIR = 12; // pixels kept clear at either side of her
let isOpen = matchMedia("(min-width: 60rem) and (min-height: 62rem)").matches;
let kept = { of: "", text: "" }; // as it was drawn last, and of which state of her file

class Plan {
  /** @param {Boat} boat */
  constructor(boat) {
    this.boat = boat;
    this.svg = one(boat.element, ".plan-of", SVGSVGElement);
    this.button = one(boat.element, ".unfold.above", HTMLButtonElement);
    this.group = element("g", { class: "from-above" });
    this.line = still({ class: "cutline" });
    this.svg.append(this.group, this.line);
    this.fold(isOpen);
  }

  /** @param {boolean} open */
  fold(open) {
    isOpen = open;
    this.svg.toggleAttribute("hidden", !open);
    this.button.setAttribute("aria-expanded", String(open));
    if (open) this.fill();
  }

  async fill() {
    const of = `${input(this.boat.form, "revision").value} ${document.cookie}`;
    this.group.innerHTML = kept.text; // as she was, until the new one is there
    this.fit();
    if (kept.of === of) return;
    try {
      const answer = await fetch(`${ROOT}/plan`);
      if (!answer.ok || this.boat.signal.aborted) return;
      kept = { of, text: await answer.text() };
      this.group.innerHTML = kept.text;
    } catch {
      lost();
    }
  }

  /** As far along as the side view shows her, middle over middle. */
  fit() {
    const { drawing, dive } = this.boat;
    if (!isOpen || !drawing.k) return;
    const width = drawing.width * drawing.k;
    const half = Math.max(-dive.bounds.low.y, dive.bounds.high.y);
    const pixels = (2 * half) / drawing.usual + 2 * AIR;
    this.svg.style.height = `${pixels.toFixed(0)}px`;
    const tall = pixels * drawing.k;
    this.svg.setAttribute("viewBox", `${dive.middle - width / 2} ${-tall / 2} ${width} ${tall}`);
  }

  /** @param {number | null} x */
  cut(x) {
    const { low, high } = this.boat.dive.bounds;
    this.line.setAttribute("d", x === null ? "" : `M${x},${-high.y}V${-low.y}`);
  }
}

/** @type {WeakMap<Boat, Plan>} */
const plans = new WeakMap();

/** @param {Boat} boat */
function planOf(boat) {
  const plan = plans.get(boat) ?? new Plan(boat);
  plans.set(boat, plan);
  return plan;
}

/**
 * @param {HTMLElement} _button
 * @param {Boat} boat
 */
export function pressed(_button, boat) {
  planOf(boat).fold(!isOpen);
}

for (const { boat } of document.querySelectorAll("boat-drawing")) if (boat) planOf(boat).fit();
document.addEventListener("lies", ({ detail: boat }) => planOf(boat).fit());
document.addEventListener("sectioned", ({ detail: { boat, x } }) => planOf(boat).cut(x));
