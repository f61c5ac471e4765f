// Her bodies in three dimensions, as they came in one block, in her own axes: each kind in its own ink, the
// water in her tanks, and what is seen where she is cut.

import { GLASS, SOLID, VERTEX } from "./solid_ink.js";
import { colour, CUT, KINDS, OUTSIDE } from "./solid_kinds.js";
import { read } from "./solid_read.js";
import { three } from "./solid_three.js";

const {
  BackSide, BufferAttribute, BufferGeometry, DecrementWrapStencilOp, DoubleSide, EqualDepth, FrontSide, Group,
  IncrementWrapStencilOp, LineBasicMaterial, LineMaterial, LineSegments, LineSegments2, LineSegmentsGeometry, Mesh, MeshBasicMaterial, NotEqualStencilFunc,
  Plane, ShaderMaterial, Vector3,
} = three;

/** @typedef {import("./solid_ink.js").Ink} Ink */
/** @typedef {import("three").Mesh} Shown */
/** @typedef {import("three").Plane} Limit */
/** @typedef {{ mesh: Shown, number: number, level: Limit, end: Limit }} Water */

export const MM = 1e-3;
const SPOT = 0.005; // half the size of what stands for a bare point, of her length
const SAMPLES = 900; // corners by which she is fitted into the picture
const UNCUT = 1e9; // [m]
const SKIN = 30; // when the skin is drawn: after what lies inside it and after the water
export const CLEAR = { transparent: true, depthWrite: false };
const SET_BACK = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 }; // behind its own edges

export class Bodies {
  /**
   * @param {ArrayBuffer} block
   * @param {Dive} dive
   */
  constructor(block, dive) {
    const { head, corners, triangles, edges } = read(block);
    this.head = head;
    this.corners = corners;
    this.edges = edges;
    this.dive = dive;
    this.size = (dive.bounds.high.x - dive.bounds.low.x) * MM; // her length
    this.place = new BufferAttribute(corners, 3);
    this.index = new BufferAttribute(triangles, 1);
    this.facing = normals(this.place, this.index);
    this.group = new Group();
    this.group.matrixAutoUpdate = false;
    this.plane = new Plane(); // what is cut off lies behind it
    this.inks = { ink: { value: [0, 0, 0] }, paper: { value: [0, 0, 0] }, sea: { value: [0, 0, 0] }, cut: { value: UNCUT } };
    /** @type {Map<string, Shown>} */
    this.meshes = new Map();
    /** @type {Shown[]} */
    this.filled = []; // what fills her where she is cut
    /** @type {Shown[]} */
    this.marked = []; // what shows that something is picked
    for (const kind of Object.keys(KINDS)) this.add(kind);
    this.spots();
    this.waters = this.bodies("tank").map((body, number) => this.water(body, number));
    CUT.forEach((kinds, i) => this.fill(kinds.flatMap((kind) => this.bodies(kind)), kinds[0], 2 * (i - CUT.length)));
    this.bodies("tank").forEach((body, i) => this.fill([body], "water", 2 * i - 1000, [this.waters[i].level, this.waters[i].end]));
    this.sample = sample(corners);
  }

  /** @param {string} kind */
  bodies(kind) {
    return this.head.bodies.filter((one) => one.kind === kind);
  }

  /**
   * Where the triangles and edges of some bodies are, that follow one another.
   * @param {SolidBody[]} bodies
   */
  span(bodies) {
    const found = bodies.filter((one) => one.count);
    const [{ first, line }] = found;
    return { first, count: sum(found, "count"), line, lines: sum(found, "lines") };
  }

  /**
   * A stretch of the triangles, with the corners of all.
   * @param {{ first: number, count: number }} span
   */
  stretch({ first, count }) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", this.place);
    geometry.setAttribute("normal", this.facing);
    geometry.setIndex(this.index);
    geometry.setDrawRange(first, count);
    return geometry;
  }

  /**
   * @param {string} kind
   * @param {import("three").Settings} more
   */
  material(kind, more = {}) {
    const { glass } = KINDS[kind];
    const [alpha, rim] = glass ?? [1, 0.28];
    const made = new ShaderMaterial({
      vertexShader: VERTEX,
      fragmentShader: glass ? GLASS : SOLID,
      uniforms: { ...this.inks, color: { value: [0, 0, 0] }, alpha: { value: alpha }, rim: { value: rim } },
      clipping: true,
      clippingPlanes: [this.plane],
      ...(glass ? CLEAR : SET_BACK),
      ...more,
    });
    made.userData = { kind };
    return made;
  }

  /**
   * @template {Shown} T
   * @param {T} mesh
   * @param {number} order
   * @returns {T}
   */
  put(mesh, order) {
    mesh.renderOrder = order;
    mesh.frustumCulled = false; // all of her is nearly always in the picture
    this.group.add(mesh);
    return mesh;
  }

  /** @param {string} kind */
  add(kind) {
    const bodies = this.bodies(kind);
    if (!bodies.some((one) => one.count)) return;
    const span = this.span(bodies);
    const { glass, solid, edge } = KINDS[kind];
    const isOut = OUTSIDE.includes(kind);
    const order = isOut ? SKIN + 1 : kind === "tank" ? 2 : glass ? 3 : 0;
    const geometry = this.stretch(span);
    // Of the skin only what is nearest is seen.
    if (isOut) this.put(new Mesh(geometry, this.material(kind, { colorWrite: false, depthWrite: true, ...SET_BACK })), SKIN);
    const mesh = new Mesh(geometry, this.material(kind, isOut ? { depthFunc: EqualDepth, ...SET_BACK } : {}));
    mesh.visible = Boolean(glass || solid);
    this.meshes.set(kind, this.put(mesh, order));
    if (!edge || !span.lines) return;
    this.put(isOut ? this.hairs(span, edge, kind) : this.inked(span, edge, kind), Math.max(order, 1));
  }

  /**
   * Edges in ink.
   * @param {{ line: number, lines: number }} span
   * @param {number} alpha
   * @param {string} kind
   */
  inked({ line, lines }, alpha, kind, wide = 1.2) {
    const ends = new Float32Array(3 * lines);
    for (let k = 0; k < lines; k += 1) {
      const corner = 3 * this.edges[line + k];
      for (let axis = 0; axis < 3; axis += 1) ends[3 * k + axis] = this.corners[corner + axis];
    }
    const material = new LineMaterial({ linewidth: wide, opacity: alpha, clippingPlanes: [this.plane], ...CLEAR });
    material.userData = { kind, isLine: true };
    return new LineSegments2(new LineSegmentsGeometry().setPositions(ends), material);
  }

  /**
   * Edges as thin as the screen has them: those of a skin are many.
   * @param {{ line: number, lines: number }} span
   * @param {number} alpha
   * @param {string} kind
   */
  hairs({ line, lines }, alpha, kind) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", this.place);
    geometry.setIndex(new BufferAttribute(this.edges.slice(line, line + lines), 1));
    const material = new LineBasicMaterial({ opacity: alpha, clippingPlanes: [this.plane], ...CLEAR });
    material.userData = { kind, isLine: true };
    return new LineSegments(geometry, material);
  }

  /** What has no shape: a small octahedron stands for it. */
  spots() {
    const bodies = this.bodies("point");
    if (!bodies.length) return;
    const size = SPOT * this.size;
    const corners = bodies.flatMap(({ place: [x, y, z] }) => [
      x + size, y, z, x - size, y, z, x, y + size, z, x, y - size, z, x, y, z + size, x, y, z - size,
    ]);
    const sides = [0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5];
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(corners), 3));
    geometry.setAttribute("normal", new BufferAttribute(new Float32Array(corners.length), 3));
    geometry.setIndex(bodies.flatMap((_, i) => sides.map((side) => 6 * i + side)));
    this.meshes.set("point", this.put(new Mesh(geometry, this.material("point")), 0));
  }

  /**
   * The water in a tank: its room as far as the water reaches; from both sides, so that what is open on top looks full.
   * @param {SolidBody} body
   * @param {number} number
   * @returns {Water}
   */
  water(body, number) {
    const [level, end] = [new Plane(), new Plane()];
    const water = this.material("part", { side: DoubleSide, clippingPlanes: [this.plane, level, end] });
    water.userData = { kind: "water" };
    return { mesh: this.put(new Mesh(this.stretch(body), water), 0), number, level, end };
  }

  /**
   * Fills bodies where they are cut: behind every point of the section it is counted how many were entered and not left.
   * @param {SolidBody[]} bodies that follow one another
   * @param {string} kind
   * @param {number} order
   * @param {Limit[]} limits of what is filled
   */
  fill(bodies, kind, order, limits = []) {
    if (!bodies.some((one) => one.count)) return;
    const ways = [{ side: BackSide, does: IncrementWrapStencilOp }, { side: FrontSide, does: DecrementWrapStencilOp }];
    for (const { side, does } of ways) {
      const counting = this.material("part", {
        side, colorWrite: false, depthWrite: false, depthTest: false, polygonOffset: false,
        stencilWrite: true, stencilFail: does, stencilZFail: does, stencilZPass: does,
      });
      this.filled.push(this.put(new Mesh(this.stretch(this.span(bodies)), counting), order));
    }
    const filling = new MeshBasicMaterial({ side: DoubleSide, stencilWrite: true, stencilRef: 0, stencilFunc: NotEqualStencilFunc, clippingPlanes: limits });
    filling.userData = { kind, isCut: true };
    const { low, high } = this.dive.bounds;
    const whole = 2 * MM * Math.max(high.y - low.y, high.z - low.z);
    const sheet = new Mesh(flat([[0, -whole, -whole], [0, whole, -whole], [0, whole, whole], [0, -whole, whole]]), filling);
    sheet.onAfterRender = (renderer) => renderer.clearStencil();
    this.filled.push(this.put(sheet, order + 1));
  }

  /**
   * In these inks.
   * @param {Record<string, Ink>} found
   */
  ink(found) {
    this.inks.ink.value = found.ink;
    this.inks.paper.value = found.paper;
    this.inks.sea.value = found.sea;
    this.group.traverse((one) => {
      if (!drawn(one) || !one.material.userData.kind) return;
      const color = colour(one.material.userData, found);
      if (one.material.uniforms?.color) one.material.uniforms.color.value = color;
      one.material.color?.setRGB(...color);
    });
  }

  /**
   * How she lies.
   * @param {Lie} lie
   */
  lies(lie) {
    const up = new Vector3(lie.up_x, lie.up_y, lie.up_z);
    const fore = new Vector3(1, 0, 0).addScaledVector(up, -lie.up_x).normalize();
    const port = up.clone().cross(fore);
    const middle = this.dive.middle * MM;
    this.group.matrix.set(
      fore.x, fore.y, fore.z, -fore.x * middle,
      port.x, port.y, port.z, -port.x * middle,
      up.x, up.y, up.z, -lie.water * MM,
      0, 0, 0, 1,
    );
    this.group.updateMatrixWorld(true);
    for (const water of this.waters) this.level(water, lie);
  }

  /** Her middle, as she lies. */
  get middle() {
    return new Vector3(this.dive.middle * MM, 0, 0).applyMatrix4(this.group.matrix);
  }

  /** Places all over her, as she lies. */
  get around() {
    return this.sample.map((place) => place.clone().applyMatrix4(this.group.matrix));
  }

  /**
   * How far the water in a tank reaches.
   * @param {Water} water
   * @param {Lie} lie
   */
  level({ mesh, number, level, end }, lie) {
    const { share, level: high } = lie.tanks[number];
    const tank = this.dive.tanks[number];
    for (const plane of [level, end]) plane.setComponents(0, 0, 1, UNCUT);
    mesh.visible = share > 1e-3;
    if (tank.end !== undefined && tank.run !== undefined) {
      const at = (tank.end + share * tank.run) * MM;
      end.setComponents(tank.run > 0 ? -1 : 1, 0, 0, tank.run > 0 ? at : -at);
    } else if (tank.kind === "open" && share < 0.999) {
      level.setComponents(-lie.up_x, -lie.up_y, -lie.up_z, high * MM);
    } else mesh.visible = share > 0.5;
    for (const plane of [level, end]) plane.applyMatrix4(this.group.matrix);
  }

  /**
   * Shows only what lies aft of a place [m], or forward of it; all of her for null.
   * @param {number | null} x
   * @param {boolean} isFore
   */
  cut(x, isFore) {
    if (x === null) this.plane.setComponents(0, 0, 1, UNCUT);
    else this.plane.setComponents(isFore ? 1 : -1, 0, 0, isFore ? -x : x).applyMatrix4(this.group.matrix);
    this.inks.cut.value = x ?? UNCUT;
    for (const mesh of this.filled) {
      mesh.visible = x !== null;
      if (mesh.material.userData.isCut) mesh.position.x = x ?? 0;
    }
  }

  /**
   * The body that a ray has met.
   * @param {import("three").Hit} hit
   */
  of({ object, faceIndex }) {
    const bodies = this.bodies(object.material.userData.kind ?? "");
    const at = 3 * faceIndex;
    if (bodies[0]?.kind === "point") return bodies[Math.floor(at / 24)];
    return bodies.find((one) => at >= one.first && at < one.first + one.count) ?? null;
  }

  /**
   * Marks a thing; none for "".
   * @param {string} path
   */
  mark(path) {
    for (const one of this.marked) {
      this.group.remove(one);
      one.geometry.dispose();
      one.material.dispose();
    }
    const found = this.head.bodies.filter((one) => one.path === path && one.kind !== "bore");
    this.marked = found.flatMap((body) => (body.count ? this.outlined(body) : this.spot(body)));
    for (const one of this.marked) one.material.userData.isPicked = true;
  }

  /** @param {SolidBody} body */
  outlined(body) {
    const isGlass = !KINDS[body.kind].solid;
    const mesh = new Mesh(this.stretch(body), this.material(isGlass ? "hollow" : "part"));
    const line = this.inked(body, 1, body.kind, 2.4);
    line.material.depthTest = false;
    return [this.put(mesh, isGlass ? SKIN + 2 : 0.5), this.put(line, SKIN + 3)];
  }

  /** @param {SolidBody} body a bare point */
  spot(body) {
    const all = this.meshes.get("point")?.geometry;
    if (!all?.index) return [];
    const geometry = new BufferGeometry();
    for (const name of ["position", "normal"]) geometry.setAttribute(name, all.getAttribute(name));
    geometry.setIndex(all.index);
    geometry.setDrawRange(24 * this.bodies("point").indexOf(body), 24);
    return [this.put(new Mesh(geometry, this.material("point", { depthTest: false, transparent: true })), SKIN + 3)];
  }

  dispose() {
    this.group.traverse((one) => {
      if (!drawn(one)) return;
      one.geometry.dispose();
      one.material.dispose();
    });
  }
}

/**
 * @param {import("three").Object3D} one
 * @returns {one is Shown}
 */
function drawn(one) {
  return one instanceof Mesh || one instanceof LineSegments;
}

/**
 * @param {SolidBody[]} bodies
 * @param {"count" | "lines"} what
 */
function sum(bodies, what) {
  return bodies.reduce((so, one) => so + one[what], 0);
}

/**
 * A flat sheet between four corners.
 * @param {number[][]} corners
 */
export function flat(corners) {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(new Float32Array(corners.flat()), 3));
  geometry.setIndex([0, 1, 2, 0, 2, 3]);
  return geometry;
}

/**
 * Some of many corners, the outmost among them.
 * @param {Float32Array} corners
 */
function sample(corners) {
  const count = corners.length / 3;
  const step = Math.max(1, Math.floor(count / SAMPLES));
  /** @type {Set<number>} */
  const found = new Set();
  for (let i = 0; i < count; i += step) found.add(i);
  for (let axis = 0; axis < 3; axis += 1) {
    let [low, high] = [0, 0];
    for (let i = 1; i < count; i += 1) {
      if (corners[3 * i + axis] < corners[3 * low + axis]) low = i;
      if (corners[3 * i + axis] > corners[3 * high + axis]) high = i;
    }
    found.add(low).add(high);
  }
  return [...found].map((i) => new Vector3(corners[3 * i], corners[3 * i + 1], corners[3 * i + 2]));
}

/**
 * Which way surfaces face at each corner.
 * @param {import("three").BufferAttribute} place
 * @param {import("three").BufferAttribute} index
 */
function normals(place, index) {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", place);
  geometry.setIndex(index);
  geometry.computeVertexNormals();
  return geometry.getAttribute("normal");
}
