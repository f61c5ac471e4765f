// The track: trim against how full, on which the slider runs; broken where she will not stand upright.

import { breadth, element } from "./drawing.js";
import { howFull } from "./figures.js";
import { meets, placed } from "./labels.js";

export const SIDE = 30; // pixels left and right of the track, as the style sheet has it
const TOP = 30;
const BOTTOM = 58;
const KNOB = { x: 30, y: 18 }; // half of what the knob and its arrows take up [pixels]
const ROOF = 19; // where words over the track end [pixels]
const THIN = 3; // half of what a bold line takes up [pixels]
const HIGH = 17; // of a line of words [pixels]
const BASE = 13.5; // from its upper edge to where letters stand [pixels]
const OVER = 4; // pixels between words and the line that they name
const TRY = 16; // pixels from one place that is tried to the next
const LEAST = 4; // degrees shown at least, either way

/** @typedef {Pick<Lie, "filling" | "trim">} Spot a place on the track */
/** @typedef {import("./labels.js").Box} Box @typedef {import("./labels.js").Place} Place */
/** @typedef {{ kind: string, places: Place[] }} Words */

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
    /** @type {Map<string, string>} */
    this.kept = new Map(); // where words stand
    /** @type {{ text: SVGTextElement, box: Box }[]} */
    this.words = [];
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
    this.svg.insertBefore(this.write(), this.thumb);
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
    for (const { trim } of this.sides()) {
      if (trim) group.append(element("path", { class: "even", d: `M${this.x(0)},${this.y(trim)}H${this.x(1)}` }));
    }
    return group;
  }

  /** Trims that are named at the side. */
  sides() {
    const step = [50, 20, 10, 5, 2].find((one) => one <= Math.max(this.high, -this.low)) ?? 2;
    const ends = [{ trim: step, says: `${step}° bow down` }, { trim: -step, says: `${step}° stern down` }];
    return [{ trim: 0, says: "level" }, ...ends.filter(({ trim }) => trim <= this.high && trim >= this.low)];
  }

  bands() {
    const group = element("g", { class: "bands" });
    for (const { start, end } of this.dive.heels) {
      const [left, right] = [this.x(start), Math.max(this.x(end), this.x(start) + 4)];
      const ends = [left, right].map((x) => `M${x},${TOP - 6}V${this.height - BOTTOM + 8}`);
      group.append(element("rect", {
        x: left, y: TOP - 6, width: right - left, height: this.height - BOTTOM - TOP + 14,
      }));
      group.append(element("path", { d: ends.join("") }));
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
    group.append(element("path", { d: `M${x},${TOP - 6}V${this.height - BOTTOM + 8}` }));
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
    this.svg.querySelector(".said")?.replaceWith(this.write());
  }

  events() {
    const group = element("g", { class: "events" });
    const foot = this.height - BOTTOM + 8;
    for (const { filling } of this.under()) group.append(element("path", { d: `M${this.x(filling)},${foot}v9` }));
    return group;
  }

  under() {
    return this.dive.events.filter(({ kind }) => kind === "under").reverse();
  }

  /** All that is said on the track, each in its place or, where there is none, not at all. */
  write() {
    const labels = this.said().map((words, i) => ({ ...words, name: `${words.kind} ${i}` }));
    const room = { left: 2, top: 0, right: this.width - 2, bottom: this.height };
    const still = [...this.tints(), ...this.jumps()];
    const strokes = this.uprights();
    const clear = placed(labels, { room, strokes, boxes: [...still, ...this.bold(KNOB.y)] }, new Map());
    const taken = clear.flatMap((place) => (place ? [place.box] : []));
    const left = labels.filter((_, i) => !clear[i]); // in the way of the knob, these give way to it
    const near = placed(left, { room, strokes, boxes: [...still, ...taken, ...this.bold(THIN)] }, new Map());
    const group = element("g", { class: "said" });
    this.words = labels.flatMap((label, i) => {
      const [place, { kind }] = [clear[i] ?? near[left.indexOf(label)], label];
      if (!place) return [];
      const text = element("text", { class: kind, x: place.box.left + 1, y: place.box.top + BASE }, place.says);
      group.append(text);
      return [{ text, box: place.box }];
    });
    return group;
  }

  /** @returns {Words[]} */
  said() {
    const foot = this.height - BOTTOM + 8;
    const heels = this.dive.heels.map(({ start, end, heel }) => {
      const [left, right, short] = [this.x(start), this.x(end), `heels ${heel.toFixed(1)}°`];
      const long = `not upright: ${short}`;
      const says = right - left < breadth(long) ? short : long;
      return { kind: "heels", places: this.along(says, (left + right) / 2, ROOF - HIGH) };
    });
    const { neutral } = this.dive;
    const marked = neutral === null ? [] : [{ kind: "at-neutral", places: this.along("neutral", this.x(neutral), ROOF - HIGH) }];
    const sides = this.sides().map(({ trim, says }) => ({
      kind: "side", places: [-OVER - HIGH, OVER].flatMap((off) => this.every(says, this.y(trim) + off, off > 0 ? TRY : 0)),
    }));
    const under = this.under().map(({ filling, says }) => ({ kind: "under", places: this.along(says, this.x(filling), foot + 9) }));
    return [...marked, ...heels, ...sides, ...under];
  }

  /**
   * Places in a row of words about what is at x.
   * @param {string} says
   * @param {number} x
   * @param {number} top
   * @returns {Place[]}
   */
  along(says, x, top) {
    const wide = breadth(says);
    const most = Math.max(2, this.width - 2 - wide);
    return [0, -0.25, 0.25, -0.5, 0.5].map((part) => {
      const left = Math.min(Math.max(x + (part - 0.5) * wide, 2), most);
      const box = { left, top, right: left + wide, bottom: top + HIGH };
      return { key: String(part), box, cost: Math.abs(left + wide / 2 - x), leader: null, says };
    });
  }

  /**
   * Places along a line across the whole track, those at the left first.
   * @param {string} says
   * @param {number} top
   * @param {number} cost
   * @returns {Place[]}
   */
  every(says, top, cost) {
    const wide = breadth(says);
    const count = Math.max(0, Math.floor((this.x(1) - this.x(0) - wide) / TRY));
    return Array.from({ length: count + 1 }, (_, i) => {
      const left = this.x(0) + 6 + i * TRY;
      const box = { left, top, right: left + wide, bottom: top + HIGH };
      return { key: `${top} ${i}`, box, cost: cost + i * TRY, leader: null, says };
    });
  }

  /** Where the track is tinted: on it stand no words. */
  tints() {
    const bottom = this.height - BOTTOM + 8;
    return this.dive.heels.map(({ start, end }) => ({ left: this.x(start), top: TOP - 6, right: this.x(end), bottom }));
  }

  jumps() {
    return this.dive.jumps.map(({ filling }) => {
      const [x, y] = [this.x(filling), this.y(0)];
      return { left: x - 6, top: y - 9, right: x + 6, bottom: y + 9 };
    });
  }

  /**
   * Boxes that cover the line of trim, and what lies within so many pixels above and below.
   * @param {number} half
   * @returns {Box[]}
   */
  bold(half) {
    const aside = half > THIN ? KNOB.x : THIN;
    return [...this.dive.down, ...this.dive.up, ...(this.earlier?.down ?? [])].flatMap((run) => {
      const line = spots(run).map(({ filling, trim }) => ({ x: this.x(filling), y: this.y(trim) }));
      return line.flatMap((to, i) => {
        const from = line[i ? i - 1 : 0];
        const count = Math.ceil(Math.abs(to.x - from.x) / TRY) || 1;
        return Array.from({ length: count }, (_, j) => {
          const [a, b] = [j / count, (j + 1) / count].map((part) => from.y + part * (to.y - from.y));
          const [left, right] = [j / count, (j + 1) / count].map((part) => from.x + part * (to.x - from.x));
          return { left: left - aside, top: Math.min(a, b) - half, right: right + aside, bottom: Math.max(a, b) + half };
        });
      });
    });
  }

  /** Lines from top to bottom, and those that go across: no words stand on them. */
  uprights() {
    const [top, bottom] = [TOP - 6, this.height - BOTTOM + 8];
    const marked = this.dive.neutral === null ? [] : [this.dive.neutral];
    const upright = marked.map((part) => ({ from: { x: this.x(part), y: top }, to: { x: this.x(part), y: bottom } }));
    const across = this.sides().map(({ trim }) => ({ from: { x: this.x(0), y: this.y(trim) }, to: { x: this.x(1), y: this.y(trim) } }));
    const axis = { from: { x: this.x(0), y: bottom }, to: { x: this.x(1), y: bottom } };
    return [...upright, ...across, axis];
  }

  /** @param {Lie} lie */
  show(lie) {
    const [x, y, foot] = [this.x(lie.filling), this.y(lie.trim), this.height - BOTTOM + 8];
    this.stem.setAttribute("d", `M${x.toFixed(1)},${foot}l-5,-9h10z`);
    this.arrows.setAttribute("d", [-1, 1].map((s) => `M${x + s * 20},${y - 6}l${s * 7},6l${-s * 7},6`).join(""));
    for (const circle of [this.halo, this.knob]) {
      circle.setAttribute("cx", x.toFixed(1));
      circle.setAttribute("cy", y.toFixed(1));
    }
    const knob = { left: x - KNOB.x, top: y - KNOB.y, right: x + KNOB.x, bottom: y + KNOB.y };
    for (const { text, box } of this.words) text.classList.toggle("covered", meets(box, knob));
    if (!this.svg.parentElement?.classList.contains("touched")) this.advise(knob);
  }

  /**
   * What to do with the knob, beside it.
   * @param {Box} knob
   */
  advise(knob) {
    const wide = breadth(this.hint.textContent ?? "");
    const [x, y] = [(knob.left + knob.right) / 2, (knob.top + knob.bottom) / 2];
    const places = [[knob.right + 6, y - HIGH / 2], [knob.left - 6 - wide, y - HIGH / 2]].flatMap(([beside, level]) =>
      [-44, -32, -20, 20, 32, 44, 0].flatMap((off) => [beside, x, x - wide, beside + 120, beside - 120, ...this.tints().map((tint) => tint.left + 6)].map((left, i) => {
        const top = level + off;
        const box = { left, top, right: left + wide, bottom: top + HIGH };
        return { key: `${left} ${off}`, box, cost: Math.abs(off) + 20 * i, leader: null };
      })),
    );
    const room = { left: 2, top: 0, right: this.width - 2, bottom: this.height - BOTTOM + 6 };
    const boxes = [...this.jumps(), ...this.bold(THIN), ...this.words.map(({ box }) => box), knob];
    const sides = this.tints().flatMap(({ left, right, top, bottom }) => [left, right].map((at) => ({ from: { x: at, y: top }, to: { x: at, y: bottom } })));
    const strokes = [...this.uprights(), ...sides];
    /** @param {Box[]} off */
    const clear = (off) => placed([{ name: "hint", places }], { room, boxes: [...boxes, ...off], strokes }, this.kept)[0];
    const found = clear(this.tints()) ?? clear([]); // on a tint only where there is no room beside it
    this.hint.toggleAttribute("hidden", !found);
    if (!found) return;
    this.hint.setAttribute("x", String(found.box.left + 1));
    this.hint.setAttribute("y", String(found.box.top + BASE));
  }
}

/**
 * @param {Trial["curve"]} run
 * @returns {Spot[]}
 */
function spots({ filling, trim }) {
  return filling.map((at, i) => ({ filling: at, trim: trim[i] }));
}
