// The track: trim against how full, on which the slider runs; broken where she will not stand upright.

import { AT } from "./interpolate.js";
import { element } from "./drawing.js";

export const SIDE = 30; // pixels left and right of the track, as the style sheet has it
const TOP = 30;
const BOTTOM = 58;
const CLEAR = 44; // pixels that the knob takes up
const LEAST = 4; // degrees shown at least, either way
const LETTER = 9.4; // breadth of a small letter in pixels

export class Track {
  constructor(svg, dive) {
    [this.svg, this.dive] = [svg, dive];
    this.thumb = element("g", { class: "thumb" });
  }

  fit() {
    const box = this.svg.getBoundingClientRect();
    [this.width, this.height] = [Math.max(box.width, 120), Math.max(box.height, 120)];
    this.svg.setAttribute("viewBox", `0 0 ${this.width} ${this.height}`);
    const trims = this.dive.down.flat().map((lie) => lie[AT.trim]);
    this.low = Math.min(...trims, -LEAST / 2);
    this.high = Math.max(...trims, LEAST);
    const parts = [this.frame(), this.bands(), this.curves(), this.events(), this.thumb];
    this.thumb.replaceChildren(
      element("path", { class: "stem", d: "" }),
      element("circle", { class: "halo", r: 17 }),
      element("circle", { class: "knob", r: 11 }),
      element("path", { class: "arrows", d: "" }),
      element("text", { class: "hint" }, "drag to fill the tanks"),
    );
    this.svg.replaceChildren(...parts);
  }

  x(filling) {
    return SIDE + filling * (this.width - 2 * SIDE);
  }

  y(trim) {
    const share = (Math.min(Math.max(trim, this.low), this.high) - this.low) / (this.high - this.low);
    return TOP + share * (this.height - TOP - BOTTOM);
  }

  full(filling) {
    const [low, high] = this.dive.full;
    return `${Math.round(100 * (low + filling * (high - low)))} %`;
  }

  frame() {
    const group = element("g", { class: "frame" });
    const [foot, level] = [this.height - BOTTOM, this.y(0)];
    group.append(element("path", { class: "even", d: `M${this.x(0)},${level}H${this.x(1)}` }));
    group.append(element("path", { class: "axis", d: `M${this.x(0)},${foot + 8}H${this.x(1)}` }));
    for (const part of this.width > 520 ? [0, 0.25, 0.5, 0.75, 1] : [0, 0.5, 1]) {
      group.append(element("path", { class: "axis", d: `M${this.x(part)},${foot + 4}v8` }));
      const anchor = { 0: "start", 1: "end" }[part] ?? "middle";
      const says = { 0: `${this.full(0)} full`, 1: `${this.full(1)} full` }[part] ?? this.full(part);
      const at = this.x(part) + ({ 0: -8, 1: 8 }[part] ?? 0);
      group.append(element("text", { x: at, y: this.height - 4, "text-anchor": anchor }, says));
    }
    const clear = this.clear();
    group.append(element("text", { class: "side", x: clear, y: level - 7 }, "level"));
    const step = [50, 20, 10, 5, 2].find((one) => one <= Math.max(this.high, -this.low)) ?? 2;
    for (const [trim, end] of [[step, "bow"], [-step, "stern"]]) {
      if (trim > this.high || trim < this.low) continue;
      const y = this.y(trim);
      group.append(element("path", { class: "even", d: `M${this.x(0)},${y}H${this.x(1)}` }));
      const says = `${step}° ${end} down`;
      group.append(element("text", { class: "side", x: clear, y: y - 7 }, says));
    }
    return group;
  }

  // Where words at the left stand clear of the knob and of what is tinted.
  clear() {
    const start = this.x(0) + CLEAR;
    const ends = this.dive.leans.map(([from, to]) => [this.x(from) - 130, this.x(to) + 10]);
    const beyond = ends.reduce((at, [from, to]) => (at > from && at < to ? to : at), start);
    return beyond < this.width - 260 ? beyond : start;
  }

  bands() {
    const group = element("g", { class: "bands" });
    for (const [from, to, lean] of this.dive.leans) {
      const [left, right] = [this.x(from), Math.max(this.x(to), this.x(from) + 4)];
      const ends = [left, right].map((x) => `M${x},${TOP - 6}V${this.height - BOTTOM + 8}`);
      group.append(element("rect", {
        x: left, y: TOP - 6, width: right - left, height: this.height - BOTTOM - TOP + 14,
      }));
      group.append(element("path", { d: ends.join("") }));
      const says = `not upright: heels ${lean.toFixed(1)}°`;
      const short = right - left < says.length * LETTER ? `heels ${lean.toFixed(1)}°` : says;
      const at = Math.min(Math.max((left + right) / 2, short.length * LETTER * 0.5 + 2), this.width);
      group.append(element("text", { x: at, y: TOP - 12, "text-anchor": "middle" }, short));
    }
    return group;
  }

  curves() {
    const group = element("g", { class: "curves" });
    const isLeaning = (f) => this.dive.leans.some(([from, to]) => f >= from && f <= to);
    if (this.dive.up !== this.dive.down && JSON.stringify(this.dive.up) !== JSON.stringify(this.dive.down)) {
      for (const run of this.dive.up) group.append(this.line(run, "back"));
    }
    for (const run of this.dive.down) {
      let [part, was] = [[], null];
      for (const lie of run) {
        const leans = isLeaning(lie[AT.filling]);
        if (was !== null && leans !== was) {
          group.append(this.line(part, was ? "broken" : "firm"));
          part = [];
        }
        part.push(lie);
        was = leans;
      }
      group.append(this.line(part, was ? "broken" : "firm"));
    }
    for (const [filling, angle] of this.dive.jumps) {
      if (angle < 1) continue;
      const mark = element("path", { class: "jump", d: `M${this.x(filling)},${this.y(0) - 9}l5,6l-10,6l5,6` });
      mark.append(element("title", {}, `Here she flops by ${angle.toFixed(0)}°`));
      group.append(mark);
    }
    return group;
  }

  line(lies, name) {
    const points = lies.map((lie) => `${this.x(lie[0]).toFixed(1)},${this.y(lie[AT.trim]).toFixed(1)}`);
    return element("path", { class: name, d: points.length ? `M${points.join(" ")}` : "" });
  }

  // Her trim with a thing in hand somewhere else, over the line as it is.
  trial(curve) {
    this.tried?.remove();
    this.svg.classList.toggle("trying", Boolean(curve));
    if (!curve) return;
    const points = curve.map(([filling, trim]) => `${this.x(filling).toFixed(1)},${this.y(trim).toFixed(1)}`);
    this.tried = element("path", { class: "tried", d: `M${points.join(" ")}` });
    this.svg.insertBefore(this.tried, this.thumb);
  }

  events() {
    const group = element("g", { class: "events" });
    let free = 0;
    const wanted = this.dive.events.filter(([, kind]) => kind === "under");
    const ordered = [...wanted].reverse();
    let limit = this.width;
    for (const [filling, , what] of ordered) {
      const [x, foot] = [this.x(filling), this.height - BOTTOM + 8];
      group.append(element("path", { d: `M${x},${foot}v9` }));
      const wide = what.length * LETTER;
      const left = Math.min(Math.max(x - wide / 2, 2), limit - wide);
      if (left < free || left < 2 || x - left > wide + 6) continue;
      limit = left - 12;
      group.append(element("text", { x: left, y: foot + 22 }, what));
    }
    return group;
  }

  show(lie) {
    const [x, y, foot] = [this.x(lie[AT.filling]), this.y(lie[AT.trim]), this.height - BOTTOM + 8];
    const [stem, halo, knob, arrows, hint] = this.thumb.children;
    stem.setAttribute("d", `M${x.toFixed(1)},${TOP - 6}V${foot}`);
    arrows.setAttribute("d", [-1, 1].map((s) => `M${x + s * 20},${y - 6}l${s * 7},6l${-s * 7},6`).join(""));
    const isRight = lie[AT.filling] > 0.5;
    hint.setAttribute("x", x + (isRight ? -14 : 14));
    hint.setAttribute("y", y - 22);
    hint.setAttribute("text-anchor", isRight ? "end" : "start");
    for (const one of [halo, knob]) {
      one.setAttribute("cx", x.toFixed(1));
      one.setAttribute("cy", y.toFixed(1));
    }
  }
}
