// What the drawing says in words, each beside what it is about: how far off her waterline she floats
// at bow, middle and stern, the lever between G and B, how far tank water is off the plumb line, and
// gaps to what is next to a thing in hand.

import { all, any, one } from "./dom.js";
import { breadth, element, matrix, on, still } from "./drawing.js";
import { far } from "./figures.js";
import { around, placed, skyline } from "./labels.js";

const MOST = 45; // millimetres: farther off she is not meant to be on it
const TICK = 7; // pixels, half of a tick
const HIGH = 17; // of a line of words [pixels]
const BASE = 13.5; // from its upper edge to where letters stand [pixels]
const EDGE = 3; // pixels kept clear at the edges of the drawing
const MARK = 10; // half of the breadth of a mark [pixels]
const STRIP = 150; // a drawing lower than this has no words [pixels]
const UPRIGHT = 8; // degrees of heel up to which heights in the middle plane tell something
/** @type {Map<string, string>} */
const kept = new Map(); // where words stood last, by what they are about: they stay there

/** @typedef {import("./labels.js").Stroke} Stroke @typedef {import("./labels.js").Spot} Spot */
/** @typedef {{ name: string, group: SVGGElement, at: Spot, says: string }} Words */

class Gauges {
  /** @param {Boat} boat */
  constructor(boat) {
    const { scene, dive } = boat;
    this.boat = boat;
    this.layer = element("g", { class: "labels" }); // in pixels from the upper left
    this.group = element("g", { class: "gauges" });
    this.lever = element("g", { class: "lever" });
    this.distance = any(scene, ".distance", SVGGElement);
    this.gaps = element("g", { class: "dimensions" });
    this.title = element("title");
    this.levers = still();
    this.lever.append(this.levers);
    this.ends = dive.marks.map(({ name, x, z }) => ({ name, x, z, line: still(), group: element("g") }));
    this.group.append(...this.ends.flatMap(({ line, group }) => [line, group]));
    this.layer.append(this.group, this.lever, this.gaps);
    if (this.distance) this.layer.append(this.distance);
    scene.append(this.layer);
    scene.prepend(this.title);
    this.outline = outline(boat.drawing.boat);
    boat.drawing.noted = () => this.show(boat.lie);
  }

  /** @param {Lie} lie */
  show(lie) {
    const { drawing } = this.boat;
    const { width, height, k, air } = drawing;
    const m = matrix(lie, drawing.middle);
    /** @param {Point} point */
    const at = (point) => {
      const { x, y } = on(m, point);
      return { x: x / k + width / 2, y: y / k + air };
    };
    this.layer.setAttribute("transform", `translate(${(-width * k) / 2} ${-air * k}) scale(${k})`);
    const isStrip = height < STRIP;
    this.layer.toggleAttribute("hidden", isStrip);
    if (isStrip) return;
    const words = [...this.measured(at), ...this.between(lie, at), ...this.off(lie, at), ...this.apart(at)];
    const strokes = this.outline.map(({ from, to }) => ({ from: at(from), to: at(to) }));
    const room = { left: EDGE, top: EDGE, right: width - EDGE, bottom: height - EDGE };
    const boxes = [{ x: lie.g_x, z: lie.g_z }, { x: lie.b_x, z: lie.b_z }].map(at).map(({ x, y }) => ({
      left: x - MARK, top: y - MARK, right: x + MARK, bottom: y + MARK,
    }));
    const surface = { from: { x: 0, y: air }, to: { x: width, y: air } };
    const sky = skyline(strokes, width);
    const labels = words.map(({ name, at: from, says }) => ({
      name, places: around(from, { width: breadth(says), height: HIGH }, sky, air),
    }));
    const found = placed(labels, { room, boxes, strokes: [surface] }, kept);
    const left = words.filter((one, i) => !write(one, found[i])).map(({ says }) => says);
    this.title.textContent = left.join(", ");
  }

  /**
   * B over G as she lies, beside their marks; upright only, where their middle plane is hers.
   * @param {Lie} lie
   * @param {(point: Point) => Spot} at
   * @returns {Words[]}
   */
  between(lie, at) {
    const isShown = Math.abs(lie.heel) < UPRIGHT;
    this.lever.toggleAttribute("hidden", !isShown);
    if (!isShown) return [];
    const [g, b] = [at({ x: lie.g_x, z: lie.g_z }), at({ x: lie.b_x, z: lie.b_z })];
    const x = Math.min(g.x, b.x) - 18;
    const ticks = [g.y, b.y].map((y) => `M${x - TICK / 2},${y}h${TICK}`).join("");
    this.levers.setAttribute("d", `${ticks}M${x},${g.y}V${b.y}`);
    const says = `BG ${far(lie.bg, this.boat.dive)}`;
    return [{ name: "BG", group: this.lever, at: { x, y: (g.y + b.y) / 2 }, says }];
  }

  /**
   * @param {Lie} lie
   * @param {(point: Point) => Spot} at
   * @returns {Words[]}
   */
  off(lie, at) {
    const { air } = this.boat.drawing;
    const low = this.ends.map(({ x, z }) => (lie.water - lie.up_x * x) / lie.up_z - z); // deeper than meant [mm]
    const isShown = Math.abs(lie.heel) < UPRIGHT && low.length > 0 && low.every((one) => Math.abs(one) <= MOST);
    this.group.toggleAttribute("hidden", !isShown);
    if (!isShown) return [];
    return this.ends.map(({ name, x, z, line, group }, i) => {
      const meant = at({ x, z });
      const ends = [air, meant.y].map((y) => `M${meant.x - TICK},${y}h${2 * TICK}`).join("");
      line.setAttribute("d", `${ends}M${meant.x},${air}V${meant.y}`);
      return { name: `at ${name}`, group, at: { x: meant.x, y: Math.min(meant.y, air) }, says: this.says(low[i]) };
    });
  }

  /** @param {number} low */
  says(low) {
    const off = far(Math.abs(low), this.boat.dive);
    return Number.parseFloat(off) === 0 ? "on her waterline" : `${off} ${low > 0 ? "low" : "high"}`;
  }

  /**
   * How far tank water is off the plumb line, at her keel.
   * @param {(point: Point) => Spot} at
   * @returns {Words[]}
   */
  apart(at) {
    if (!this.distance) return [];
    const { x, z, says } = this.distance.dataset;
    return [{ name: "distance", group: this.distance, at: at({ x: Number(x), z: Number(z) }), says: says ?? "" }];
  }

  /**
   * @param {(point: Point) => Spot} at
   * @returns {Words[]}
   */
  measured(at) {
    const { notes } = this.boat.drawing;
    while (this.gaps.childElementCount > notes.length) this.gaps.lastElementChild?.remove();
    while (this.gaps.childElementCount < notes.length) this.gaps.append(element("g"));
    const groups = all(this.gaps, "g", SVGGElement);
    return notes.map(({ x, z, says }, i) => ({ name: `gap ${i}`, group: groups[i], at: at({ x, z }), says }));
  }
}

/**
 * Puts words in their place; returns whether there was one.
 * @param {Words} words
 * @param {import("./labels.js").Place | null} place
 */
function write({ group, says }, place) {
  if (!any(group, "text", SVGTextElement)) group.append(element("path", { class: "leader" }), element("text"));
  const [line, text] = [one(group, ".leader", SVGPathElement), one(group, "text", SVGTextElement)];
  text.textContent = says;
  for (const part of [line, text]) part.toggleAttribute("hidden", !place);
  if (!place) return false;
  const { box, leader } = place;
  line.setAttribute("d", leader ? `M${leader.from.x},${leader.from.y}L${leader.to.x},${leader.to.y}` : "");
  text.setAttribute("transform", `translate(${(box.left + 1).toFixed(1)} ${(box.top + BASE).toFixed(1)})`);
  return true;
}

/**
 * What is drawn of her, in her own axes: her outline, and a box round each thing in and on her.
 * @param {SVGGElement} boat
 * @returns {{ from: Point, to: Point }[]}
 */
function outline(boat) {
  const lines = all(boat, ".silhouette path, .skins path", SVGPathElement).flatMap((drawn) =>
    (drawn.getAttribute("d") ?? "").split("M").filter(Boolean).map((loop) => {
      const numbers = (loop.match(/-?[\d.]+/g) ?? []).map(Number);
      const points = numbers.flatMap((x, i) => (i % 2 ? [] : [{ x, z: -numbers[i + 1] }]));
      return [...points, points[0]];
    }),
  );
  const boxes = all(boat, ".thing, .vessels, .above path, .waterline-meant", SVGGraphicsElement).map((thing) => {
    const { x, y, width, height } = thing.getBBox();
    return [[x, y], [x + width, y], [x + width, y + height], [x, y + height], [x, y]].map(([x, y]) => ({ x, z: -y }));
  });
  return [...lines, ...boxes].flatMap((line) => line.slice(1).map((to, i) => ({ from: line[i], to })));
}

/** @type {WeakMap<Boat, Gauges>} */
const every = new WeakMap();
document.addEventListener("lies", ({ detail: boat }) => {
  const gauges = every.get(boat) ?? new Gauges(boat);
  every.set(boat, gauges);
  gauges.show(boat.lie);
});
