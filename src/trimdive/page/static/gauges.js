// How far off her waterline she floats at bow, middle and stern, while she floats near it; and the
// lever between G and B.

import { AT } from "./interpolate.js";
import { element, matrix, on } from "./drawing.js";
import { over, written } from "./figures.js";

const MOST = 45; // millimetres: farther off she is not meant to be on it
const TICK = 7; // pixels, half of a tick
const LETTER = 9.4; // breadth of a letter in pixels
const ROOMY = 640; // pixels of breadth from which the lever is told
const UPRIGHT = 8; // degrees of heel up to which heights in the middle plane tell something

class Gauges {
  constructor(boat) {
    this.boat = boat;
    this.group = element("g", { class: "gauges" });
    boat.querySelector(".scene").append(this.group);
    this.lever = element("g", { class: "lever" });
    this.lever.append(element("path", { "vector-effect": "non-scaling-stroke" }), element("text", { "text-anchor": "end" }));
    boat.querySelector(".scene").append(this.lever);
    this.marks = boat.dive.marks.map(() => {
      const [line, words] = [element("path", { "vector-effect": "non-scaling-stroke" }), element("text", { "text-anchor": "middle" })];
      this.group.append(line, words);
      return { line, words };
    });
  }

  // B over G as she lies, beside their marks; upright only, where their middle plane is hers.
  between(lie) {
    const { drawing } = this.boat;
    const isTold = Math.abs(lie[AT.heel]) < UPRIGHT && drawing.size[0] > ROOMY;
    this.lever.toggleAttribute("hidden", !isTold);
    if (!isTold) return;
    const [m, k] = [matrix(lie, drawing.middle), drawing.k];
    const [g, b] = [AT.g, AT.b].map((at) => on(m, lie[at], lie[at + 1]));
    const half = (TICK / 2) * k;
    const x = Math.min(g[0], b[0]) - 18 * k;
    const ticks = [g[1], b[1]].map((y) => `M${x - half},${y}h${2 * half}`).join("");
    this.lever.firstChild.setAttribute("d", `${ticks}M${x},${g[1]}V${b[1]}`);
    this.lever.lastChild.textContent = `BG ${written(over(lie) * this.boat.dive.length[0], this.boat.dive.length)}`;
    this.lever.lastChild.setAttribute("transform", `translate(${x - 8 * k} ${(g[1] + b[1]) / 2 + 6 * k}) scale(${k})`);
  }

  show(lie) {
    this.between(lie);
    const { dive, drawing } = this.boat;
    const [nx, nz, water] = [lie[AT.n], lie[AT.n + 2], lie[AT.water]];
    const low = dive.marks.map(([, x, z]) => (water - nx * x) / nz - z); // deeper than meant [mm]
    const isTold = Math.abs(lie[AT.heel]) < UPRIGHT && low.length > 0 && low.every((one) => Math.abs(one) <= MOST);
    this.group.toggleAttribute("hidden", !isTold);
    if (!isTold) return;
    const [m, k] = [matrix(lie, drawing.middle), drawing.k];
    low.forEach((one, i) => {
      const [at, meant] = on(m, dive.marks[i][1], dive.marks[i][2]);
      const half = TICK * k;
      const ends = [0, meant].map((y) => `M${at - half},${y}h${2 * half}`).join("");
      this.marks[i].line.setAttribute("d", `${ends}M${at},0V${meant}`);
      const says = this.says(one);
      const most = ((drawing.size[0] - says.length * LETTER) / 2) * k; // so that it stays in the window
      const x = Math.min(Math.max(at, -most), most);
      this.marks[i].words.textContent = says;
      this.marks[i].words.setAttribute("transform", `translate(${x} ${Math.min(meant, 0) - 8 * k}) scale(${k})`);
    });
  }

  says(low) {
    const far = written(Math.abs(low) * this.boat.dive.length[0], this.boat.dive.length);
    return Number.parseFloat(far) === 0 ? "on her waterline" : `${far} ${low > 0 ? "low" : "high"}`;
  }
}

const gauges = new WeakMap();
document.addEventListener("lies", ({ target }) => {
  if (!gauges.has(target)) gauges.set(target, new Gauges(target));
  gauges.get(target).show(target.lie);
});
