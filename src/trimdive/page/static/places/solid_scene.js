// The picture in three dimensions: she is moved as she lies, the water is still. It is drawn only when it is
// asked for.

import { Bodies, CLEAR, flat, MM } from "./solid_bodies.js";
import { DEEPER } from "./solid_kinds.js";
import { three } from "./solid_three.js";
import { View } from "./solid_view.js";

const {
  Color, DoubleSide, LineMaterial, LineSegments2, LineSegmentsGeometry, Mesh, MeshBasicMaterial, Raycaster, Scene, Vector2,
  WebGLRenderer,
} = three;

/** @typedef {import("./solid_ink.js").Ink} Ink */

const BESIDE = 0.1; // of her length: water shown at either end of her
const BROAD = 0.17; // of her length: water shown at either side of her middle
const WATER = 20; // when the water is drawn: over all but the skin
const SHARPEST = 2; // dots of the screen in a pixel, at most

export class Solid {
  /**
   * @param {HTMLCanvasElement} canvas
   * @param {WebGL2RenderingContext} context
   */
  constructor(canvas, context) {
    this.renderer = new WebGLRenderer({ canvas, context, antialias: true, stencil: true });
    this.renderer.outputColorSpace = "srgb-linear"; // inks come as they are shown
    this.renderer.localClippingEnabled = true;
    this.scene = new Scene();
    this.view = new View();
    /** @type {Bodies | null} */
    this.bodies = null;
    /** @type {import("three").Mesh[]} */
    this.water = [];
    /** @type {number | null} */
    this.cutting = null; // place of the section along her [m]
    this.isFore = false; // whether the part forward of it is shown
    this.picked = "";
    this.drawn = 0; // pictures so far
  }

  /**
   * Her bodies, in place of those before.
   * @param {ArrayBuffer} block
   * @param {Dive} dive
   * @param {Lie} lie
   * @param {Record<string, Ink>} inks
   */
  fill(block, dive, lie, inks) {
    const before = this.bodies;
    this.empty();
    this.bodies = new Bodies(block, dive);
    this.scene.add(this.bodies.group);
    this.spread(dive);
    this.bodies.lies(lie);
    if (before) this.view.follow(before.middle, this.bodies);
    else this.view.whole(this.bodies.around);
    this.cut(this.cutting, this.isFore);
    this.pick(this.picked, inks);
  }

  /**
   * The surface of the water, still, and its edge.
   * @param {Dive} dive
   */
  spread({ bounds: { low, high }, middle }) {
    const long = high.x - low.x;
    const [aft, fore] = [low.x - middle - BESIDE * long, high.x - middle + BESIDE * long].map((x) => x * MM);
    const half = BROAD * long * MM;
    const corners = [[aft, -half, 0], [fore, -half, 0], [fore, half, 0], [aft, half, 0]];
    const surface = new Mesh(flat(corners), new MeshBasicMaterial({ side: DoubleSide, opacity: 0.13, ...CLEAR }));
    const ends = [0, 1, 1, 2, 2, 3, 3, 0].flatMap((k) => corners[k]);
    const edge = new LineMaterial({ linewidth: 1.4, opacity: 0.8, ...CLEAR });
    this.water = [surface, new LineSegments2(new LineSegmentsGeometry().setPositions(ends), edge)];
    for (const one of this.water) {
      one.renderOrder = WATER;
      one.frustumCulled = false;
      this.scene.add(one);
    }
  }

  empty() {
    this.bodies?.dispose();
    for (const one of this.water) {
      one.geometry.dispose();
      one.material.dispose();
    }
    this.scene.clear();
    this.bodies = null;
  }

  /** @param {Lie} lie */
  lies(lie) {
    const { bodies } = this;
    if (!bodies || bodies.waters.length !== lie.tanks.length) return; // her new bodies are on their way
    const before = bodies.middle;
    bodies.lies(lie);
    this.view.follow(before, bodies);
    bodies.cut(this.cutting, this.isFore);
  }

  /**
   * Shows only what lies aft of a place [m], or forward of it; all of her for null.
   * @param {number | null} x
   */
  cut(x, isFore = this.isFore) {
    this.cutting = x;
    this.isFore = isFore;
    this.bodies?.cut(x, isFore);
  }

  /**
   * Marks a thing; none for "". All is in these inks then.
   * @param {string} path
   * @param {Record<string, Ink>} inks
   */
  pick(path, inks) {
    this.picked = path;
    this.bodies?.mark(path);
    this.bodies?.ink(inks);
    for (const one of this.water) one.material.color?.setRGB(...inks.sea);
    this.renderer.setClearColor(new Color().setRGB(...inks.paper), 1);
  }

  /**
   * The picture is so large.
   * @param {number} width pixels
   * @param {number} height pixels
   */
  fits(width, height) {
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, SHARPEST));
    this.renderer.setSize(width, height, false);
    this.view.camera.aspect = width / height;
    if (!this.drawn) this.view.first();
    this.whole();
  }

  /** All of her is seen. */
  whole() {
    if (this.bodies) this.view.whole(this.bodies.around);
  }

  draw() {
    if (!this.bodies) return;
    this.view.set(this.bodies.size);
    this.renderer.render(this.scene, this.view.camera);
    this.drawn += 1;
  }

  /**
   * What is seen at a point of the picture: what lies inside before what is round it.
   * @param {number} x of its width, from the left
   * @param {number} y of its height, from above
   * @returns {SolidBody | null}
   */
  at(x, y) {
    const { bodies } = this;
    if (!bodies) return null;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2(2 * x - 1, 1 - 2 * y), this.view.camera);
    for (const kinds of DEEPER) {
      const meshes = kinds.flatMap((kind) => bodies.meshes.get(kind) ?? []);
      const hit = ray.intersectObjects(meshes, false).find((one) => bodies.plane.distanceToPoint(one.point) >= 0);
      if (hit) return bodies.of(hit);
    }
    return null;
  }

  dispose() {
    this.empty();
    this.renderer.dispose();
    this.renderer.forceContextLoss();
  }
}
