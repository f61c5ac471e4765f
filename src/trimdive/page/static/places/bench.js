// One cylinder opened: the slider goes down, and marks what no longer bears it and what gives way.

import { act } from "../fields.js";

class OpenedCylinder extends HTMLElement {
  connectedCallback() {
    this.limits = JSON.parse(this.querySelector(".limits").textContent);
    this.slider = this.querySelector("input[type=range]");
    this.slider.addEventListener("input", () => this.show());
    this.slider.addEventListener("keydown", (event) => {
      if (event.key === "Enter") event.preventDefault();
    });
    this.show();
  }

  show() {
    const depth = Number(this.slider.value);
    const weak = this.limits[0];
    this.querySelector(".at").textContent = `${depth.toFixed(1)} m`;
    for (const one of this.limits) {
      const state = depth > one.gives ? "gone" : depth > one.bears ? "beyond" : "";
      for (const part of this.querySelectorAll("[data-part]")) {
        if (![one.name, one.drawn].includes(part.dataset.part)) continue;
        if (part.dataset.part === "wall" && one !== this.wall()) continue;
        part.classList.remove("gone", "beyond");
        if (state) part.classList.add(state);
      }
    }
    this.slider.setAttribute("aria-valuetext", `${depth.toFixed(1)} metres`);
    const says = this.querySelector(".says");
    const { bound, says: limit } = this.dataset;
    says.className = `says ${depth > weak.gives ? "gone" : depth > Number(bound) ? "beyond" : ""}`;
    says.textContent = depth > weak.gives ? `Fails by calculation: ${weak.name}, at ${weak.gives_text}.`
      : depth > Number(bound) ? `Deeper than its safe depth: ${limit}.` : `Safe here. The limit: ${limit}.`;
    this.style.setProperty("--at", depth / Number(this.slider.max));
  }

  // Of the two ways in which the wall fails, the one that comes first.
  wall() {
    return this.limits.find((one) => one.drawn === "wall");
  }
}

document.addEventListener("change", (event) => {
  const pressed = event.target.dataset?.act;
  if (pressed) act(pressed);
});

customElements.define("opened-cylinder", OpenedCylinder);
