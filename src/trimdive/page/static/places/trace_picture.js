// A picture in squares, at any zoom: those that are seen are fetched, coarser ones stand
// in their place until they are there. Places in the picture are pixels to the right and down.

import { ROOT } from "../root.js";

const SIDE = 512; // of a square, in pixels of its own level; see tiles.py
const KEPT = 160; // squares that are kept
const LARGEST = 32; // pixels of the window to one of the picture
const STEP = 1.25; // of one press of a key

/** @typedef {{ x: number, y: number }} Place */

export class Picture {
  zoom = 1; // pixels of the window to one of the picture
  x = 0; // of the picture, at the left edge of the window
  y = 0;
  /** @type {Map<string, HTMLImageElement>} */
  squares = new Map();

  /**
   * @param {HTMLCanvasElement} canvas
   * @param {[number, number]} size of the whole picture
   * @param {string} tiles where its squares are asked for
   * @param {() => void} changed called when something else is to be seen
   */
  constructor(canvas, size, tiles, changed) {
    this.canvas = canvas;
    this.size = size;
    this.tiles = tiles;
    this.changed = changed;
  }

  get wide() {
    return this.canvas.clientWidth || 1;
  }

  get high() {
    return this.canvas.clientHeight || 1;
  }

  /** Shows all of it. */
  whole() {
    const [wide, high] = this.size;
    this.zoom = Math.min(this.wide / wide, this.high / high) * 0.97;
    this.x = (wide - this.wide / this.zoom) / 2;
    this.y = (high - this.high / this.zoom) / 2;
    this.changed();
  }

  /**
   * @param {number} by
   * @param {Place} about in the window, which stays where it is
   */
  nearer(by, about = { x: this.wide / 2, y: this.high / 2 }) {
    const least = Math.min(this.wide / this.size[0], this.high / this.size[1]) / 2;
    const at = this.from(about);
    this.zoom = Math.min(Math.max(this.zoom * by, least), LARGEST);
    this.x = at.x - about.x / this.zoom;
    this.y = at.y - about.y / this.zoom;
    this.changed();
  }

  /** @param {1 | -1} way */
  step(way) {
    this.nearer(STEP ** way);
  }

  /**
   * @param {number} right in the window
   * @param {number} down
   */
  slide(right, down) {
    this.x -= right / this.zoom;
    this.y -= down / this.zoom;
    this.changed();
  }

  /**
   * Slides as far as it takes to see a place.
   * @param {Place} place in the picture
   */
  see(place) {
    const edge = 30;
    const { x, y } = this.to(place);
    const right = Math.max(edge - x, 0) + Math.min(this.wide - edge - x, 0);
    const down = Math.max(edge - y, 0) + Math.min(this.high - edge - y, 0);
    if (right || down) this.slide(right, down);
  }

  /**
   * @param {Place} place in the picture
   * @returns {Place} in the window
   */
  to(place) {
    return { x: (place.x - this.x) * this.zoom, y: (place.y - this.y) * this.zoom };
  }

  /**
   * @param {Place} place in the window
   * @returns {Place} in the picture
   */
  from(place) {
    return { x: this.x + place.x / this.zoom, y: this.y + place.y / this.zoom };
  }

  draw() {
    const fine = devicePixelRatio || 1;
    const { canvas } = this;
    if (canvas.width !== Math.round(this.wide * fine)) canvas.width = Math.round(this.wide * fine);
    if (canvas.height !== Math.round(this.high * fine)) canvas.height = Math.round(this.high * fine);
    const pen = canvas.getContext("2d");
    if (!pen) return;
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.clearRect(0, 0, canvas.width, canvas.height);
    const scale = this.zoom * fine;
    pen.setTransform(scale, 0, 0, scale, -this.x * scale, -this.y * scale);
    pen.imageSmoothingEnabled = scale < 2;
    this.paint(pen, this.from({ x: 0, y: 0 }), this.from({ x: this.wide, y: this.high }), this.levelAt(scale));
  }

  /** @param {number} scale */
  levelAt(scale) {
    return Math.min(Math.max(Math.floor(Math.log2(1 / scale)), 0), this.coarsest);
  }

  get coarsest() {
    return Math.max(Math.ceil(Math.log2(Math.max(...this.size) / SIDE)), 0);
  }

  /**
   * @param {CanvasRenderingContext2D} pen that draws in pixels of the picture
   * @param {Place} low upper left corner of what is seen
   * @param {Place} high lower right one
   * @param {number} level
   */
  paint(pen, low, high, level) {
    const levels = [...new Set([this.coarsest, Math.min(level + 2, this.coarsest), level])];
    for (const one of levels) {
      const side = SIDE * 2 ** one;
      const last = [Math.ceil(this.size[0] / side) - 1, Math.ceil(this.size[1] / side) - 1];
      for (let down = Math.max(Math.floor(low.y / side), 0); down <= Math.min(Math.floor(high.y / side), last[1]); down += 1) {
        for (let across = Math.max(Math.floor(low.x / side), 0); across <= Math.min(Math.floor(high.x / side), last[0]); across += 1) {
          const square = this.square(one, across, down);
          if (square) pen.drawImage(square, across * side, down * side, square.naturalWidth * 2 ** one, square.naturalHeight * 2 ** one);
        }
      }
    }
  }

  /**
   * A square that is there; one that is not is asked for.
   * @param {number} level
   * @param {number} across
   * @param {number} down
   */
  square(level, across, down) {
    const key = `level=${level}&across=${across}&down=${down}`;
    const there = this.squares.get(key);
    if (there) {
      this.squares.delete(key); // and is the last again
      this.squares.set(key, there);
      return there.complete && there.naturalWidth ? there : null;
    }
    const image = new Image();
    image.onload = () => this.changed();
    image.src = `${ROOT}${this.tiles}?${key}`;
    this.squares.set(key, image);
    for (const old of this.squares.keys()) {
      if (this.squares.size <= KEPT) break;
      this.squares.delete(old);
    }
    return null;
  }

  /** Whether all that is seen is there. */
  get isWhole() {
    return [...this.squares.values()].every((image) => image.complete);
  }
}

const TIMES = 8; // by which the loupe is larger than the picture
const GAP = 28; // from the pointer to the loupe

/**
 * The loupe beside a place in the window: the picture's own pixels, with a cross.
 * @param {HTMLCanvasElement} loupe
 * @param {Picture} picture
 * @param {Place | null} at in the window; null where there is none
 */
export function drawLoupe(loupe, picture, at) {
  loupe.hidden = at === null || picture.zoom >= TIMES;
  if (!at || loupe.hidden) return;
  const side = loupe.clientWidth || 1;
  const fine = devicePixelRatio || 1;
  loupe.width = loupe.height = Math.round(side * fine);
  const right = at.x + GAP + side < picture.wide ? at.x + GAP : at.x - GAP - side;
  const down = at.y + GAP + side < picture.high ? at.y + GAP : at.y - GAP - side;
  loupe.style.transform = `translate(${right}px, ${down}px)`;
  const pen = loupe.getContext("2d");
  if (!pen) return;
  const middle = picture.from(at);
  const half = side / TIMES / 2;
  const scale = TIMES * fine;
  pen.setTransform(scale, 0, 0, scale, (half - middle.x) * scale, (half - middle.y) * scale);
  pen.imageSmoothingEnabled = false;
  picture.paint(pen, { x: middle.x - half, y: middle.y - half }, { x: middle.x + half, y: middle.y + half }, 0);
  pen.setTransform(fine, 0, 0, fine, 0, 0);
  pen.strokeStyle = getComputedStyle(loupe).color;
  pen.beginPath();
  for (const [x, y] of [[1, 0], [0, 1]]) {
    pen.moveTo(side / 2 - (x * side) / 2, side / 2 - (y * side) / 2);
    pen.lineTo(side / 2 - x * 6, side / 2 - y * 6);
    pen.moveTo(side / 2 + x * 6, side / 2 + y * 6);
    pen.lineTo(side / 2 + (x * side) / 2, side / 2 + (y * side) / 2);
  }
  pen.stroke();
}
