// The plan under the side view, on the same x; where there is little room it folds away.

import { ROOT } from "./root.js";
import { element } from "./drawing.js";

const AIR = 12; // pixels kept clear at either side of her
let isOpen = matchMedia("(min-width: 60rem) and (min-height: 62rem)").matches;
let kept = { of: "", text: "" }; // as it was drawn last, and of which state of her file

class Plan {
  constructor(boat) {
    this.boat = boat;
    this.svg = boat.querySelector(".plan-of");
    this.button = boat.querySelector(".unfold.above");
    this.group = element("g", { class: "from-above" });
    this.line = element("path", { class: "cutline", "vector-effect": "non-scaling-stroke" });
    this.svg.append(this.group, this.line);
    [this.low, this.high] = boat.dive.bounds;
    this.button.addEventListener("click", () => this.fold(!isOpen));
    this.fold(isOpen);
  }

  fold(open) {
    isOpen = open;
    this.svg.toggleAttribute("hidden", !open);
    this.button.setAttribute("aria-expanded", String(open));
    if (open) this.fill();
  }

  async fill() {
    const of = `${this.boat.form.elements.revision.value} ${document.cookie}`;
    this.group.innerHTML = kept.text; // as she was, until the new one is there
    this.fit();
    if (kept.of === of) return;
    try {
      const answer = await fetch(`${ROOT}/plan`);
      if (!answer.ok || !this.boat.isConnected) return;
      kept = { of, text: await answer.text() };
      this.group.innerHTML = kept.text;
    } catch {
      document.dispatchEvent(new CustomEvent("gone"));
    }
  }

  // As far along as the side view shows her, middle over middle.
  fit() {
    const { drawing, dive } = this.boat;
    if (!isOpen || !drawing.k) return;
    const width = drawing.size[0] * drawing.k;
    const half = Math.max(-this.low[1], this.high[1]);
    const pixels = (2 * half) / drawing.usual + 2 * AIR;
    this.svg.style.height = `${pixels.toFixed(0)}px`;
    const tall = pixels * drawing.k;
    this.svg.setAttribute("viewBox", `${dive.middle - width / 2} ${-tall / 2} ${width} ${tall}`);
  }

  cut(x) {
    this.line.setAttribute("d", x === null ? "" : `M${x},${-this.high[1]}V${-this.low[1]}`);
  }
}

const plans = new WeakMap();
const planOf = (boat) => plans.get(boat) ?? plans.set(boat, new Plan(boat)).get(boat);
document.addEventListener("lies", ({ target }) => planOf(target).fit());
document.addEventListener("cut", ({ target, detail }) => planOf(target).cut(detail));
