// The boat on the page: the slider moves her between the states of the dive; on release the exact
// state is fetched. Nothing runs while nothing moves.

import { all, any, around, input, lost, one, refuse } from "./dom.js";
import { Drag } from "./drag.js";
import { Astern, Drawing } from "./drawing.js";
import { figuresAt, howFull, trims, was } from "./figures.js";
import { between, turned } from "./interpolate.js";
import { ROOT } from "./root.js";
import { Track } from "./track.js";

const ONE = 0.02; // radians; way down and way up are one where she turns less between them
const UPRIGHT = 0.05; // degrees
const PAGE = 0.1; // of the slider: what page up and down move it
const ONE_STEP = 0.001; // of the slider
const SNAP = 9; // pixels from a mark at which the handle stops there

/**
 * How she lay before an answer, and her dives: the one shown, and the one before the last change.
 * @typedef {{ lie: Lie, text: string, dive: Dive, earlier: Dive | null, ghost: Lie | null }} Before
 */

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
    this.text = one(element, ".dive", HTMLScriptElement).text;
    /** @type {Dive} */
    this.dive = JSON.parse(this.text);
    /** @type {Dive | null} */
    this.earlier = null; // before the last change
    /** @type {Lie | null} */
    this.ghost = null; // how she lay then, until she is moved
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
    this.slider?.addEventListener("keydown", (event) => this.pressed(event), until);
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
    this.tell(view, this.dive);
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
   * By page up and down the handle stops where she is neutral, too.
   * @param {KeyboardEvent} event
   */
  pressed(event) {
    const [{ slider }, { neutral }] = [this, this.dive];
    if (event.key === "Enter") event.preventDefault();
    const far = { PageUp: PAGE, PageDown: -PAGE }[event.key];
    if (!far || !slider || neutral === null) return;
    const off = neutral - Number(slider.value);
    if (Math.abs(off) < ONE_STEP || off * far < 0 || Math.abs(off) > PAGE) return;
    event.preventDefault();
    slider.value = String(neutral);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    slider.dispatchEvent(new Event("change", { bubbles: true }));
  }

  /**
   * Lets a handle that is dragged stop at either end, and where she is neutral.
   * @param {HTMLInputElement} slider
   */
  snap(slider) {
    const { dive: { neutral }, track } = this;
    if (!this.isHeld || !track) return;
    /** @param {number} mark */
    const isNear = (mark) => Math.abs(track.x(Number(slider.value)) - track.x(mark)) < SNAP;
    const mark = [neutral ?? 0, 0, 1].find(isNear);
    if (mark !== undefined) slider.value = String(mark);
  }

  /**
   * @param {Lie} lie
   * @param {HTMLInputElement} slider
   */
  estimate(lie, slider) {
    const lean = Math.abs(lie.heel);
    const way = lie.heel > 0 ? "starboard" : "port";
    const full = howFull(lie.filling, this.dive);
    const words = `About ${full} full${lean > UPRIGHT ? `, heel ${lean.toFixed(1)}° to ${way}` : ""}`;
    const { large, word } = trims(lie);
    this.fill(figuresAt(lie, this.dive));
    this.was(lie);
    this.words.setAttribute("aria-busy", "true"); // read out when exact
    this.words.textContent = `${words} …`;
    slider.setAttribute("aria-valuetext", `${full} full, trim ${large} ${word}`);
    this.ghost = null;
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

  /**
   * @param {View} view
   * @param {Dive | null} earlier against which they are held
   */
  tell(view, earlier = this.earlier) {
    this.words.textContent = view.words;
    this.words.removeAttribute("aria-busy");
    this.fill(view.figures);
    this.was(view.lie, earlier);
  }

  /** @param {Figure[]} figures */
  fill(figures) {
    const shown = all(this.element, ".figures > div:not(.lean)", HTMLElement);
    figures.forEach((figure, i) => {
      one(shown[i], ".large", HTMLElement).textContent = figure.large;
      one(shown[i], ".word", HTMLElement).textContent = figure.word;
      one(shown[i], ".off", HTMLElement).textContent = figure.off;
      one(shown[i], ".explained", HTMLElement).textContent = figure.says;
    });
  }

  /**
   * Says beside each figure what it was before the last change, at the same moment.
   * @param {Lie} lie
   * @param {Dive | null} earlier
   */
  was(lie, earlier = this.earlier) {
    const texts = earlier ? was(lie, this.dive, earlier, this.isUp) : [];
    all(this.element, ".figures > div:not(.lean)", HTMLElement).forEach((shown, i) => {
      const [large, word] = [".large", ".word"].map((name) => one(shown, name, HTMLElement).textContent.trim());
      const isSame = texts[i] === `was ${large}${word && ` ${word}`}`;
      one(shown, ".was", HTMLElement).textContent = isSame ? "" : (texts[i] ?? "");
    });
  }

  /** @returns {Before} */
  now() {
    const { text, dive, earlier, ghost } = this;
    return { lie: this.real ?? this.lie, text, dive, earlier, ghost };
  }

  /**
   * Holds her against how she was before the last change; where nothing was changed, as before.
   * @param {Before} before
   */
  compare(before) {
    const isChanged = before.text !== this.text;
    const isInUnits = before.dive.weight.name === this.dive.weight.name && before.dive.length.name === this.dive.length.name;
    this.earlier = isInUnits ? (isChanged ? before.dive : before.earlier) : null;
    this.ghost = isChanged ? before.lie : before.ghost;
    if (this.ghost) this.drawing.haunt(this.ghost);
    if (this.earlier) this.track?.was(this.earlier);
    this.was(this.lie);
  }
}
