// The boat in three dimensions on the drawing board: loaded when that is unfolded. Turned by mouse, touch and
// keys; drawn when something has changed and never else.

import { any, input, lost, one, refuse, where, Working } from "../dom.js";
import { far, howFull } from "../figures.js";
import { ROOT } from "../root.js";
import { inks } from "./solid_ink.js";

const STEP = 5; // degrees an arrow key turns her; with Shift it moves her
const MOVED = 0.08; // of the picture's height
const TURNED = 0.3; // degrees a pixel of the pointer
const CLOSER = 1.2; // times
const PRESS = 4; // pixels that the pointer may move in a press
const SCHEMES = ["(prefers-color-scheme: dark)", "(forced-colors: active)", "(prefers-contrast: more)"];
/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

let isOpen = false; // unfolded, as the builder left it

const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", href: `${ROOT}/static/places/solid.css` });
document.head.append(sheet);

class BoardSolid extends Working {
  /** @type {import("./solid_scene.js").Solid | null} */
  solid = null;
  frame = 0; // asked of the browser
  of = ""; // state of her file that is shown
  isSeen = true; // and not scrolled away
  isDue = false; // to be drawn when it is seen again
  /** @type {Map<number, PointerEvent>} */
  held = new Map(); // pointers that are down, where they were last
  moved = 0; // pixels since it was pressed

  /** @param {AbortSignal} signal */
  begin(signal) {
    this.fold = /** @type {HTMLDetailsElement} */ (this.closest("details"));
    this.canvas = one(this, "canvas", HTMLCanvasElement);
    this.section = one(this, ".section", HTMLInputElement);
    this.tanks = any(this, ".filling", HTMLInputElement);
    this.listen(this.canvas, signal);
    isOpen ||= this.fold.open;
    this.fold.open = isOpen;
    if (isOpen) this.open();
  }

  disconnectedCallback() {
    super.disconnectedCallback();
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.of = "";
    this.solid?.dispose();
    this.solid = null;
  }

  get boat() {
    return /** @type {{ boat: Boat }} */ (/** @type {unknown} */ (one(document, "boat-drawing", HTMLElement))).boat;
  }

  /**
   * @param {HTMLCanvasElement} canvas
   * @param {AbortSignal} signal
   */
  listen(canvas, signal) {
    const until = { signal };
    this.fold?.addEventListener("toggle", () => {
      isOpen = this.fold?.open ?? false;
      if (isOpen) this.open();
    }, until);
    canvas.addEventListener("pointerdown", (event) => this.down(event), until);
    canvas.addEventListener("pointermove", (event) => this.move(event), until);
    canvas.addEventListener("pointerup", (event) => this.up(event), until);
    canvas.addEventListener("pointercancel", (event) => this.held.delete(event.pointerId), until);
    canvas.addEventListener("pointerleave", () => this.name(null), until);
    canvas.addEventListener("keydown", (event) => this.key(event), until);
    canvas.addEventListener("contextmenu", (event) => event.preventDefault(), until);
    canvas.addEventListener("webglcontextlost", (event) => event.preventDefault(), until);
    canvas.addEventListener("webglcontextrestored", () => this.ask(), until);
    canvas.addEventListener("wheel", (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      this.closer(CLOSER ** (-event.deltaY / 100));
    }, { signal, passive: false });
    this.addEventListener("click", (event) => this.pressed(event), until);
    this.section?.addEventListener("input", () => this.cut(), until);
    this.tanks?.addEventListener("input", () => this.fill("input"), until);
    this.tanks?.addEventListener("change", () => this.fill("change"), until);
    this.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && where(event, "input", HTMLInputElement)) event.preventDefault(); // the form is not sent
    }, until);
    document.addEventListener("lies", ({ detail }) => this.lies(detail.lie), until);
    document.addEventListener("picked", ({ detail }) => this.pick(detail), until);
    document.addEventListener("focusin", (event) => {
      const row = where(event, ".pieces tr[data-path]", HTMLElement);
      if (row) this.pick(row.dataset.path ?? "");
    }, until);
    for (const scheme of SCHEMES) matchMedia(scheme).addEventListener("change", () => this.ink(), until);
    const sizes = new ResizeObserver(() => this.fit());
    sizes.observe(canvas);
    const sights = new IntersectionObserver((found) => {
      this.isSeen = found[found.length - 1].isIntersecting;
      if (this.isSeen && this.isDue) this.ask();
    });
    sights.observe(canvas);
    signal.addEventListener("abort", () => [sizes, sights].forEach((one) => one.disconnect()));
  }

  async open() {
    if (!this.canvas) return;
    this.follow(this.boat.lie);
    if (!this.solid) {
      const context = this.canvas.getContext("webgl2", { antialias: true, stencil: true, alpha: false });
      if (!context) {
        this.classList.add("without");
        return;
      }
      const { Solid } = await import("./solid_scene.js");
      if (!this.isConnected || this.solid) return;
      this.solid = new Solid(this.canvas, context);
    }
    const of = `${input(document, "revision").value} ${document.cookie}`;
    if (of === this.of) return this.fit();
    const block = await this.block(of);
    if (!block || !this.solid) return;
    this.of = of;
    this.solid.fill(block, this.boat.dive, this.boat.lie, inks(this));
    this.cut();
    this.fit();
    this.classList.add("shown");
    this.tell();
  }

  /** @param {string} of */
  async block(of) {
    try {
      const answer = await fetch(`${ROOT}/board/solid?${new URLSearchParams({ of })}`);
      if (answer.ok) return await answer.arrayBuffer();
      refuse(await answer.text());
    } catch {
      lost();
    }
    return null;
  }

  /** One picture, at the browser's next. */
  ask() {
    this.isDue = true;
    if (this.frame || !this.isSeen || !this.fold?.open) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.isDue = false;
      this.solid?.draw();
    });
  }

  fit() {
    if (!this.solid || !this.canvas?.clientWidth) return;
    this.solid.fits(this.canvas.clientWidth, this.canvas.clientHeight);
    this.ask();
  }

  ink() {
    if (!this.solid?.bodies) return;
    this.solid.pick(this.solid.picked, inks(this));
    this.ask();
  }

  /** @param {Lie} lie */
  lies(lie) {
    this.follow(lie);
    if (!this.solid?.bodies) return;
    this.solid.lies(lie);
    this.ask();
  }

  /** @param {Lie} lie */
  follow({ filling }) {
    if (this.tanks && document.activeElement !== this.tanks) this.tanks.value = String(filling);
    this.full();
  }

  /** The slider of her tanks here is the one under the boat. @param {string} how */
  fill(how) {
    const slider = any(document, "input[name=filling]", HTMLInputElement);
    if (!slider || !this.tanks) return;
    slider.value = this.tanks.value;
    slider.dispatchEvent(new Event(how, { bubbles: true }));
    this.full();
  }

  full() {
    const { tanks } = this;
    if (!tanks) return;
    const says = `${howFull(Number(tanks.value), this.boat.dive)} full`;
    one(this, ".full", HTMLElement).textContent = says;
    tanks.setAttribute("aria-valuetext", says);
  }

  /** Where she is cut, as the slider stands; at its end she is whole. */
  cut() {
    const { section, solid } = this;
    if (!section || !solid?.bodies) return;
    const { bounds: { low, high } } = this.boat.dive;
    const share = Number(section.value) / Number(section.max);
    const isWhole = share >= 1;
    const x = low.x + share * (high.x - low.x);
    solid.cut(isWhole ? null : x / 1000);
    const from = this.dataset.fromEnd ?? "stern";
    const along = from === "bow" ? Number(this.dataset.length) - x : x;
    const part = solid.isFore ? "forward" : "aft";
    const says = isWhole ? "whole" : `${far(along, this.boat.dive)} from the ${from}, ${part} of it`;
    one(this, ".at", HTMLElement).textContent = says;
    section.setAttribute("aria-valuetext", says);
    this.ask();
  }

  /** @param {MouseEvent} event */
  pressed(event) {
    const button = where(event, "button[data-view]", HTMLButtonElement);
    const { solid } = this;
    if (!button || !solid) return;
    const does = button.dataset.view;
    if (does === "in") this.closer(CLOSER);
    if (does === "out") this.closer(1 / CLOSER);
    if (does === "reset") this.reset();
    if (does === "other") {
      solid.cut(solid.cutting, !solid.isFore);
      this.cut();
    }
  }

  reset() {
    this.solid?.view.first();
    this.solid?.whole();
    this.changed();
  }

  /** @param {number} times */
  closer(times) {
    this.solid?.view.nearer(times);
    this.changed();
  }

  /** She is seen otherwise now. */
  changed() {
    this.ask();
    one(this, ".seen", HTMLElement).setAttribute("aria-live", "polite");
    this.tell();
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const { solid } = this;
    if (!solid || event.ctrlKey || event.metaKey || event.altKey) return;
    const way = ARROWS[event.key];
    if (way && event.shiftKey) solid.view.move(way[0] * MOVED, way[1] * MOVED);
    else if (way) solid.view.turn(-way[0] * STEP, -way[1] * STEP);
    else if (event.key === "+" || event.key === "=") solid.view.nearer(CLOSER);
    else if (event.key === "-") solid.view.nearer(1 / CLOSER);
    else if (event.key === "Home") {
      event.preventDefault();
      return this.reset();
    } else return;
    event.preventDefault();
    this.changed();
  }

  /** @param {PointerEvent} event */
  down(event) {
    if (!this.solid?.bodies) return;
    this.canvas?.setPointerCapture(event.pointerId);
    if (!this.held.size) this.moved = 0;
    this.held.set(event.pointerId, event);
  }

  /** @param {PointerEvent} event */
  move(event) {
    const { solid, canvas } = this;
    const last = this.held.get(event.pointerId);
    if (!solid || !canvas) return;
    if (!last) return this.name(this.body(event));
    const [x, y] = [event.clientX - last.clientX, event.clientY - last.clientY];
    this.moved += Math.hypot(x, y);
    const other = [...this.held.entries()].find(([id]) => id !== event.pointerId)?.[1];
    this.held.set(event.pointerId, event);
    const tall = canvas.clientHeight;
    if (other) {
      const [was, is] = [last, event].map((at) => Math.hypot(at.clientX - other.clientX, at.clientY - other.clientY));
      if (was > 0 && is > 0) solid.view.nearer(is / was);
      solid.view.move(x / tall / 2, -y / tall / 2);
    } else if (event.shiftKey || event.buttons & 6) solid.view.move(x / tall, -y / tall);
    else solid.view.turn(-x * TURNED, y * TURNED);
    this.ask();
    this.tell();
  }

  /** @param {PointerEvent} event */
  up(event) {
    const isPress = this.held.size === 1 && this.moved <= PRESS;
    this.held.delete(event.pointerId);
    if (isPress && event.button === 0) this.choose(this.body(event)?.path ?? "");
    else this.changed();
  }

  /** @param {MouseEvent} event */
  body(event) {
    const box = this.canvas?.getBoundingClientRect();
    return box && this.solid ? this.solid.at((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height) : null;
  }

  /**
   * Takes a thing in hand, as pressing it in the drawing does.
   * @param {string} path
   */
  choose(path) {
    if (!path) return;
    const list = any(document, "select[name=picked]", HTMLSelectElement);
    if (list && [...list.options].some((option) => option.value === path)) {
      list.value = path;
      list.dispatchEvent(new Event("change", { bubbles: true }));
    } else document.dispatchEvent(new CustomEvent("picked", { detail: path }));
  }

  /** @param {string} path */
  pick(path) {
    if (!this.solid?.bodies) return;
    this.solid.pick(path, inks(this));
    this.ask();
    this.tell();
  }

  /** @param {SolidBody | null} body */
  name(body) {
    one(this, ".named", HTMLElement).textContent = body ? [body.name, body.says].filter(Boolean).join(": ") : "";
  }

  /** In words, what is seen. */
  tell() {
    const { solid } = this;
    if (!solid?.bodies) return;
    const words = solid.view.words();
    const body = solid.bodies.head.bodies.find((one) => one.path === solid.picked);
    one(this, ".seen", HTMLElement).textContent = `She is ${words}${body ? `; ${body.name} is chosen` : ""}.`;
  }
}

customElements.define("board-solid", BoardSolid);
