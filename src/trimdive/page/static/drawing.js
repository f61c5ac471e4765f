// Puts the boat where she lies: one group moved as a whole, the water still.

import { AT } from "./interpolate.js";

const SVG = "http://www.w3.org/2000/svg";
const PAPER = 3.4; // pixels of the screen in a millimetre of paper, for hatches
const ROOM = 14; // pixels kept clear above
const FOOT = 28; // pixels kept clear below, for words
const STILL = 0.42; // of its height: where the water stands as long as she fits
const MOST = 1.06; // times her length that the picture shows at least

export function element(name, attributes = {}, text = "") {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text) made.textContent = text;
  return made;
}

// The middle plane of the boat on the screen: a matrix for SVG, water at 0 and downwards.
export function matrix(lie, middle) {
  const [nx, ny, nz] = lie.slice(AT.n, AT.n + 3);
  const flat = Math.hypot(ny, nz) || 1e-9;
  const [rx, rz] = [(1 - nx * nx) / flat, (-nx * nz) / flat];
  return [rx, -nx, -rz, nz, -(rx * middle[0] + rz * middle[1]), lie[AT.water]];
}

export function on([a, b, c, d, e, f], x, z) {
  return [a * x - c * z + e, b * x - d * z + f];
}

export class Drawing {
  constructor(svg, dive) {
    this.svg = svg;
    this.dive = dive;
    const [low, high] = dive.bounds;
    this.middle = [dive.middle, (low[2] + high[2]) / 2];
    this.corners = [low[0], high[0]].flatMap((x) => [low[2], high[2]].map((z) => [x, z]));
    this.boat = svg.querySelector(".boat");
    this.ghost = svg.querySelector(".ghost");
    this.marks = [...svg.querySelectorAll(".mark")];
    this.hatches = [...svg.querySelectorAll("pattern")].map((one) => [
      one, one.getAttribute("patternTransform"), Number(one.getAttribute("width")),
    ]);
    this.tanks = dive.tanks.map(() => {
      const group = element("g");
      const fill = element("path", { fill: `url(#${dive.hatch})`, stroke: "none" });
      const top = element("path", { class: "level", "vector-effect": "non-scaling-stroke" });
      group.append(fill, top);
      svg.querySelector(".tank-waters").append(group);
      return { fill, top };
    });
  }

  reach(lie) {
    const m = matrix(lie, this.middle);
    const heights = this.corners.map(([x, z]) => on(m, x, z)[1]);
    return [-Math.min(...heights), Math.max(...heights)];
  }

  fit() {
    const box = this.svg.getBoundingClientRect();
    this.size = [Math.max(box.width, 50), Math.max(box.height, 50)];
    const [low, high] = this.dive.bounds;
    this.usual = (MOST * (high[0] - low[0])) / this.size[0];
  }

  show(lie) {
    const [width, height] = this.size;
    const [up, down] = this.reach(lie);
    const k = Math.max(this.usual, (up + down) / (height - ROOM - FOOT));
    const air = Math.max(ROOM + up / k, Math.min(STILL * height, height - FOOT - down / k));
    this.svg.setAttribute("viewBox", `${(-width * k) / 2} ${-air * k} ${width * k} ${height * k}`);
    const m = matrix(lie, this.middle);
    this.boat.setAttribute("transform", `matrix(${m.map((one) => one.toFixed(5)).join(" ")})`);
    this.places(lie, m, k);
    if (k !== this.k) this.rescale(k);
    this.dive.tanks.forEach((tank, i) => this.water(tank, i, lie));
  }

  rescale(k) {
    this.k = k;
    for (const [one, turn, width] of this.hatches) {
      const nominal = width / { above: 4, lead: 0.75, foam: 1.6, water: 3.2 }[one.id.split("-")[0]];
      one.setAttribute("patternTransform", `${turn} scale(${((PAPER * k) / nominal).toFixed(4)})`);
    }
  }

  places(lie, m, k) {
    const own = { g: lie.slice(AT.g, AT.g + 2), b: lie.slice(AT.b, AT.b + 2) };
    for (const mark of this.marks) {
      const kept = [Number(mark.dataset.x), Number(mark.dataset.z)];
      const [x, y] = on(m, ...(own[mark.classList[1]] ?? kept));
      const turn = mark.classList.contains("distance") ? ` rotate(${lie[AT.trim].toFixed(2)})` : "";
      const size = ` scale(${k.toFixed(4)})`;
      mark.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})${turn}${size}`);
    }
  }

  // Dimension lines from a thing in hand to what is next to it, with ticks; and what stops it.
  measure(gaps, { stopped = "", x: heldX = 0, z: heldZ = 0 } = {}) {
    this.gaps?.remove();
    this.gaps = element("g", { class: "dimensions" });
    this.boat.append(this.gaps);
    if (stopped) {
      const transform = `translate(${heldX} ${-heldZ + 5 * this.k}) scale(${this.k})`;
      this.gaps.append(element("text", { "text-anchor": "middle", transform }, `stops at ${stopped}`));
    }
    for (const [x, z, toX, toZ, says] of gaps) {
      const isAlong = z === toZ;
      const half = 5 * this.k;
      const tick = (a, b) => `M${a - half},${-b + half}l${2 * half},${-2 * half}`;
      const d = `M${x},${-z}L${toX},${-toZ}${tick(x, z)}${tick(toX, toZ)}`;
      const beside = (toX > x ? 22 : -9) * this.k; // aft above its line, forward below
      const at = isAlong ? [(x + toX) / 2, -z + beside] : [x + 8 * this.k, -(z + toZ) / 2 + 6 * this.k];
      const anchor = isAlong ? "middle" : "start";
      this.gaps.append(
        element("path", { d }),
        element("text", { "text-anchor": anchor, transform: `translate(${at.join(" ")}) scale(${this.k})` }, says),
      );
    }
  }

  water(tank, i, lie) {
    const [share, level] = lie.slice(AT.tanks + 2 * i, AT.tanks + 2 * i + 2);
    const { fill, top } = this.tanks[i];
    let [loop, edge] = [tank.loop, []];
    if (share < 1e-3) loop = [];
    else if (tank.kind === "piston") {
      const end = tank.end + tank.run * share;
      const [low, high] = [Math.min(tank.end, end), Math.max(tank.end, end)];
      loop = loop.map(([x, z]) => [Math.min(Math.max(x, low), high), z]);
    } else if (share < 0.999 && tank.kind === "open") {
      [loop, edge] = below(loop, [lie[AT.n], lie[AT.n + 2]], level);
    }
    fill.setAttribute("d", path(loop) && `${path(loop)}Z`);
    top.setAttribute("d", edge.length === 2 ? path(edge) : "");
  }

  // Moves the water of tanks that go with a thing in hand.
  shiftTanks(along, [dx, dz]) {
    this.dive.tanks.forEach((tank, i) => {
      const moves = along.includes(`tank[${i + 1}]`);
      this.tanks[i].fill.parentElement.setAttribute("transform", moves ? `translate(${dx} ${-dz})` : "");
    });
  }

  haunt(lie) {
    const outline = this.boat.querySelector(".silhouette");
    if (!outline || !lie) return;
    const copy = outline.cloneNode(true);
    copy.setAttribute("transform", `matrix(${matrix(lie, this.middle).join(" ")})`);
    this.ghost.replaceChildren(copy);
  }
}

export function path(points) {
  return points.length ? `M${points.map(([x, z]) => `${x.toFixed(1)},${(-z).toFixed(1)}`).join(" ")}` : "";
}

// What of a closed line lies at n·p <= level, and where its edge is cut.
export function below(loop, [nx, nz], level) {
  const [kept, edge] = [[], []];
  loop.forEach((here, i) => {
    const last = loop[(i || loop.length) - 1];
    const [a, b] = [last, here].map(([x, z]) => nx * x + nz * z - level);
    if (a > 0 !== b > 0) {
      const share = a / (a - b);
      const cut = [last[0] + share * (here[0] - last[0]), last[1] + share * (here[1] - last[1])];
      kept.push(cut);
      edge.push(cut);
    }
    if (b <= 0) kept.push(here);
  });
  return [kept, edge];
}

// From astern: how far she leans.
export class Astern {
  constructor(svg, dive) {
    [this.svg, this.end] = [svg, svg.querySelector(".end")];
    const [low, high] = dive.bounds;
    this.half = Math.max(high[2] - low[2], high[1] - low[1]) * 0.62;
    this.middle = dive.middle;
  }

  show(lie) {
    const nz = Math.max(Math.abs(lie[AT.n + 2]), 0.3);
    const deep = Math.min(Math.max((lie[AT.water] - lie[AT.n] * this.middle) / nz, 0), 1.75 * this.half);
    this.svg.setAttribute("viewBox", `${-2 * this.half} ${-1.3 * this.half} ${4 * this.half} ${3.2 * this.half}`);
    this.end.setAttribute("transform", `translate(0 ${deep.toFixed(2)}) rotate(${lie[AT.heel].toFixed(2)})`);
  }
}
