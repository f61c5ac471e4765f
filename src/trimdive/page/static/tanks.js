// A slider for each tank, folded away under the track: what she does off the planned way.

import { any, lost, one, refuse } from "./dom.js";
import { ROOT } from "./root.js";
import { styled } from "./sheet.js";

await styled("each.css");

let isOpen = false;

/** @typedef {{ slider: HTMLInputElement, output: HTMLOutputElement }} TankSlider */

class Tanks {
  /** @param {Boat} boat */
  constructor(boat) {
    this.boat = boat;
    this.box = one(boat.element, ".each", HTMLElement);
    this.button = any(boat.element, ".unfold.apart", HTMLButtonElement);
    /** @type {TankSlider[]} */
    this.sliders = [];
    this.isAsking = this.isApart = false;
    this.wanted = "";
    if (!this.button) return;
    this.box.addEventListener("input", () => this.ask(), { signal: boat.signal });
    this.fold(isOpen);
  }

  /** @param {boolean} open */
  fold(open) {
    isOpen = open;
    this.box.hidden = !open;
    this.button?.setAttribute("aria-expanded", String(open));
    if (!open || this.sliders.length) return;
    this.sliders = this.boat.dive.tanks.map((tank) => {
      const label = document.createElement("label");
      const range = { type: "range", min: "0", max: "1", step: "0.005" };
      const slider = Object.assign(document.createElement("input"), range);
      const output = document.createElement("output");
      label.append(Object.assign(document.createElement("span"), { textContent: tank.name }), slider, output);
      this.box.append(label);
      return { slider, output };
    });
    this.follow(this.boat.lie);
  }

  /**
   * Where the tanks stand as she is shown, while none of these sliders is moved.
   * @param {Lie} lie
   */
  follow(lie) {
    if (this.isAsking) return;
    this.sliders.forEach((one, i) => {
      if (document.activeElement !== one.slider || !this.isApart) one.slider.value = String(lie.tanks[i].share);
      this.tell(one);
    });
    this.isApart = false;
  }

  /** @param {TankSlider} one */
  tell({ slider, output }) {
    output.textContent = `${Math.round(100 * Number(slider.value))} % full`;
    slider.setAttribute("aria-valuetext", output.textContent);
  }

  /** One question at a time; the latest wish is asked when the answer is there. */
  async ask() {
    this.sliders.forEach((one) => this.tell(one));
    this.isApart = true;
    this.wanted = this.sliders.map(({ slider }) => slider.value).join(",");
    if (this.isAsking) return;
    this.isAsking = true;
    const asked = this.wanted;
    try {
      const answer = await fetch(`${ROOT}/tanks?full=${asked}`);
      if (!answer.ok) refuse(await answer.text());
      else if (!this.boat.signal.aborted) this.show(await answer.json());
    } catch {
      lost();
    }
    this.isAsking = false;
    if (asked !== this.wanted) this.ask();
  }

  /** @param {View} view */
  show(view) {
    this.boat.show(view.lie);
    this.boat.tell(view, null);
  }
}

/** @type {WeakMap<Boat, Tanks>} */
const every = new WeakMap();

/** @param {Boat} boat */
function tanksOf(boat) {
  const tanks = every.get(boat) ?? new Tanks(boat);
  every.set(boat, tanks);
  return tanks;
}

document.addEventListener("lies", ({ detail: boat }) => tanksOf(boat).follow(boat.lie));

/**
 * The button was pressed.
 * @param {HTMLElement} _button
 * @param {Boat} boat
 */
export function pressed(_button, boat) {
  tanksOf(boat).fold(!isOpen);
}
