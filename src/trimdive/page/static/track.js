// The track: trim against how full, on which the slider runs; broken where she will not stand upright.

import { element } from "./drawing.js";
import { howFull } from "./figures.js";

export const SIDE = 30; // pixels left and right of the track, as the style sheet has it
const TOP = 30;
const BOTTOM = 58;
const ROOF = 60; // pixels above which words at the knob would leave the track
const CLEAR = 44; // pixels that the knob takes up
const LEAST = 4; // degrees shown at least, either way
const LETTER = 9.4; // breadth of a small letter in pixels

/** @typedef {Pick<Lie, "filling" | "trim">} Spot a place on the track */

export class Track {
  /**
   * @param {SVGSVGElement} svg
   * @param {Dive} dive
   */
  constructor(svg, dive) {
    this.svg = svg;
    this.dive = dive;
    this.width = this.height = 120; // [pixels]
    this.low = -LEAST / 2; // least and most trim shown [°]
    this.high = LEAST;
    this.stem = element("path", { class: "stem", d: "" });
    this.halo = element("circle", { class: "halo", r: 17 });
    this.knob = element("circle", { class: "knob", r: 11 });
    this.arrows = element("path", { class: "arrows", d: "" });
    this.hint = element("text", { class: "hint" }, "drag to fill the tanks");
    this.thumb = element("g", { class: "thumb" });
    this.thumb.append(this.stem, this.halo, this.knob, this.arrows, this.hint);
    /** @type {SVGPathElement | null} */
    this.tried = null;
    /** @type {Dive | null} */
    this.earlier = null; // her dive before the last change
  }

  fit() {
    const box = this.svg.getBoundingClientRect();
    [this.width, this.height] = [Math.max(box.width, 120), Math.max(box.height, 120)];
    this.svg.setAttribute("viewBox", `0 0 ${this.width} ${this.height}`);
    const trims = this.dive.down.flatMap((run) => run.trim);
    this.low = Math.min(...trims, -LEAST / 2);
    this.high = Math.max(...trims, LEAST);
    this.svg.replaceChildren(this.frame(), this.bands(), this.neutral(), this.curves(), this.events(), this.thumb);
    if (this.earlier) this.was(this.earlier);
  }

  /** @param {number} filling */
  x(filling) {
    return SIDE + filling * (this.width - 2 * SIDE);
  }

  /** @param {number} trim */
  y(trim) {
    const share = (Math.min(Math.max(trim, this.low), this.high) - this.low) / (this.high - this.low);
    return TOP + share * (this.height - TOP - BOTTOM);
  }

  frame() {
    const group = element("g", { class: "frame" });
    const [foot, level] = [this.height - BOTTOM, this.y(0)];
    group.append(element("path", { class: "even", d: `M${this.x(0)},${level}H${this.x(1)}` }));
    group.append(element("path", { class: "axis", d: `M${this.x(0)},${foot + 8}H${this.x(1)}` }));
    for (const part of this.width > 520 ? [0, 0.25, 0.5, 0.75, 1] : [0, 0.5, 1]) {
      group.append(element("path", { class: "axis", d: `M${this.x(part)},${foot + 4}v8` }));
      const anchor = part === 0 ? "start" : part === 1 ? "end" : "middle";
      const full = howFull(part, this.dive);
      const says = part === 0 || part === 1 ? `${full} full` : full;
      const at = this.x(part) + (part === 0 ? -8 : part === 1 ? 8 : 0);
      group.append(element("text", { x: at, y: this.height - 4, "text-anchor": anchor }, says));
    }
    const clear = this.clear();
    group.append(element("text", { class: "side", x: clear, y: level - 7 }, "level"));
    const step = [50, 20, 10, 5, 2].find((one) => one <= Math.max(this.high, -this.low)) ?? 2;
    for (const { trim, end } of [{ trim: step, end: "bow" }, { trim: -step, end: "stern" }]) {
      if (trim > this.high || trim < this.low) continue;
      const y = this.y(trim);
      group.append(element("path", { class: "even", d: `M${this.x(0)},${y}H${this.x(1)}` }));
      group.append(element("text", { class: "side", x: clear, y: y - 7 }, `${step}° ${end} down`));
    }
    return group;
  }

  /** Where words at the left stand clear of the knob and of what is tinted. */
  clear() {
    const start = this.x(0) + CLEAR;
    const beyond = this.dive.heels.reduce((at, lean) => {
      const [from, to] = [this.x(lean.start) - 130, this.x(lean.end) + 10];
      return at > from && at < to ? to : at;
    }, start);
    return beyond < this.width - 260 ? beyond : start;
  }

  bands() {
    const group = element("g", { class: "bands" });
    for (const { start, end, heel } of this.dive.heels) {
      const [left, right] = [this.x(start), Math.max(this.x(end), this.x(start) + 4)];
      const ends = [left, right].map((x) => `M${x},${TOP - 6}V${this.height - BOTTOM + 8}`);
      group.append(element("rect", {
        x: left, y: TOP - 6, width: right - left, height: this.height - BOTTOM - TOP + 14,
      }));
      group.append(element("path", { d: ends.join("") }));
      const says = `not upright: heels ${heel.toFixed(1)}°`;
      const short = right - left < says.length * LETTER ? `heels ${heel.toFixed(1)}°` : says;
      const at = Math.min(Math.max((left + right) / 2, short.length * LETTER * 0.5 + 2), this.width);
      group.append(element("text", { x: at, y: TOP - 12, "text-anchor": "middle" }, short));
    }
    return group;
  }

  curves() {
    const group = element("g", { class: "curves" });
    if (JSON.stringify(this.dive.up) !== JSON.stringify(this.dive.down)) {
      for (const run of this.dive.up) group.append(this.line(spots(run), "back"));
    }
    for (const run of this.dive.down) group.append(...this.pieces(spots(run)));
    for (const { filling, angle } of this.dive.jumps) {
      if (angle < 1) continue;
      const mark = element("path", { class: "jump", d: `M${this.x(filling)},${this.y(0) - 9}l5,6l-10,6l5,6` });
      mark.append(element("title", {}, `Here she flops by ${angle.toFixed(0)}°`));
      group.append(mark);
    }
    return group;
  }

  /**
   * A run in pieces over which she stands upright, or does not.
   * @param {Spot[]} run
   */
  pieces(run) {
    /** @param {Spot} at */
    const isLeaning = ({ filling }) => this.dive.heels.some(({ start, end }) => filling >= start && filling <= end);
    const found = [];
    /** @type {Spot[]} */
    let part = [];
    run.forEach((at, i) => {
      if (i && isLeaning(at) !== isLeaning(run[i - 1])) {
        found.push(this.line(part, isLeaning(at) ? "firm" : "broken"));
        part = [];
      }
      part.push(at);
    });
    found.push(this.line(part, isLeaning(run[run.length - 1]) ? "broken" : "firm"));
    return found;
  }

  /**
   * @param {Spot[]} line
   * @param {string} name
   */
  line(line, name) {
    const points = line.map(({ filling, trim }) => `${this.x(filling).toFixed(1)},${this.y(trim).toFixed(1)}`);
    return element("path", { class: name, d: points.length ? `M${points.join(" ")}` : "" });
  }

  /**
   * Her trim with a thing in hand somewhere else, over the line as it is.
   * @param {Trial["curve"] | null} curve
   */
  trial(curve) {
    this.tried?.remove();
    this.svg.classList.toggle("trying", Boolean(curve));
    if (!curve) return;
    this.tried = this.line(spots(curve), "tried");
    this.svg.insertBefore(this.tried, this.thumb);
  }

  /** Where she is neutral wholly under: the handle stops there. */
  neutral() {
    const group = element("g", { class: "neutral" });
    if (this.dive.neutral === null) return group;
    const x = this.x(this.dive.neutral);
    const half = ("neutral".length * LETTER) / 2;
    group.append(
      element("path", { d: `M${x},${TOP - 6}V${this.height - BOTTOM + 8}` }),
      element("text", { x: Math.min(x, this.width - half - 2), y: TOP - 12, "text-anchor": "middle" }, "neutral"),
    );
    return group;
  }

  /**
   * Her trim before the last change, under the line as it is.
   * @param {Dive} dive
   */
  was(dive) {
    this.earlier = dive;
    const lines = dive.down.map((run) => this.line(spots(run), "earlier"));
    this.svg.querySelector(".curves")?.prepend(...lines);
  }

  events() {
    const group = element("g", { class: "events" });
    const ordered = this.dive.events.filter(({ kind }) => kind === "under").reverse();
    let limit = this.width;
    for (const { filling, says } of ordered) {
      const [x, foot] = [this.x(filling), this.height - BOTTOM + 8];
      group.append(element("path", { d: `M${x},${foot}v9` }));
      const wide = says.length * LETTER;
      const left = Math.min(Math.max(x - wide / 2, 2), limit - wide);
      if (left < 2 || x - left > wide + 6) continue;
      limit = left - 12;
      group.append(element("text", { x: left, y: foot + 22 }, says));
    }
    return group;
  }

  /** @param {Lie} lie */
  show(lie) {
    const [x, y, foot] = [this.x(lie.filling), this.y(lie.trim), this.height - BOTTOM + 8];
    this.stem.setAttribute("d", `M${x.toFixed(1)},${TOP - 6}V${foot}`);
    this.arrows.setAttribute("d", [-1, 1].map((s) => `M${x + s * 20},${y - 6}l${s * 7},6l${-s * 7},6`).join(""));
    const isRight = lie.filling > 0.5;
    this.hint.setAttribute("x", String(x + (isRight ? -14 : 14)));
    this.hint.setAttribute("y", String(y < ROOF ? y + 36 : y - 22));
    this.hint.setAttribute("text-anchor", isRight ? "end" : "start");
    for (const circle of [this.halo, this.knob]) {
      circle.setAttribute("cx", x.toFixed(1));
      circle.setAttribute("cy", y.toFixed(1));
    }
  }
}

/**
 * @param {Trial["curve"]} run
 * @returns {Spot[]}
 */
function spots({ filling, trim }) {
  return filling.map((at, i) => ({ filling: at, trim: trim[i] }));
}
