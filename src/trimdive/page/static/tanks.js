// A slider for each tank, folded away under the track: what she does off the planned way.

import { ROOT } from "./root.js";
import { AT } from "./interpolate.js";

let isOpen = false;

class Tanks {
  constructor(boat) {
    this.boat = boat;
    this.box = boat.querySelector(".each");
    this.button = boat.querySelector(".unfold.apart");
    if (!this.button) return;
    this.box.addEventListener("input", () => this.ask());
    this.fold(isOpen);
  }

  fold(open) {
    isOpen = open;
    this.box.hidden = !open;
    this.button.setAttribute("aria-expanded", String(open));
    if (!open || this.sliders) return;
    this.sliders = this.boat.dive.tanks.map((tank) => {
      const label = document.createElement("label");
      const slider = Object.assign(document.createElement("input"), { type: "range", min: 0, max: 1, step: 0.005 });
      const told = document.createElement("output");
      label.append(Object.assign(document.createElement("span"), { textContent: tank.name }), slider, told);
      this.box.append(label);
      return { slider, told };
    });
    this.follow(this.boat.lie);
  }

  // Where the tanks stand as she is shown, while none of these sliders is moved.
  follow(lie) {
    if (!this.sliders || this.asking) return;
    this.sliders.forEach(({ slider, told }, i) => {
      if (document.activeElement !== slider || !this.isApart) slider.value = String(lie[AT.tanks + 2 * i]);
      this.tell(slider, told);
    });
    this.isApart = false;
  }

  tell(slider, told) {
    told.textContent = `${Math.round(100 * slider.value)} % full`;
    slider.setAttribute("aria-valuetext", told.textContent);
  }

  // One question at a time; the latest wish is asked when the answer is there.
  async ask() {
    this.sliders.forEach(({ slider, told }) => this.tell(slider, told));
    this.isApart = true;
    this.wanted = this.sliders.map(({ slider }) => slider.value).join(",");
    if (this.asking) return;
    this.asking = true;
    const asked = this.wanted;
    try {
      const answer = await fetch(`${ROOT}/tanks?full=${asked}`);
      if (!answer.ok) document.dispatchEvent(new CustomEvent("refused", { detail: await answer.text() }));
      else if (this.boat.isConnected) this.show(await answer.json());
    } catch {
      document.dispatchEvent(new CustomEvent("gone"));
    }
    this.asking = false;
    if (asked !== this.wanted) this.ask();
  }

  show(told) {
    this.boat.show(told.lie);
    this.boat.tell(told);
  }
}

const every = new WeakMap();
const tanksOf = (boat) => every.get(boat) ?? every.set(boat, new Tanks(boat)).get(boat);
document.addEventListener("lies", ({ target }) => tanksOf(target).follow(target.lie));

// The button was pressed.
export function pressed(button) {
  tanksOf(button.closest("boat-drawing")).fold(!isOpen);
}
