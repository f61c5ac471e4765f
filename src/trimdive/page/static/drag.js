// A thing in hand: dragged in the drawing, moved by the arrow keys, or by a number that is typed.
// While it moves the program is asked what she does then; let go, it is put there: one step to undo.
// Its fields are loaded at the first sign of a hand.

import { all, any, input, lost, one, refuse, where } from "./dom.js";
import { act } from "./fields.js";
import { ROOT } from "./root.js";

const PICK = 4; // pixels that the pointer moves before a press is a drag
const STEP = 1; // millimetres an arrow key moves it; with Shift ten times that
const STAYS = 0.05; // millimetres: nearer than this to where it was it was not moved
/** @type {Record<string, Point>} */
const KEYS = {
  ArrowLeft: { x: -STEP, z: 0 },
  ArrowRight: { x: STEP, z: 0 },
  ArrowUp: { x: 0, z: STEP },
  ArrowDown: { x: 0, z: -STEP },
};

/** @typedef {import("./panel.js").Panel} Panel */

/** @type {Promise<typeof import("./panel.js")> | null} */
let loading = null;
const load = () => (loading ??= import("./panel.js").then(async (found) => (await found.styled, found)));
for (const sign of ["pointermove", "keydown"]) window.addEventListener(sign, () => void load().catch(() => (loading = null)), { once: true });

/**
 * Lays out the fields of what is in hand; none where the program has stopped.
 * @param {Drag} drag
 */
async function lay(drag) {
  try {
    const found = await load();
    drag.panel ??= new found.Panel(drag);
  } catch {
    loading = null;
    lost();
  }
}

/**
 * @typedef {object} Press a press of the pointer in the drawing
 * @property {{ x: number, y: number }} start where [pixels]
 * @property {Point} from where in her own axes
 * @property {DOMMatrix} matrix from the screen into her axes, as she lay then
 * @property {"x" | "z" | ""} way along or up, not both; "" while it is not moved
 * @property {PointerEvent | null} last where it was moved since
 */

export class Drag {
  /** @param {Boat} boat */
  constructor(boat) {
    this.boat = boat;
    this.scene = boat.scene;
    this.strip = one(boat.element, ".hand", HTMLElement);
    this.pick = one(this.strip, "select[name=picked]", HTMLSelectElement);
    this.grip = one(this.strip, ".grip", HTMLButtonElement);
    this.alone = one(this.strip, "[name=alone][type=checkbox]", HTMLInputElement);
    this.rows = one(this.strip, "tbody", HTMLTableSectionElement);
    /** @type {Panel | null} */
    this.panel = null; // its fields, once they are loaded
    /** @type {Held | null} */
    this.held = null;
    /** @type {Trial | null} */
    this.view = null; // what she does where it was tried last
    /** @type {Point} */
    this.wanted = { x: 0, z: 0 };
    /** @type {Press | null} */
    this.press = null;
    this.isTried = this.isPut = this.isAsking = false;
    this.listen({ signal: boat.signal });
    if (this.pick.value) this.hold(this.pick.value);
  }

  /** @param {{ signal: AbortSignal }} until */
  listen(until) {
    this.scene.addEventListener("pointerdown", (event) => this.down(event), until);
    this.scene.addEventListener("pointermove", (event) => this.move(event), until);
    this.scene.addEventListener("pointerup", () => this.up(), until);
    this.scene.addEventListener("pointercancel", () => this.leave(), until);
    this.pick.addEventListener("change", () => this.chosen(this.pick.value), until);
    this.alone.addEventListener("change", () => this.chosen(this.pick.value), until);
    this.grip.addEventListener("keydown", (event) => this.key(event), until);
    this.grip.addEventListener("blur", () => this.put(), until);
  }

  /** @param {string} path */
  chosen(path) {
    this.leave();
    this.hold(path);
    document.dispatchEvent(new CustomEvent("picked", { detail: path }));
  }

  /**
   * Picks a thing up without moving it; the keys are for it where it was pressed in the drawing, or
   * where nothing else has them.
   * @param {string} path
   */
  async hold(path, isPressed = false) {
    this.pick.value = path;
    this.mark(path);
    this.held = null;
    this.boat.drawing.measure([]);
    if (path) await lay(this);
    if (this.pick.value !== path || this.boat.signal.aborted) return;
    this.strip.classList.toggle("full", Boolean(path));
    this.panel?.begin(path);
    this.near([], "");
    if (!path) return;
    /** @type {Held | null} */
    const view = await this.ask(`${ROOT}/hold?${new URLSearchParams({ path, alone: this.isAlone() })}`);
    if (!view || this.pick.value !== path || this.boat.signal.aborted) return;
    this.held = view;
    this.panel?.fill(view);
    one(this.strip, ".alone", HTMLElement).hidden = !this.alone.checked && view.along.length < 2;
    this.wanted = { x: view.x, z: view.z };
    this.near(view.near, "");
    this.boat.drawing.measure(view.gaps);
    if (isPressed || document.activeElement === document.body) this.grip.focus({ preventScroll: true });
  }

  /** Whether what goes with it stays. */
  isAlone() {
    return this.alone.checked ? "1" : "";
  }

  /** @param {string} path */
  mark(path) {
    for (const thing of all(this.scene, ".thing.held", SVGElement)) thing.classList.remove("held");
    if (path) this.group(path)?.classList.add("held");
  }

  /** @param {string} path */
  group(path) {
    return any(this.scene, `.thing[data-path="${CSS.escape(path)}"]`, SVGElement);
  }

  /**
   * The same in the plan.
   * @param {string} path
   */
  above(path) {
    return any(this.boat.element, `.from-above .thing[data-path="${CSS.escape(path)}"]`, SVGElement);
  }

  /** @param {string} address */
  async ask(address) {
    try {
      const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
      if (answer.ok) return await answer.json();
      refuse(await answer.text());
    } catch {
      lost();
    }
    return null;
  }

  /** @param {PointerEvent} event */
  async down(event) {
    const thing = where(event, ".thing", SVGElement);
    const path = thing?.dataset.path;
    if (!path || event.button) return;
    event.preventDefault();
    this.scene.setPointerCapture(event.pointerId);
    const matrix = this.boat.screen(); // she turns under the pointer while it moves
    const start = { x: event.clientX, y: event.clientY };
    this.press = { start, from: this.boat.aboard(event, matrix), way: "", matrix, last: null };
    if (path !== this.held?.path) {
      await this.hold(path, true);
      document.dispatchEvent(new CustomEvent("picked", { detail: path }));
      if (this.press?.last) this.move(this.press.last); // it was moved while that was asked
    }
  }

  /** @param {PointerEvent} event */
  move(event) {
    const { press, held } = this;
    if (!press) return;
    press.last = event;
    if (!held) return;
    const here = this.boat.aboard(event, press.matrix);
    if (!press.way) {
      if (Math.hypot(event.clientX - press.start.x, event.clientY - press.start.y) < PICK) return;
      const isAlong = Math.abs(here.x - press.from.x) >= Math.abs(here.z - press.from.z);
      press.way = isAlong ? "x" : "z";
    }
    this.wanted = { x: held.x, z: held.z };
    this.wanted[press.way] += here[press.way] - press.from[press.way];
    this.try();
  }

  up() {
    const isDragged = Boolean(this.press?.way);
    this.press = null;
    if (isDragged) this.put();
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const way = KEYS[event.key];
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.put();
    }
    if (!way || !this.held) return;
    event.preventDefault();
    const far = event.shiftKey ? 10 : 1;
    this.wanted.x += way.x * far;
    this.wanted.z += way.z * far;
    this.try();
  }

  /** One question at a time; the latest wish is asked when the answer is there. */
  async try() {
    this.isTried = true;
    this.strip.classList.add("trying");
    if (this.isAsking || !this.held) return;
    this.isAsking = true;
    const asked = { ...this.wanted };
    const { form, slider } = this.boat;
    /** @type {Trial | null} */
    const view = await this.ask(`${ROOT}/try?${new URLSearchParams({
      path: this.held.path, x: asked.x.toFixed(3), z: asked.z.toFixed(3),
      alone: this.isAlone(), filling: slider?.value ?? "", up: input(form, "up").value, touched: input(form, "touched").value,
    })}`);
    this.isAsking = false;
    if (!view || !this.isTried || this.boat.signal.aborted) return;
    this.show(view, this.held.along);
    if (asked.x !== this.wanted.x || asked.z !== this.wanted.z) this.try();
    else if (view.stopped && !this.press) this.wanted = { x: view.x, z: view.z };
    if (this.isPut) this.put();
  }

  /**
   * @param {Trial} view
   * @param {string[]} along
   */
  show(view, along) {
    this.view = view;
    const { x, z } = view.shift;
    for (const path of along) {
      this.group(path)?.setAttribute("transform", `translate(${x} ${-z})`);
      this.above(path)?.setAttribute("transform", `translate(${x} 0)`);
    }
    this.boat.trial(view, along);
    this.near(view.near, view.stopped);
    this.boat.drawing.measure(view.gaps, view);
    this.rows.replaceChildren(...view.rows.map(row));
  }

  /**
   * @param {string[]} gaps
   * @param {string} stopped
   */
  near(gaps, stopped) {
    const said = stopped ? `Stops at ${stopped}.` : "";
    const place = this.view ? `${this.view.at} from the ${this.boat.element.dataset.enteredFrom}, ${this.view.high} high` : "";
    one(this.strip, ".where", HTMLElement).textContent = place;
    one(this.strip, ".stopped", HTMLElement).textContent = said;
    one(this.strip, ".near", HTMLElement).textContent = gaps.join(", ");
  }

  /** Puts it where it was last tried. */
  put() {
    if (!this.isTried || !this.held) return;
    if (this.isAsking) {
      this.isPut = true;
      return;
    }
    this.isTried = this.isPut = false;
    const view = this.view;
    if (!view || Math.hypot(view.shift.x, view.shift.z) < STAYS) return this.leave();
    act(`move ${this.held.path}`, { move_x: String(view.x), move_z: String(view.z) });
  }

  /** Puts everything back as it is; nothing was changed. */
  leave() {
    this.press = null;
    if (!this.isTried || !this.held) return;
    this.isTried = this.isPut = false;
    this.strip.classList.remove("trying");
    for (const path of this.held.along) {
      for (const thing of [this.group(path), this.above(path)]) thing?.removeAttribute("transform");
    }
    this.view = null;
    this.wanted = { x: this.held.x, z: this.held.z };
    this.near(this.held.near, "");
    this.boat.drawing.measure(this.held.gaps);
    this.rows.replaceChildren();
    this.boat.untried();
  }
}

/**
 * A figure as it is and as it would be.
 * @param {Trial["rows"][number]} figure
 */
function row({ name, now, then }) {
  const isSame = now === then;
  const made = document.createElement("tr");
  const head = Object.assign(document.createElement("th"), { scope: "row", textContent: name });
  const later = { textContent: isSame ? "the same" : then, className: isSame ? "same" : "then" };
  const cells = [{ textContent: now }, later].map((cell) => Object.assign(document.createElement("td"), cell));
  made.append(head, ...cells);
  return made;
}
