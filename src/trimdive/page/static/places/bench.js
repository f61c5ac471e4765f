// A cylinder opened: the slider goes down, and marks what no longer bears it and what gives way.

import { all, any, one, Working } from "../dom.js";
import { act } from "../fields.js";
import "../folds.js";

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
      const state = stateAt(depth, limit.bears, limit.gives ?? Infinity);
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
    const { bound, limit } = this.dataset;
    const [weak] = limits.filter((one) => one.gives !== null).sort((a, b) => Number(a.gives) - Number(b.gives));
    const state = stateAt(depth, Number(bound), Number(weak.gives));
    says.className = `says ${state}`;
    says.textContent = state === "gone" ? `Fails by calculation: ${weak.name}.`
      : state === "beyond" ? `Deeper than its safe depth: ${limit}.` : `Safe here. The limit: ${limit}.`;
    this.style.setProperty("--at", String(depth / Number(slider.max)));
  }
}

// What takes a while is asked for when its fold is first opened.
document.addEventListener("toggle", ({ target }) => {
  if (target instanceof HTMLDetailsElement && target.open && any(target, "[data-bench-later]", Element)) {
    act("bench look", { bench_kinds: "1" });
  }
}, true);

customElements.define("opened-cylinder", OpenedCylinder);
