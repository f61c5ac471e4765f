// A plan or a photograph that is open: what is clicked, dragged and typed is sent at once, and the
// answer says what has come of it.

import { any, one, refuse, where, Working } from "../dom.js";
import { morphing, put } from "../morph.js";
import { ROOT } from "../root.js";
import { drawMarks, point } from "./trace_marks.js";
import { drawLoupe, Picture } from "./trace_picture.js";

const NEAR = 9; // from a point: it is pressed [px]
const SHAKE = 4; // that is no drag yet
const INK = 9; // how far about a mark ink is looked for [px]
const PAUSE = 500; // after the last mark, until what it comes to is asked for [ms]
/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** @typedef {import("./trace_picture.js").Place} Place */

/** @type {{ number: string, picture: Picture } | null} */
let last = null; // how the plan was looked at, should an answer put it on the page anew

const chosen = new Map(); // for which region lines are taken, and as what, by the names of these fields

class Tracer extends Working {
  /** @type {TraceState} */
  state = { size: [1, 1], active: "", named: "", says: "", refused: "", asked: "", things: {}, drawn: {}, spots: [], undo: false, redo: false, hull: false };
  /** @type {Place | null} */
  cross = null;
  /** @type {Place | null} */
  pointer = null;
  /** @type {Map<number, Place>} */
  fingers = new Map();
  /** @type {{ key: string, number: number, isMoved: boolean } | null} */
  held = null;
  isSliding = false;
  isPinched = false;
  /** @type {Promise<void>} */
  queue = Promise.resolve();
  timer = 0;
  isDue = false;

  /** @param {AbortSignal} signal */
  begin(signal) {
    const canvas = one(this, ".trace-picture", HTMLCanvasElement);
    this.state = JSON.parse(one(this, ".trace-state", HTMLScriptElement).textContent ?? "");
    const number = this.dataset.number ?? "";
    const before = last?.number === number ? last.picture : null;
    this.picture = new Picture(canvas, this.state.size, this.dataset.tiles ?? "", () => this.soon());
    if (before) Object.assign(this.picture, { zoom: before.zoom, x: before.x, y: before.y, squares: before.squares });
    else this.picture.whole();
    last = { number, picture: this.picture };
    for (const image of this.picture.squares.values()) image.onload = () => this.soon();
    this.listen(signal);
    this.shown();
    this.sum();
    this.rechoose();
    one(this, ".trace-room", HTMLElement).classList.add("ready");
  }

  get svg() {
    return one(this, ".trace-marks", SVGSVGElement);
  }

  get seen() {
    if (!this.picture) throw new Error("The plan is not there yet.");
    return this.picture;
  }

  /** @param {AbortSignal} signal */
  listen(signal) {
    const { svg } = this;
    /** @type {[keyof GlobalEventHandlersEventMap, (event: any) => void][]} */
    const heard = [["pointerdown", (event) => this.down(event)], ["pointermove", (event) => this.move(event)], ["pointerup", (event) => this.up(event)],
      ["pointercancel", (event) => this.gone(event)], ["pointerleave", () => this.loupe(null)], ["wheel", (event) => this.wheel(event)], ["keydown", (event) => this.key(event)],
      ["focusin", (event) => this.focused(event)]];
    for (const [name, done] of heard) svg.addEventListener(name, done, { signal, passive: false });
    this.addEventListener("click", (event) => this.pressed(event), { signal });
    this.addEventListener("change", (event) => this.typed(event), { signal });
    this.addEventListener("keydown", (event) => this.everywhere(event), { signal });
    const watch = new ResizeObserver(() => this.soon());
    watch.observe(svg);
    signal.addEventListener("abort", () => watch.disconnect());
  }

  /** Draws once before the next picture of the window, however much changed. */
  soon() {
    if (this.isDue) return;
    this.isDue = true;
    requestAnimationFrame(() => {
      this.isDue = false;
      if (!this.isConnected || !this.picture) return;
      this.picture.draw();
      drawMarks(this.svg, this.picture, this.state, this.cross);
      drawLoupe(one(this, ".trace-loupe", HTMLCanvasElement), this.picture, this.pointer);
    });
  }

  /** Says what is to be marked now, and what can be taken back. */
  shown() {
    one(this, ".trace-asks b", HTMLElement).textContent = this.state.named;
    const says = one(this, ".trace-asks span", HTMLElement);
    says.textContent = this.state.refused || this.state.says;
    says.classList.toggle("wrong", this.state.refused !== "");
    one(this, '[data-trace-do="undo"]', HTMLButtonElement).disabled = !this.state.undo;
    one(this, '[data-trace-do="redo"]', HTMLButtonElement).disabled = !this.state.redo;
    this.soon();
  }

  /**
   * Asks for one thing after another.
   * @param {string} what
   * @param {Record<string, string | number>} values
   */
  ask(what, values = {}) {
    this.queue = this.queue.then(async () => {
      const sent = new URLSearchParams({ do: what, of: this.dataset.of ?? "" });
      for (const [key, value] of Object.entries(values)) sent.set(key, String(value));
      try {
        const answer = await fetch(`${ROOT}/trace`, { method: "POST", body: sent });
        if (!answer.ok) return refuse(await answer.text());
        /** @type {{ html: string, state: TraceState }} */
        const { html, state } = await answer.json();
        this.state = state;
        await put(one(this, "#trace-panel", HTMLElement), html);
        this.shown();
        this.rechoose();
        if (state.asked && what !== "type") any(this, `#trace-${state.asked}`, HTMLInputElement)?.focus();
        this.sum();
      } catch {
        refuse("The mark could not be sent. See that the program still runs, and make it again.");
      }
    });
    return this.queue;
  }

  /** Puts back what was chosen for the lines: an answer knows nothing of it. */
  rechoose() {
    for (const [name, value] of chosen) {
      const field = any(this, `[name="${name}"]`, HTMLElement);
      if (field instanceof HTMLInputElement && field.type === "checkbox") field.checked = value;
      else if (field instanceof HTMLInputElement) field.value = value;
      else if (field instanceof HTMLSelectElement && [...field.options].some((one) => one.value === value)) field.value = value;
    }
  }

  /** Asks for what the hull encloses, a moment after the last mark. */
  sum() {
    clearTimeout(this.timer);
    if (!this.state.hull) return;
    this.timer = window.setTimeout(async () => {
      const room = any(this, "#trace-sum", HTMLElement);
      if (!room) return;
      const { state } = this;
      const answer = await fetch(`${ROOT}${this.dataset.sum}`).catch(() => null);
      if (!answer?.ok || state !== this.state) return;
      room.innerHTML = await answer.text();
      const found = any(room, ".trace-found", HTMLScriptElement);
      if (!found) return;
      this.state.drawn = JSON.parse(found.textContent ?? "");
      this.soon();
    }, PAUSE);
  }

  /**
   * @param {PointerEvent | WheelEvent} event
   * @returns {Place} in the window of the picture
   */
  at(event) {
    const room = this.svg.getBoundingClientRect();
    return { x: event.clientX - room.left, y: event.clientY - room.top };
  }

  /**
   * The point of what is marked now that lies under a place in the window; one of another thing may be
   * marked for this one too, as the corner of a frame is.
   * @param {Place} at
   */
  under(at) {
    const key = this.state.active;
    let [found, least] = [/** @type {{ key: string, number: number } | null} */ (null), NEAR];
    for (const [number, [x, y]] of (this.state.things[key] ?? []).entries()) {
      const place = this.seen.to({ x, y });
      const far = Math.hypot(place.x - at.x, place.y - at.y);
      if (far < least) [found, least] = [{ key, number }, far];
    }
    return found;
  }

  /** @param {PointerEvent} event */
  down(event) {
    if (event.button) return;
    event.preventDefault();
    const at = this.at(event);
    this.svg.setPointerCapture(event.pointerId);
    this.fingers.set(event.pointerId, at);
    this.cross = null;
    this.isPinched = this.fingers.size > 1;
    const found = this.isPinched ? null : this.under(at);
    this.held = found && { ...found, isMoved: false };
    this.isSliding = false;
    this.from = at;
    if (found) (point(this.svg, `${found.key} ${found.number}`) ?? this.svg).focus({ preventScroll: true });
    else this.svg.focus({ preventScroll: true });
  }

  /** @type {Place} */
  from = { x: 0, y: 0 };

  /** @param {PointerEvent} event */
  move(event) {
    const at = this.at(event);
    const before = this.fingers.get(event.pointerId);
    this.loupe(event.pointerType === "touch" && !this.held ? null : at);
    if (!before) return;
    if (this.isPinched) return this.pinch(event.pointerId, at);
    if (Math.hypot(at.x - this.from.x, at.y - this.from.y) > SHAKE) {
      if (this.held) this.held.isMoved = true;
      else this.isSliding = true;
    }
    this.fingers.set(event.pointerId, at);
    if (this.held?.isMoved) {
      const place = this.seen.from(at);
      const row = this.state.things[this.held.key][this.held.number];
      [row[0], row[1]] = [place.x, place.y];
      this.soon();
    } else if (this.isSliding) this.seen.slide(at.x - before.x, at.y - before.y);
  }

  /**
   * @param {number} finger
   * @param {Place} at
   */
  pinch(finger, at) {
    const before = [...this.fingers.values()];
    this.fingers.set(finger, at);
    const now = [...this.fingers.values()];
    if (now.length < 2) return;
    /** @param {Place[]} two */
    const apart = (two) => Math.hypot(two[0].x - two[1].x, two[0].y - two[1].y) || 1;
    const middle = { x: (now[0].x + now[1].x) / 2, y: (now[0].y + now[1].y) / 2 };
    this.seen.slide(middle.x - (before[0].x + before[1].x) / 2, middle.y - (before[0].y + before[1].y) / 2);
    this.seen.nearer(apart(now) / apart(before), middle);
  }

  /** @param {PointerEvent} event */
  gone(event) {
    this.fingers.delete(event.pointerId);
    this.held = null;
  }

  /** @param {PointerEvent} event */
  up(event) {
    if (!this.fingers.delete(event.pointerId)) return;
    const { held } = this;
    this.held = null;
    if (this.isPinched) return void (this.isPinched = this.fingers.size > 0);
    const place = this.seen.from(this.at(event));
    const ink = { x: place.x, y: place.y, reach: INK / this.seen.zoom };
    if (held?.isMoved) this.ask("move", { key: held.key, number: held.number, ...ink });
    else if (!held && !this.isSliding) this.ask("add", ink);
  }

  /** @param {WheelEvent} event */
  wheel(event) {
    event.preventDefault();
    this.seen.nearer(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0015)), this.at(event));
  }

  /** @param {Place | null} at in the window */
  loupe(at) {
    this.pointer = at;
    this.soon();
  }

  /** @param {FocusEvent} event */
  focused(event) {
    const point = where(event, "[data-point]", SVGElement);
    if (!point) return;
    const [x, y] = this.place(point) ?? [0, 0];
    this.seen.see({ x, y });
    if (point.matches(":focus-visible")) this.loupe(this.seen.to({ x, y }));
  }

  /** @param {SVGElement} point */
  place(point) {
    const [key, number] = (point.getAttribute("data-point") ?? "").split(" ");
    return this.state.things[key]?.[Number(number)];
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const point = where(event, "[data-point]", SVGElement);
    const [key, number] = point?.getAttribute("data-point")?.split(" ") ?? ["", ""];
    const way = ARROWS[event.key];
    const row = point && this.place(point);
    if (way) {
      const far = event.shiftKey ? 10 : 1;
      if (row) this.ask("move", { key, number, x: (row[0] += way[0] * far), y: (row[1] += way[1] * far), reach: 0 });
      else this.aim(way, far);
    } else if (row && (event.key === "Delete" || event.key === "Backspace")) this.drop(key, Number(number));
    else if (!point && (event.key === "Enter" || event.key === " ") && this.cross) this.ask("add", { ...this.cross, reach: INK / this.seen.zoom });
    else if (event.key === "+" || event.key === "=") this.seen.step(1);
    else if (event.key === "-") this.seen.step(-1);
    else if (event.key === "Home") this.seen.whole();
    else return;
    event.preventDefault();
    this.soon();
  }

  /**
   * @param {[number, number]} way
   * @param {number} far
   */
  aim([right, down], far) {
    const { seen } = this;
    const at = this.cross ?? seen.from({ x: seen.wide / 2, y: seen.high / 2 });
    const step = far * Math.max(1, 1 / seen.zoom); // as fine as it is seen
    this.cross = { x: at.x + right * step, y: at.y + down * step };
    seen.see(this.cross);
    this.loupe(seen.to(this.cross));
  }

  /**
   * @param {string} key
   * @param {number} number
   */
  async drop(key, number) {
    await this.ask("remove", { key, number });
    const count = this.state.things[key]?.length ?? 0;
    const next = count ? `${key} ${Math.min(number, count - 1)}` : "";
    requestAnimationFrame(() => (point(this.svg, next) ?? this.svg).focus());
  }

  /** @param {Event} event */
  pressed(event) {
    const button = where(event, "button", HTMLButtonElement);
    const summary = where(event, ".trace-step > summary", HTMLElement);
    if (summary) {
      const step = summary.parentElement;
      const first = step && (any(step, ".trace-thing:not(.whole, .spare) [data-thing]", HTMLButtonElement) ?? any(step, "[data-thing]", HTMLButtonElement));
      if (first && step instanceof HTMLDetailsElement && !step.open) this.ask("choose", { key: first.dataset.thing ?? "" });
      return;
    }
    if (!button) return;
    const { thing, clear, traceDo, zoom } = button.dataset;
    if (thing) this.ask("choose", { key: thing });
    else if (clear) this.ask("clear", { key: clear });
    else if (traceDo) this.ask(traceDo);
    else if (zoom === "all") this.seen.whole();
    else if (zoom) this.seen.step(zoom === "in" ? 1 : -1);
  }

  /** @param {Event} event */
  typed(event) {
    const at = event.target;
    if (!(at instanceof HTMLInputElement || at instanceof HTMLSelectElement)) return;
    if (at.name.startsWith("trace-")) chosen.set(at.name, at.type === "checkbox" && at instanceof HTMLInputElement ? at.checked : at.value);
    if (!at.dataset.trace) return;
    event.stopPropagation();
    this.ask("type", { key: at.dataset.trace, typed: at.value });
  }

  /** @param {KeyboardEvent} event */
  everywhere(event) {
    const at = event.target;
    if (at instanceof HTMLInputElement && event.key === "Enter" && at.type !== "checkbox") {
      event.preventDefault();
      if (!at.dataset.trace) return;
      this.ask("type", { key: at.dataset.trace, typed: at.value });
      at.defaultValue = at.value;
      const next = at.id.endsWith("-x") ? any(this, `#${at.id.slice(0, -1)}z`, HTMLInputElement) : null;
      (next ?? this.svg).focus();
    }
    const isText = at instanceof HTMLInputElement && at.type !== "checkbox";
    const undoes = (event.ctrlKey || event.metaKey) && !isText ? event.key.toLowerCase() : "";
    if (undoes !== "z" && undoes !== "y") return;
    event.preventDefault();
    event.stopPropagation();
    this.ask(undoes === "y" || event.shiftKey ? "redo" : "undo");
  }
}

morphing().then(() => customElements.define("plan-tracer", Tracer));
