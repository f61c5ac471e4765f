// One cylinder opened: the slider goes down, and marks what no longer bears it and what gives way.

import { all, one, Working } from "../dom.js";
import { act } from "../fields.js";

/**
 * @param {number} depth
 * @param {number} bears
 * @param {number} gives
 */
function stateAt(depth, bears, gives) {
  return depth > gives ? "gone" : depth > bears ? "beyond" : "";
}

class OpenedCylinder extends Working {
  /** @param {AbortSignal} signal */
  begin(signal) {
    /** @type {Limit[]} */
    const limits = JSON.parse(one(this, ".limits", HTMLScriptElement).text);
    const slider = one(this, "input[type=range]", HTMLInputElement);
    const show = () => this.show(Number(slider.value), limits, slider);
    slider.addEventListener("input", show, { signal });
    slider.addEventListener("keydown", (event) => {
      if (event.key === "Enter") event.preventDefault();
    }, { signal });
    show();
  }

  /**
   * @param {number} depth
   * @param {Limit[]} limits the weakest first
   * @param {HTMLInputElement} slider
   */
  show(depth, limits, slider) {
    one(this, ".at", HTMLElement).textContent = `${depth.toFixed(1)} m`;
    const wall = limits.find((limit) => limit.drawn === "wall"); // of the ways in which it fails, what comes first
    for (const limit of limits) {
      const state = stateAt(depth, limit.bears, limit.gives);
      for (const part of all(this, "[data-part]", Element)) {
        const name = part.getAttribute("data-part");
        if (name !== limit.name && name !== limit.drawn) continue;
        if (name === "wall" && limit !== wall) continue;
        part.classList.remove("gone", "beyond");
        if (state) part.classList.add(state);
      }
    }
    slider.setAttribute("aria-valuetext", `${depth.toFixed(1)} metres`);
    const says = one(this, ".says", HTMLElement);
    const { bound, says: limit } = this.dataset;
    const [weak] = limits;
    const state = stateAt(depth, Number(bound), weak.gives);
    says.className = `says ${state}`;
    says.textContent = state === "gone" ? `Fails by calculation: ${weak.name}, at ${weak.gives_text}.`
      : state === "beyond" ? `Deeper than its safe depth: ${limit}.` : `Safe here. The limit: ${limit}.`;
    this.style.setProperty("--at", String(depth / Number(slider.max)));
  }
}

document.addEventListener("change", (event) => {
  const pressed = event.target instanceof HTMLElement && event.target.dataset.act;
  if (pressed) act(pressed);
});

customElements.define("opened-cylinder", OpenedCylinder);
