// The section at the pointer: it follows the pointer along the boat, a click holds it, and so do
// the arrow keys on its pane. It leans as she leans, and her water lies level in it.

import { ROOT } from "./root.js";
import { AT } from "./interpolate.js";
import { below, element, path } from "./drawing.js";

const STEP = 5; // millimetres: sections are asked for at no closer places
const KEY = 10; // millimetres an arrow key moves it; with Shift ten times that
const PRESS = 4; // pixels that the pointer may move in a click
const ROOM = 1.08; // of her height that the pane shows
const POINT = "point along her for a section";
let pinned = null; // where it is held [mm]; stays when the sheet is exchanged
let kept = { of: "", cuts: new Map() }; // sections that were asked for, of one state of her file

class Section {
  constructor(boat) {
    this.boat = boat;
    this.pane = boat.querySelector(".lean");
    this.svg = boat.querySelector(".astern");
    this.group = element("g", { class: "cutting" });
    this.svg.append(this.group);
    const [low, high] = boat.dive.bounds;
    [this.low, this.high] = [low, high];
    this.line = element("path", { class: "cutline", "vector-effect": "non-scaling-stroke" });
    boat.drawing.boat.append(this.line);
    const scene = boat.querySelector(".scene");
    scene.addEventListener("pointermove", (event) => this.follow(event));
    scene.addEventListener("pointerleave", () => this.left());
    scene.addEventListener("pointerdown", (event) => (this.start = [event.clientX, event.clientY]));
    scene.addEventListener("click", (event) => this.hold(event));
    this.svg.addEventListener("keydown", (event) => this.key(event));
    this.wait();
    if (pinned !== null) this.want(pinned);
  }

  at(event) {
    const matrix = this.boat.drawing.boat.getScreenCTM().inverse();
    return this.within(new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix).x);
  }

  within(x) {
    return Math.round(Math.min(Math.max(x, this.low[0]), this.high[0]) / STEP) * STEP;
  }

  follow(event) {
    if (pinned === null && event.pointerType !== "touch" && !event.buttons) this.want(this.at(event));
  }

  hold(event) {
    const moved = this.start ? Math.hypot(event.clientX - this.start[0], event.clientY - this.start[1]) : 0;
    if (moved > PRESS) return;
    const x = this.at(event);
    pinned = pinned !== null && Math.abs(x - pinned) <= 2 * STEP ? null : x;
    this.want(x);
  }

  left() {
    if (pinned === null) this.want(null);
  }

  key(event) {
    if (event.key === "Escape") {
      pinned = null;
      return this.want(null);
    }
    const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    const end = { Home: this.low[0], End: this.high[0] }[event.key];
    if (way === undefined && end === undefined) return;
    event.preventDefault();
    const from = pinned ?? this.wanted ?? this.boat.dive.middle;
    pinned = this.within(end ?? from + way * KEY * (event.shiftKey ? 10 : 1));
    this.want(pinned);
  }

  // Shows the section at a place [mm], or none; one is asked for at a time, the latest wish last.
  async want(x) {
    this.wanted = x;
    if (x === null) return this.wait();
    this.mark(x);
    const of = `${this.boat.form.elements.revision.value} ${document.cookie}`;
    if (kept.of !== of) kept = { of, cuts: new Map() };
    const known = kept.cuts.get(x);
    if (known) return this.show(known);
    if (this.asking) return;
    this.asking = true;
    const told = await this.ask(x);
    this.asking = false;
    if (!told || !this.boat.isConnected) return;
    kept.cuts.set(x, told);
    if (this.wanted === x) this.show(told);
    else this.want(this.wanted);
  }

  async ask(x) {
    try {
      const answer = await fetch(`${ROOT}/cut?x=${x}`);
      return answer.ok ? await answer.json() : null;
    } catch {
      document.dispatchEvent(new CustomEvent("gone"));
      return null;
    }
  }

  mark(x) {
    const d = `M${x},${-this.high[2]}V${-this.low[2]}`;
    this.line.setAttribute("d", d);
    this.line.classList.toggle("held", pinned !== null);
    this.boat.dispatchEvent(new CustomEvent("cut", { detail: x, bubbles: true }));
  }

  show(told) {
    this.told = told;
    this.group.innerHTML = told.svg;
    const waters = this.group.querySelector(".tank-waters");
    this.tanks = told.tanks.map(([number, loop]) => {
      const fill = element("path", { fill: `url(#${this.boat.dive.hatch})`, stroke: "none" });
      const top = element("path", { class: "level", "vector-effect": "non-scaling-stroke" });
      waters.append(fill, top);
      return { number, loop, fill, top };
    });
    this.pane.classList.add("cut");
    this.says(`at ${told.at}`, pinned === null ? "click to hold it" : "held; Esc releases it");
    this.svg.setAttribute("aria-valuenow", String(told.x));
    this.svg.setAttribute("aria-valuetext", told.says);
    this.lean(this.boat.lie);
  }

  says(head, under) {
    this.pane.querySelector("dt").textContent = head;
    this.pane.querySelector(".explained").textContent = under;
  }

  // No section: her outline from astern.
  wait() {
    this.told = null;
    this.pane.classList.remove("cut");
    this.line.setAttribute("d", "");
    this.boat.dispatchEvent(new CustomEvent("cut", { detail: null, bubbles: true }));
    this.says("from astern", POINT);
    this.svg.setAttribute("aria-valuenow", String(Math.round(this.boat.dive.middle)));
    this.svg.setAttribute("aria-valuetext", "no section; her outline from astern");
    this.boat.astern.show(this.boat.lie);
  }

  lean(lie) {
    if (!this.told) return;
    const [nx, ny, nz] = lie.slice(AT.n, AT.n + 3);
    const flat = Math.max(Math.hypot(ny, nz), 0.1);
    const deep = (lie[AT.water] - nx * this.told.x) / flat;
    const turn = lie[AT.heel].toFixed(2);
    this.group.setAttribute("transform", `translate(0 ${deep.toFixed(2)}) rotate(${turn})`);
    const box = this.svg.getBoundingClientRect();
    const tall = ROOM * (this.high[2] - this.low[2]);
    const broad = (tall * Math.max(box.width, 1)) / Math.max(box.height, 1);
    const middle = deep - (this.low[2] + this.high[2]) / 2;
    this.svg.setAttribute("viewBox", `${-broad / 2} ${middle - tall / 2} ${broad} ${tall}`);
    for (const tank of this.tanks) this.water(tank, lie, [ny, nz], lie[AT.n] * this.told.x);
  }

  water({ number, loop, fill, top }, lie, n, along) {
    const [share, level] = lie.slice(AT.tanks + 2 * number, AT.tanks + 2 * number + 2);
    const isOpen = this.boat.dive.tanks[number].kind === "open";
    let [wet, edge] = [share > 0.5 || isOpen ? loop : [], []];
    if (share < 1e-3) wet = [];
    else if (isOpen && share < 0.999) [wet, edge] = below(loop, n, level - along);
    const seen = (points) => path(points.map(([y, z]) => [-y, z])); // port is on the left
    fill.setAttribute("d", wet.length ? `${seen(wet)}Z` : "");
    top.setAttribute("d", edge.length === 2 ? seen(edge) : "");
  }
}

const sections = new WeakMap();
document.addEventListener("lies", ({ target }) => {
  if (!sections.has(target)) sections.set(target, new Section(target));
  sections.get(target).lean(target.lie);
});
