// The boat on the page: the slider moves her between the states of the dive; on release the exact
// state is fetched. Nothing runs while nothing moves.

import { all, any, around, input, lost, one, refuse } from "./dom.js";
import { Drag } from "./drag.js";
import { Astern, Drawing } from "./drawing.js";
import { far, howFull, over, weighs } from "./figures.js";
import { between, turned } from "./interpolate.js";
import { ROOT } from "./root.js";
import { Track } from "./track.js";

const ONE = 0.02; // radians; way down and way up are one where she turns less between them
const LEVEL = 0.05; // degrees
const SNAP = 9; // pixels from the neutral mark at which the handle stops there

/** @typedef {{ lie: Lie, figures: string[], dive: Dive }} Before how she lay and what was told before a change */

export class Boat {
  /**
   * @param {HTMLElement} element
   * @param {AbortSignal} signal ends all that listens for her
   * @param {Before | null} before
   */
  constructor(element, signal, before) {
    this.element = element;
    this.signal = signal;
    this.form = around(element, "form", HTMLFormElement);
    this.scene = one(element, ".scene", SVGSVGElement);
    this.words = one(element, ".words", HTMLElement);
    /** @type {Dive} */
    this.dive = JSON.parse(one(element, ".dive", HTMLScriptElement).text);
    /** @type {Lie} */
    this.lie = JSON.parse(one(element, ".start", HTMLScriptElement).text);
    /** @type {Lie | null} */
    this.real = null; // how she lies while she is shown with a thing in hand somewhere else
    this.drawing = new Drawing(this.scene, this.dive);
    this.astern = new Astern(one(element, ".astern", SVGSVGElement), this.dive);
    this.slider = any(element, "input[name=filling]", HTMLInputElement);
    const track = any(element, ".track", SVGSVGElement);
    this.track = track && new Track(track, this.dive);
    this.isUp = false;
    this.isHeld = false; // the handle, by a pointer
    this.frame = 0;
    /** @type {AbortController | null} */
    this.asked = null;
    this.listen();
    this.fit();
    if (before) this.compare(before);
    this.drag = new Drag(this);
  }

  listen() {
    const until = { signal: this.signal };
    const once = { signal: this.signal, once: true };
    this.slider?.addEventListener("input", () => this.moved(), until);
    this.slider?.addEventListener("change", () => this.released(), until);
    this.slider?.addEventListener("pointerdown", () => (this.isHeld = true), until);
    this.slider?.addEventListener("pointerup", () => (this.isHeld = false), until);
    this.slider?.addEventListener("keydown", (event) => {
      if (event.key === "Enter") event.preventDefault();
    }, until);
    this.scene.addEventListener("dblclick", () => this.fit(), until); // as large as she fits, on asking
    this.scene.addEventListener("pointerenter", () => this.cut(), once);
    this.astern.svg.addEventListener("focus", () => this.cut(), once);
    const sizes = new ResizeObserver(() => this.fit());
    sizes.observe(this.scene);
    this.signal.addEventListener("abort", () => {
      sizes.disconnect();
      this.asked?.abort();
    });
  }

  /**
   * Shows her with a thing in hand somewhere else.
   * @param {Trial} view
   * @param {string[]} along
   */
  trial(view, along) {
    this.drawing.haunt(this.real ??= this.lie);
    this.show(view.lie);
    this.drawing.shiftTanks(along, view.shift);
    this.track?.trial(view.curve);
    this.tell(view);
  }

  untried() {
    if (!this.real) return;
    this.drawing.shiftTanks([], { x: 0, z: 0 });
    this.drawing.ghost.replaceChildren();
    this.track?.trial(null);
    this.show(this.real);
    this.real = null;
    this.released();
  }

  /** Sections are loaded once she is pointed at. */
  async cut() {
    await import("./section.js");
    this.show(this.lie);
  }

  fit() {
    this.drawing.fit();
    this.track?.fit();
    this.show(this.lie);
  }

  /** @param {Lie} lie */
  show(lie) {
    this.lie = lie;
    this.drawing.show(lie);
    this.astern.show(lie);
    this.track?.show(lie);
    this.element.dispatchEvent(new CustomEvent("lies", { detail: this, bubbles: true })); // plan, section, gauges
  }

  /**
   * Where the pointer is in her own axes, as she is shown [mm].
   * @param {MouseEvent} event
   */
  aboard(event, matrix = this.screen()) {
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return { x, z: -y };
  }

  /** From the screen into her own axes. */
  screen() {
    return this.drawing.boat.getScreenCTM()?.inverse() ?? new DOMMatrix();
  }

  /**
   * She stays on the way she is on as long as the other lies elsewhere.
   * @param {number} filling
   */
  way(filling) {
    const [down, up] = [between(this.dive.down, filling), between(this.dive.up, filling)];
    const own = this.isUp ? up : down;
    if (turned(down, up) < ONE) this.isUp = filling < this.lie.filling;
    return own;
  }

  moved() {
    const { slider } = this;
    if (!slider) return;
    input(this.form, "touched").value = "1";
    slider.parentElement?.classList.add("touched");
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.snap(slider);
      const lie = this.way(Number(slider.value));
      input(this.form, "up").value = this.isUp ? "1" : "";
      this.show(lie);
      this.estimate(lie, slider);
    });
  }

  /**
   * Lets a handle that is dragged stop where she is neutral.
   * @param {HTMLInputElement} slider
   */
  snap(slider) {
    const { neutral } = this.dive;
    if (!this.isHeld || neutral === null || !this.track) return;
    if (Math.abs(this.track.x(Number(slider.value)) - this.track.x(neutral)) < SNAP) slider.value = String(neutral);
  }

  /**
   * @param {Lie} lie
   * @param {HTMLInputElement} slider
   */
  estimate(lie, slider) {
    const tip = Math.abs(lie.trim);
    const end = tip < LEVEL ? "level" : `${lie.trim > 0 ? "bow" : "stern"} down`;
    const lean = Math.abs(lie.heel);
    const way = lie.heel > 0 ? "starboard" : "port";
    const full = howFull(lie.filling, this.dive);
    const words = `About ${full} full${lean > LEVEL ? `, heel ${lean.toFixed(1)}° to ${way}` : ""}`;
    const { size, word } = weighs(lie, this.dive);
    this.fill([
      { large: `${tip.toFixed(1)}°`, word: "", says: end },
      { large: size, word, says: `${full} full` },
      { large: far(over(lie), this.dive), word: "", says: "as she lies" },
    ]);
    this.words.setAttribute("aria-busy", "true"); // read out when exact
    this.words.textContent = `${words} …`;
    slider.setAttribute("aria-valuetext", `${full} full, trim ${tip.toFixed(1)}° ${end}`);
    this.drawing.ghost.replaceChildren();
  }

  async released() {
    this.drawing.held = 0; // let go, she is shown as large as she fits
    this.asked?.abort();
    this.asked = new AbortController();
    const asked = new URLSearchParams({ filling: this.slider?.value ?? "", up: this.isUp ? "1" : "" });
    try {
      const answer = await fetch(`${ROOT}/state?${asked}`, { signal: this.asked.signal });
      if (!answer.ok) return refuse(await answer.text());
      /** @type {View & Stand} */
      const view = await answer.json();
      if (String(view.revision) !== input(this.form, "revision").value) return;
      cancelAnimationFrame(this.frame);
      this.frame = 0;
      this.show(view.lie);
      this.tell(view);
    } catch (error) {
      if (!(error instanceof DOMException && error.name === "AbortError")) lost();
    }
  }

  /** @param {View} view */
  tell(view) {
    this.words.textContent = view.words;
    this.words.removeAttribute("aria-busy");
    this.fill(view.figures);
  }

  /** @param {Figure[]} figures */
  fill(figures) {
    const shown = all(this.element, ".figures > div:not(.lean)", HTMLElement);
    figures.forEach((figure, i) => {
      one(shown[i], ".large", HTMLElement).textContent = figure.large;
      one(shown[i], ".word", HTMLElement).textContent = figure.word;
      one(shown[i], ".explained", HTMLElement).textContent = figure.says;
    });
  }

  figures() {
    return all(this.element, ".figures .value", HTMLElement).map((value) => value.textContent.replace(/\s+/g, " ").trim());
  }

  /** @returns {Before} */
  now() {
    return { lie: this.real ?? this.lie, figures: this.figures(), dive: this.dive };
  }

  /** @param {Before} before */
  compare(before) {
    this.drawing.haunt(before.lie);
    this.track?.was(before.dive);
    const now = this.figures();
    all(this.element, ".figures .was", HTMLElement).forEach((was, i) => {
      if (before.figures[i] !== now[i]) was.textContent = `was ${before.figures[i]}`;
    });
  }
}
