// From where she is seen: about which point, how far round, how high and how far off.

import { three } from "./solid_three.js";

const { PerspectiveCamera, Vector3 } = three;

const SPREAD = 22; // degrees of the picture's height
const ROUND = 28; // degrees from abeam towards the bow at which she is seen first
const NARROW = { aspect: 1.8, round: 50 }; // in a picture less broad, from farther ahead: she is long
const HIGH = 18; // and above level
const STEEP = 89; // degrees: never quite from straight above, where it has no right and left
const ROUNDS = 4; // of looking where she is
const AIR = 1.07; // times the room that she takes
const [NEAREST, FARTHEST] = [0.08, 4]; // times the distance at which all of her is seen

const PARTS = ["bow", "starboard bow", "starboard side", "starboard quarter", "stern", "port quarter", "port side", "port bow"];

/** @param {number} degrees */
const rad = (degrees) => (degrees * Math.PI) / 180;

export class View {
  round = ROUND; // degrees from abeam to starboard, towards the bow
  high = HIGH; // degrees above level
  zoom = 1;
  far = 0; // distance at which all of her is seen [m]
  about = new Vector3(); // the middle of the picture while all of her is seen
  shift = new Vector3(); // how far it was moved from there
  camera = new PerspectiveCamera(SPREAD, 1, 0.1, 100);

  /** As she is seen first. */
  first() {
    this.round = this.camera.aspect < NARROW.aspect ? NARROW.round : ROUND;
    this.high = HIGH;
    this.zoom = 1;
    this.shift.set(0, 0, 0);
  }

  /**
   * @param {number} round degrees
   * @param {number} up degrees
   */
  turn(round, up) {
    this.round = (((this.round + round) % 360) + 360) % 360;
    this.high = Math.min(Math.max(this.high + up, -STEEP), STEEP);
  }

  /** @param {number} times */
  nearer(times) {
    this.zoom = Math.min(Math.max(this.zoom * times, 1 / FARTHEST), 1 / NEAREST);
  }

  /**
   * Moves her across the picture.
   * @param {number} right of its height
   * @param {number} up of its height
   */
  move(right, up) {
    const tall = (2 * Math.tan(rad(SPREAD / 2)) * this.far) / this.zoom;
    const { x: across, y: above } = this.sides();
    this.shift.addScaledVector(across, -right * tall).addScaledVector(above, -up * tall);
  }

  /** What is right, up and towards the eye in the picture. */
  sides() {
    const [round, high] = [rad(this.round), rad(this.high)];
    return {
      x: new Vector3(Math.cos(round), Math.sin(round), 0),
      y: new Vector3(-Math.sin(round) * Math.sin(high), Math.cos(round) * Math.sin(high), Math.cos(high)),
      z: new Vector3(Math.sin(round) * Math.cos(high), -Math.cos(round) * Math.cos(high), Math.sin(high)),
    };
  }

  /**
   * Stands off so far that all of her is in the picture; never nearer by itself.
   * @param {import("three").Vector3[]} places all over her [m]
   */
  fit(places) {
    const { right, up } = this.spans(places);
    for (const { off } of [right, up]) this.far = Math.max(this.far, off);
  }

  /**
   * The eye goes up and down with her, so that it is the water that moves in the picture.
   * @param {import("three").Vector3} before where her middle was
   * @param {{ middle: import("three").Vector3, around: import("three").Vector3[] }} her
   */
  follow(before, { middle, around }) {
    this.about.add(middle).sub(before);
    if (this.zoom === 1) this.fit(around);
  }

  /**
   * Stands off so far, and looks at such a place, that she fills the picture.
   * @param {import("three").Vector3[]} places all over her [m]
   */
  whole(places) {
    const { x, y } = this.sides();
    this.about.set(0, 0, 0);
    for (const place of places) this.about.addScaledVector(place, 1 / places.length);
    for (let round = 0; round < ROUNDS; round += 1) {
      const { right, up } = this.spans(places);
      this.far = Math.max(right.off, up.off);
      this.about.addScaledVector(x, right.aside).addScaledVector(y, up.aside);
    }
  }

  /**
   * How far off she must be seen for her breadth and for her height, and how far she is aside of the middle.
   * @param {import("three").Vector3[]} places
   */
  spans(places) {
    const { x, y, z } = this.sides();
    const tall = Math.tan(rad(SPREAD / 2)) / AIR;
    return { right: this.span(places, x, z, tall * this.camera.aspect), up: this.span(places, y, z, tall) };
  }

  /**
   * @param {import("three").Vector3[]} places
   * @param {import("three").Vector3} way
   * @param {import("three").Vector3} towards the eye
   * @param {number} half of the picture, at 1 m
   */
  span(places, way, towards, half) {
    let [under, over] = [-Infinity, -Infinity];
    for (const place of places) {
      const from = place.clone().sub(this.about);
      const [along, near] = [from.dot(way), from.dot(towards)];
      under = Math.max(under, -along / half + near);
      over = Math.max(over, along / half + near);
    }
    return { off: Math.max(under, over), aside: ((over - under) / 2) * half };
  }

  /** @param {number} size of all that is shown [m] */
  set(size) {
    const off = this.far / this.zoom;
    const at = this.about.clone().add(this.shift);
    this.camera.position.copy(at).addScaledVector(this.sides().z, off);
    this.camera.near = Math.max(off - size, off * 0.02);
    this.camera.far = off + size;
    this.camera.up.copy(this.sides().y);
    this.camera.lookAt(at);
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
  }

  /** From where, in words. */
  words() {
    const high = Math.round(this.high);
    const from = PARTS[Math.round((((90 - this.round) % 360) + 360) / 45) % 8];
    if (Math.abs(high) > 80) return high > 0 ? "seen from above" : "seen from below";
    return `seen from the ${from}${high ? `, ${Math.abs(high)}° from ${high > 0 ? "above" : "below"}` : ""}`;
  }
}
