// How far off her waterline she floats at bow, middle and stern, while she floats near it; and the
// lever between G and B.

import { element, matrix, on, still } from "./drawing.js";
import { far, over } from "./figures.js";

const MOST = 45; // millimetres: farther off she is not meant to be on it
const TICK = 7; // pixels, half of a tick
const LETTER = 9.4; // breadth of a letter in pixels
const ROOMY = 640; // pixels of breadth from which the lever is told
const UPRIGHT = 8; // degrees of heel up to which heights in the middle plane tell something

class Gauges {
  /** @param {Boat} boat */
  constructor(boat) {
    this.boat = boat;
    this.group = element("g", { class: "gauges" });
    const lever = element("g", { class: "lever" });
    this.lever = { group: lever, line: still(), words: element("text", { "text-anchor": "end" }) };
    lever.append(this.lever.line, this.lever.words);
    boat.scene.append(this.group, lever);
    this.marks = boat.dive.marks.map(({ x, z }) => {
      const [line, words] = [still(), element("text", { "text-anchor": "middle" })];
      this.group.append(line, words);
      return { x, z, line, words };
    });
  }

  /**
   * B over G as she lies, beside their marks; upright only, where their middle plane is hers.
   * @param {Lie} lie
   */
  between(lie) {
    const { drawing, dive } = this.boat;
    const { group, line, words } = this.lever;
    const isShown = Math.abs(lie.heel) < UPRIGHT && drawing.width > ROOMY;
    group.toggleAttribute("hidden", !isShown);
    if (!isShown) return;
    const [m, k] = [matrix(lie, drawing.middle), drawing.k];
    const g = on(m, { x: lie.g_x, z: lie.g_z });
    const b = on(m, { x: lie.b_x, z: lie.b_z });
    const half = (TICK / 2) * k;
    const x = Math.min(g.x, b.x) - 18 * k;
    const ticks = [g.y, b.y].map((y) => `M${x - half},${y}h${2 * half}`).join("");
    line.setAttribute("d", `${ticks}M${x},${g.y}V${b.y}`);
    words.textContent = `BG ${far(over(lie), dive)}`;
    words.setAttribute("transform", `translate(${x - 8 * k} ${(g.y + b.y) / 2 + 6 * k}) scale(${k})`);
  }

  /** @param {Lie} lie */
  show(lie) {
    this.between(lie);
    const { drawing } = this.boat;
    const low = this.marks.map(({ x, z }) => (lie.water - lie.up_x * x) / lie.up_z - z); // deeper than meant [mm]
    const isShown = Math.abs(lie.heel) < UPRIGHT && low.length > 0 && low.every((one) => Math.abs(one) <= MOST);
    this.group.toggleAttribute("hidden", !isShown);
    if (!isShown) return;
    const [m, k] = [matrix(lie, drawing.middle), drawing.k];
    this.marks.forEach((mark, i) => {
      const { x: at, y: meant } = on(m, mark);
      const half = TICK * k;
      const ends = [0, meant].map((y) => `M${at - half},${y}h${2 * half}`).join("");
      mark.line.setAttribute("d", `${ends}M${at},0V${meant}`);
      const says = this.says(low[i]);
      const most = ((drawing.width - says.length * LETTER) / 2) * k; // so that it stays in the window
      const x = Math.min(Math.max(at, -most), most);
      mark.words.textContent = says;
      mark.words.setAttribute("transform", `translate(${x} ${Math.min(meant, 0) - 8 * k}) scale(${k})`);
    });
  }

  /** @param {number} low */
  says(low) {
    const off = far(Math.abs(low), this.boat.dive);
    return Number.parseFloat(off) === 0 ? "on her waterline" : `${off} ${low > 0 ? "low" : "high"}`;
  }
}

/** @type {WeakMap<Boat, Gauges>} */
const every = new WeakMap();
document.addEventListener("lies", ({ detail: boat }) => {
  const gauges = every.get(boat) ?? new Gauges(boat);
  every.set(boat, gauges);
  gauges.show(boat.lie);
});
