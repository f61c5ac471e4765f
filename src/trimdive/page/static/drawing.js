// Puts the boat where she lies: one group moved as a whole, the water still.

import { all, any, one } from "./dom.js";

const SVG = "http://www.w3.org/2000/svg";
const PAPER = 3.4; // pixels of the screen in a millimetre of paper, for hatches
const ROOM = 14; // pixels kept clear above
const FOOT = 28; // pixels kept clear below, for words
const LETTERS = '16px "DejaVu Sans", Verdana, sans-serif'; // of words in drawings, as the style sheet has them
const STILL = 0.42; // of its height: where the water stands as long as she fits
const MOST = 1.06; // times her length that the picture shows at least
/** @type {Record<string, number>} */
const HATCHES = { above: 4, lead: 0.75, foam: 1.6, water: 3.2 }; // breadth on paper [mm]

/**
 * A new element of a drawing.
 * @template {keyof SVGElementTagNameMap} T
 * @param {T} name
 * @param {Record<string, string | number>} attributes
 * @param {string} text
 */
export function element(name, attributes = {}, text = "") {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  if (text) made.textContent = text;
  return made;
}

/** @param {Record<string, string | number>} attributes */
export function still(attributes = {}) {
  return element("path", { "vector-effect": "non-scaling-stroke", ...attributes });
}

const pen = new OffscreenCanvas(1, 1).getContext("2d");
/** @type {Map<string, number>} */
const breadths = new Map(); // of words with every figure a 0: figures are all as broad

/**
 * How broad words in a drawing come out [pixels].
 * @param {string} words
 */
export function breadth(words) {
  const alike = words.replace(/\d/g, "0");
  let found = breadths.get(alike);
  if (found === undefined) {
    if (pen) pen.font = LETTERS;
    found = Math.ceil(pen?.measureText(alike).width ?? 10 * alike.length) + 2;
    breadths.set(alike, found);
  }
  return found;
}

/**
 * The middle plane of the boat on the screen, water at 0 and downwards.
 * @param {Lie} lie
 * @param {Point} middle
 */
export function matrix(lie, middle) {
  const { up_x: nx, up_y: ny, up_z: nz } = lie;
  const flat = Math.hypot(ny, nz) || 1e-9;
  const [rx, rz] = [(1 - nx * nx) / flat, (-nx * nz) / flat];
  return new DOMMatrix([rx, -nx, -rz, nz, -(rx * middle.x + rz * middle.z), lie.water]);
}

/**
 * Where a place of her middle plane is on the screen.
 * @param {DOMMatrix} m
 * @param {Point} point
 */
export function on(m, { x, z }) {
  return { x: m.a * x - m.c * z + m.e, y: m.b * x - m.d * z + m.f };
}

/**
 * @param {DOMMatrix} m
 * @param {number} digits
 */
function placed(m, digits) {
  const numbers = [m.a, m.b, m.c, m.d, m.e, m.f].map((value) => value.toFixed(digits));
  return `matrix(${numbers.join(" ")})`;
}

/**
 * Two lists as points.
 * @param {number[]} x
 * @param {number[]} z
 * @returns {Point[]}
 */
export function points(x, z) {
  return x.map((value, i) => ({ x: value, z: z[i] }));
}

export class Drawing {
  /**
   * @param {SVGSVGElement} svg
   * @param {Dive} dive
   */
  constructor(svg, dive) {
    this.svg = svg;
    this.dive = dive;
    const { low, high } = dive.bounds;
    this.held = 0; // the scale as it is [mm a pixel]
    this.middle = { x: dive.middle, z: (low.z + high.z) / 2 };
    this.corners = [low.x, high.x].flatMap((x) => [low.z, high.z].map((z) => ({ x, z })));
    this.boat = one(svg, ".boat", SVGGElement);
    this.ghost = one(svg, ".ghost", SVGGElement);
    this.marks = all(svg, ".mark", SVGElement);
    this.hatches = all(svg, "pattern", SVGPatternElement).map((pattern) => ({
      pattern,
      turn: pattern.getAttribute("patternTransform") ?? "",
      width: Number(pattern.getAttribute("width")),
    }));
    this.tanks = dive.tanks.map((tank) => {
      const group = element("g");
      const fill = element("path", { fill: `url(#${dive.hatch})`, stroke: "none" });
      const top = still({ class: "level" });
      group.append(fill, top);
      one(svg, ".tank-waters", SVGGElement).append(group);
      return { tank, loop: points(tank.loop.x, tank.loop.z), group, fill, top };
    });
    this.width = this.height = 50; // of the window [pixels]
    this.usual = 1; // millimetres in a pixel where all of her is shown
    this.k = 0; // and as she is shown now
    this.air = 0; // from the upper edge down to the water [pixels]
    /** @type {SVGGElement | null} */
    this.gaps = null;
    /** @type {(Point & { says: string })[]} */
    this.notes = []; // words at what is measured
    this.noted = () => {}; // called when these change
  }

  /** @param {Lie} lie */
  reach(lie) {
    const m = matrix(lie, this.middle);
    const heights = this.corners.map((corner) => on(m, corner).y);
    return { up: -Math.min(...heights), down: Math.max(...heights) };
  }

  fit() {
    const box = this.svg.getBoundingClientRect();
    [this.width, this.height] = [Math.max(box.width, 50), Math.max(box.height, 50)];
    const { low, high } = this.dive.bounds;
    this.usual = (MOST * (high.x - low.x)) / this.width;
    this.held = 0;
  }

  /** @param {Lie} lie */
  show(lie) {
    const { width, height } = this;
    const { up, down } = this.reach(lie);
    const k = Math.max(this.usual, this.held, (up + down) / (height - ROOM - FOOT));
    this.held = k; // she grows no larger while she moves, and smaller only where she would not fit
    const air = k * Math.max(ROOM + up / k, Math.min(STILL * height, height - FOOT - down / k));
    this.svg.setAttribute("viewBox", `${(-width * k) / 2} ${-air} ${width * k} ${height * k}`);
    this.air = air / k;
    const m = matrix(lie, this.middle);
    this.boat.setAttribute("transform", placed(m, 5));
    this.places(lie, m, k);
    if (k !== this.k) this.rescale(k);
    this.dive.tanks.forEach((_, i) => this.water(i, lie));
  }

  /** @param {number} k */
  rescale(k) {
    this.k = k;
    for (const { pattern, turn, width } of this.hatches) {
      const nominal = width / HATCHES[pattern.id.split("-")[0]];
      pattern.setAttribute("patternTransform", `${turn} scale(${((PAPER * k) / nominal).toFixed(4)})`);
    }
  }

  /**
   * @param {Lie} lie
   * @param {DOMMatrix} m
   * @param {number} k
   */
  places(lie, m, k) {
    /** @type {Record<string, Point>} */
    const own = { g: { x: lie.g_x, z: lie.g_z }, b: { x: lie.b_x, z: lie.b_z } };
    for (const mark of this.marks) {
      const kept = { x: Number(mark.dataset.x), z: Number(mark.dataset.z) };
      const { x, y } = on(m, own[mark.classList[1]] ?? kept);
      mark.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)}) scale(${k.toFixed(4)})`);
    }
  }

  /**
   * Dimension lines from a thing in hand to what is next to it, with ticks; and what stops it.
   * @param {Gap[]} gaps
   * @param {Point & { stopped: string }} held
   */
  measure(gaps, held = { stopped: "", x: 0, z: 0 }) {
    this.gaps?.remove();
    this.gaps = element("g", { class: "dimensions" });
    this.boat.append(this.gaps);
    this.gaps.append(...gaps.map((gap) => this.dimension(gap)));
    this.notes = gaps.map(({ start, end, says }) => ({ x: (start.x + end.x) / 2, z: (start.z + end.z) / 2, says }));
    if (held.stopped) this.notes.unshift({ x: held.x, z: held.z, says: `stops at ${held.stopped}` });
    this.noted();
  }

  /** @param {Gap} gap */
  dimension({ start, end }) {
    const half = 5 * this.k;
    /** @param {Point} at */
    const tick = (at) => `M${at.x - half},${-at.z + half}l${2 * half},${-2 * half}`;
    return element("path", { d: `M${start.x},${-start.z}L${end.x},${-end.z}${tick(start)}${tick(end)}` });
  }

  /**
   * @param {number} i
   * @param {Lie} lie
   */
  water(i, lie) {
    const { share, level } = lie.tanks[i];
    const { tank, fill, top } = this.tanks[i];
    let loop = this.tanks[i].loop;
    /** @type {Point[]} */
    let edge = [];
    if (share < 1e-3) loop = [];
    else if (tank.kind === "piston") {
      const from = tank.end ?? 0;
      const to = from + (tank.run ?? 0) * share;
      const [low, high] = [Math.min(from, to), Math.max(from, to)];
      loop = loop.map(({ x, z }) => ({ x: Math.min(Math.max(x, low), high), z }));
    } else if (share < 0.999 && tank.kind === "open") {
      ({ kept: loop, edge } = below(loop, { x: lie.up_x, z: lie.up_z }, level));
    }
    fill.setAttribute("d", path(loop) && `${path(loop)}Z`);
    top.setAttribute("d", edge.length === 2 ? path(edge) : "");
  }

  /**
   * Moves the water of tanks that go with a thing in hand.
   * @param {string[]} along
   * @param {Point} shift
   */
  shiftTanks(along, { x, z }) {
    this.tanks.forEach(({ group }, i) => {
      group.setAttribute("transform", along.includes(`tank[${i + 1}]`) ? `translate(${x} ${-z})` : "");
    });
  }

  /**
   * Shows her outline as she lay before.
   * @param {Lie} lie
   */
  haunt(lie) {
    const outline = any(this.boat, ".silhouette", SVGElement);
    if (!outline) return;
    const copy = outline.cloneNode(true);
    if (copy instanceof SVGElement) copy.setAttribute("transform", placed(matrix(lie, this.middle), 9));
    this.ghost.replaceChildren(copy);
  }
}

/** @param {Point[]} line */
export function path(line) {
  return line.length ? `M${line.map(({ x, z }) => `${x.toFixed(1)},${(-z).toFixed(1)}`).join(" ")}` : "";
}

/**
 * What of a closed line lies at up·p <= level, and where its edge is cut.
 * @param {Point[]} loop
 * @param {Point} up
 * @param {number} level
 */
export function below(loop, up, level) {
  /** @type {Point[]} */
  const kept = [];
  /** @type {Point[]} */
  const edge = [];
  /** @param {Point} point */
  const over = ({ x, z }) => up.x * x + up.z * z - level;
  loop.forEach((here, i) => {
    const last = loop[(i || loop.length) - 1];
    const [a, b] = [over(last), over(here)];
    if (a > 0 !== b > 0) {
      const share = a / (a - b);
      const cut = { x: last.x + share * (here.x - last.x), z: last.z + share * (here.z - last.z) };
      kept.push(cut);
      edge.push(cut);
    }
    if (b <= 0) kept.push(here);
  });
  return { kept, edge };
}

/** From astern: how far she leans. */
export class Astern {
  /**
   * @param {SVGSVGElement} svg
   * @param {Dive} dive
   */
  constructor(svg, dive) {
    this.svg = svg;
    this.end = one(svg, ".end", SVGGElement);
    const { low, high } = dive.bounds;
    this.half = Math.max(high.z - low.z, high.y - low.y) * 0.62;
    this.middle = dive.middle;
  }

  /** @param {Lie} lie */
  show(lie) {
    const nz = Math.max(Math.abs(lie.up_z), 0.3);
    const deep = Math.min(Math.max((lie.water - lie.up_x * this.middle) / nz, 0), 1.75 * this.half);
    this.svg.setAttribute("viewBox", `${-2 * this.half} ${-1.3 * this.half} ${4 * this.half} ${3.2 * this.half}`);
    this.end.setAttribute("transform", `translate(0 ${deep.toFixed(2)}) rotate(${lie.heel.toFixed(2)})`);
  }
}
