// The section at the pointer: it follows the pointer along the boat, a click holds it, and so do
// the arrow keys on its pane. It leans as she leans, and her water lies level in it.

import { input, lost, one } from "./dom.js";
import { below, element, path, points, still } from "./drawing.js";
import { ROOT } from "./root.js";
import { styled } from "./sheet.js";

await styled("cut.css");

const STEP = 5; // millimetres: sections are asked for at no closer places
const KEY = 10; // millimetres an arrow key moves it; with Shift ten times that
const PRESS = 4; // pixels that the pointer may move in a click
const ROOM = 1.08; // of her height that the pane shows
const POINT = "point along her for a section";
/** @type {Record<string, number>} */
const WAYS = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };
/** @type {number | null} */
let pinned = null; // where it is held [mm]; stays when the sheet is exchanged
/** @type {{ of: string, cuts: Map<number, CutView> }} */
let kept = { of: "", cuts: new Map() }; // sections that were asked for, of one state of her file

/** @typedef {{ number: number, loop: Point[], fill: SVGPathElement, top: SVGPathElement }} CutTank */

class Section {
  /** @param {Boat} boat */
  constructor(boat) {
    this.boat = boat;
    this.pane = one(boat.element, ".lean", HTMLElement);
    this.svg = one(boat.element, ".astern", SVGSVGElement);
    this.group = element("g", { class: "cutting" });
    this.svg.append(this.group);
    this.low = boat.dive.bounds.low;
    this.high = boat.dive.bounds.high;
    this.line = still({ class: "cutline" });
    boat.drawing.boat.append(this.line);
    /** @type {{ x: number, y: number } | null} */
    this.start = null; // where the pointer was pressed
    /** @type {number | null} */
    this.wanted = null;
    this.isAsking = false;
    /** @type {CutView | null} */
    this.view = null;
    /** @type {CutTank[]} */
    this.tanks = [];
    this.listen(boat.scene, { signal: boat.signal });
    this.wait();
    if (pinned !== null) this.want(pinned);
  }

  /**
   * @param {SVGSVGElement} scene
   * @param {{ signal: AbortSignal }} until
   */
  listen(scene, until) {
    scene.addEventListener("pointermove", (event) => this.follow(event), until);
    scene.addEventListener("pointerleave", () => this.left(), until);
    scene.addEventListener("pointerdown", (event) => (this.start = { x: event.clientX, y: event.clientY }), until);
    scene.addEventListener("click", (event) => this.hold(event), until);
    this.svg.addEventListener("keydown", (event) => this.key(event), until);
  }

  /** @param {MouseEvent} event */
  at(event) {
    return this.within(this.boat.aboard(event).x);
  }

  /** @param {number} x */
  within(x) {
    return Math.round(Math.min(Math.max(x, this.low.x), this.high.x) / STEP) * STEP;
  }

  /** @param {PointerEvent} event */
  follow(event) {
    if (pinned === null && event.pointerType !== "touch" && !event.buttons) this.want(this.at(event));
  }

  /** @param {MouseEvent} event */
  hold(event) {
    const moved = this.start ? Math.hypot(event.clientX - this.start.x, event.clientY - this.start.y) : 0;
    if (moved > PRESS) return;
    const x = this.at(event);
    pinned = pinned !== null && Math.abs(x - pinned) <= 2 * STEP ? null : x;
    this.want(x);
  }

  left() {
    if (pinned === null) this.want(null);
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.key === "Escape") {
      pinned = null;
      this.want(null);
      return;
    }
    const way = WAYS[event.key];
    const end = event.key === "Home" ? this.low.x : event.key === "End" ? this.high.x : undefined;
    if (way === undefined && end === undefined) return;
    event.preventDefault();
    const from = pinned ?? this.wanted ?? this.boat.dive.middle;
    pinned = this.within(end ?? from + way * KEY * (event.shiftKey ? 10 : 1));
    this.want(pinned);
  }

  /**
   * Shows the section at a place [mm], or none; one is asked for at a time, the latest wish last.
   * @param {number | null} x
   */
  async want(x) {
    this.wanted = x;
    if (x === null) return this.wait();
    this.mark(x);
    const of = `${input(this.boat.form, "revision").value} ${document.cookie}`;
    if (kept.of !== of) kept = { of, cuts: new Map() };
    const known = kept.cuts.get(x);
    if (known) return this.show(known);
    if (this.isAsking) return;
    this.isAsking = true;
    const view = await this.ask(x);
    this.isAsking = false;
    if (!view || this.boat.signal.aborted) return;
    kept.cuts.set(x, view);
    if (this.wanted === x) this.show(view);
    else this.want(this.wanted);
  }

  /**
   * @param {number} x
   * @returns {Promise<CutView | null>}
   */
  async ask(x) {
    try {
      const answer = await fetch(`${ROOT}/cut?x=${x}`);
      return answer.ok ? await answer.json() : null;
    } catch {
      lost();
      return null;
    }
  }

  /** @param {number} x */
  mark(x) {
    this.line.setAttribute("d", `M${x},${-this.high.z}V${-this.low.z}`);
    this.line.classList.toggle("held", pinned !== null);
    this.tell(x);
  }

  /** @param {number | null} x */
  tell(x) {
    const detail = { boat: this.boat, x };
    this.boat.element.dispatchEvent(new CustomEvent("sectioned", { detail, bubbles: true }));
  }

  /** @param {CutView} view */
  show(view) {
    this.view = view;
    this.group.innerHTML = view.svg;
    const waters = one(this.group, ".tank-waters", SVGGElement);
    this.tanks = view.tanks.map(({ number, y, z }) => {
      const fill = element("path", { fill: `url(#${this.boat.dive.hatch})`, stroke: "none" });
      const top = still({ class: "level" });
      waters.append(fill, top);
      return { number, loop: points(y, z), fill, top };
    });
    this.pane.classList.add("cut");
    this.says(`at ${view.at}`, pinned === null ? "click to hold it" : "held; Esc releases it");
    this.svg.setAttribute("aria-valuenow", String(view.x));
    this.svg.setAttribute("aria-valuetext", view.says);
    this.lean(this.boat.lie);
  }

  /**
   * @param {string} head
   * @param {string} under
   */
  says(head, under) {
    one(this.pane, "dt", HTMLElement).textContent = head;
    one(this.pane, ".explained", HTMLElement).textContent = under;
  }

  /** No section: her outline from astern. */
  wait() {
    this.view = null;
    this.pane.classList.remove("cut");
    this.line.setAttribute("d", "");
    this.tell(null);
    this.says("from astern", POINT);
    this.svg.setAttribute("aria-valuenow", String(Math.round(this.boat.dive.middle)));
    this.svg.setAttribute("aria-valuetext", "no section; her outline from astern");
    this.boat.astern.show(this.boat.lie);
  }

  /** @param {Lie} lie */
  lean(lie) {
    if (!this.view) return;
    const flat = Math.max(Math.hypot(lie.up_y, lie.up_z), 0.1);
    const along = lie.up_x * this.view.x;
    const deep = (lie.water - along) / flat;
    this.group.setAttribute("transform", `translate(0 ${deep.toFixed(2)}) rotate(${lie.heel.toFixed(2)})`);
    const box = this.svg.getBoundingClientRect();
    const tall = ROOM * (this.high.z - this.low.z);
    const broad = (tall * Math.max(box.width, 1)) / Math.max(box.height, 1);
    const middle = deep - (this.low.z + this.high.z) / 2;
    this.svg.setAttribute("viewBox", `${-broad / 2} ${middle - tall / 2} ${broad} ${tall}`);
    for (const tank of this.tanks) this.water(tank, lie, along);
  }

  /**
   * @param {CutTank} tank
   * @param {Lie} lie
   * @param {number} along what of the height of her water is due to where the section is
   */
  water({ number, loop, fill, top }, lie, along) {
    const { share, level } = lie.tanks[number];
    const isOpen = this.boat.dive.tanks[number].kind === "open";
    let wet = share > 0.5 || isOpen ? loop : [];
    /** @type {Point[]} */
    let edge = [];
    if (share < 1e-3) wet = [];
    else if (isOpen && share < 0.999) {
      ({ kept: wet, edge } = below(loop, { x: lie.up_y, z: lie.up_z }, level - along));
    }
    fill.setAttribute("d", wet.length ? `${path(wet.map(seen))}Z` : "");
    top.setAttribute("d", edge.length === 2 ? path(edge.map(seen)) : "");
  }
}

/**
 * Seen from aft: port is on the left.
 * @param {Point} point
 */
function seen({ x, z }) {
  return { x: -x, z };
}

/** @type {WeakMap<Boat, Section>} */
const sections = new WeakMap();
document.addEventListener("lies", ({ detail: boat }) => {
  const section = sections.get(boat) ?? new Section(boat);
  sections.set(boat, section);
  section.lean(boat.lie);
});
