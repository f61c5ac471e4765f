// A thing in hand: dragged in the drawing, moved by the arrow keys, or by a number that is typed.
// While it moves the program is asked what she does then; let go, it is put there: one step to undo.

import { ROOT } from "./root.js";
import { act } from "./fields.js";

const PICK = 4; // pixels that the pointer moves before a press is a drag
const STEP = 1; // millimetres an arrow key moves it; with Shift ten times that

export class Drag {
  constructor(boat) {
    this.boat = boat;
    this.scene = boat.querySelector(".scene");
    this.strip = boat.querySelector(".hand");
    this.pick = this.strip.querySelector("select[name=picked]");
    this.grip = this.strip.querySelector(".grip");
    this.listen();
    if (this.pick.value) this.hold(this.pick.value);
  }

  listen() {
    this.scene.addEventListener("pointerdown", (event) => this.down(event));
    this.scene.addEventListener("pointermove", (event) => this.move(event));
    this.scene.addEventListener("pointerup", () => this.up());
    this.scene.addEventListener("pointercancel", () => this.leave());
    this.pick.addEventListener("change", () => this.chosen(this.pick.value));
    this.grip.addEventListener("keydown", (event) => this.key(event));
    this.grip.addEventListener("blur", () => this.put());
    this.strip.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && event.target.matches("input, select")) this.typed(event);
      if (event.key === "Escape") this.leave();
    });
    this.strip.querySelector(".put").addEventListener("click", (event) => this.typed(event));
  }

  chosen(path) {
    this.leave();
    this.hold(path);
    document.dispatchEvent(new CustomEvent("picked", { detail: path }));
  }

  // Picks a thing up without moving it; the keys are for it where it was pressed in the drawing, or
  // where nothing else has them.
  async hold(path, isPressed = false) {
    this.pick.value = path;
    this.mark(path);
    this.held = null;
    this.boat.drawing.measure([]);
    this.strip.classList.toggle("full", Boolean(path));
    if (!path) return;
    const told = await this.ask(`${ROOT}/hold?${new URLSearchParams({ path })}`);
    if (!told || this.pick.value !== path) return;
    this.held = told;
    this.wanted = { x: told.x, z: told.z };
    this.near(told.near, "");
    this.boat.drawing.measure(told.gaps);
    if (isPressed || document.activeElement === document.body) this.grip.focus({ preventScroll: true });
  }

  mark(path) {
    for (const one of this.scene.querySelectorAll(".thing.held")) one.classList.remove("held");
    this.group(path)?.classList.add("held");
  }

  group(path) {
    return path ? this.scene.querySelector(`.thing[data-path="${CSS.escape(path)}"]`) : null;
  }

  // The same in the plan.
  above(path) {
    return this.boat.querySelector(`.from-above .thing[data-path="${CSS.escape(path)}"]`);
  }

  async ask(address) {
    try {
      const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
      if (answer.ok) return await answer.json();
      document.dispatchEvent(new CustomEvent("refused", { detail: await answer.text() }));
    } catch {
      document.dispatchEvent(new CustomEvent("gone"));
    }
    return null;
  }

  // Where the pointer is in the boat's own axes as she lay when it was pressed [mm]: she turns
  // under it while it moves.
  at(event, matrix) {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return { x: point.x, z: -point.y };
  }

  async down(event) {
    const thing = event.target.closest?.(".thing");
    if (!thing || event.button) return;
    event.preventDefault();
    this.scene.setPointerCapture(event.pointerId);
    const matrix = this.boat.drawing.boat.getScreenCTM().inverse();
    this.press = { start: [event.clientX, event.clientY], from: this.at(event, matrix), way: "", matrix };
    const path = thing.dataset.path;
    if (path !== this.held?.path) {
      await this.hold(path, true);
      document.dispatchEvent(new CustomEvent("picked", { detail: path }));
      if (this.press?.last) this.move(this.press.last); // it was moved while that was asked
    }
  }

  move(event) {
    if (!this.press) return;
    this.press.last = event;
    if (!this.held) return;
    if (!this.press.way) {
      const [dx, dy] = [event.clientX - this.press.start[0], event.clientY - this.press.start[1]];
      if (Math.hypot(dx, dy) < PICK) return;
      const to = this.at(event, this.press.matrix);
      const isAlong = Math.abs(to.x - this.press.from.x) >= Math.abs(to.z - this.press.from.z);
      this.press.way = isAlong ? "x" : "z"; // along or up, not both
    }
    const { way, matrix } = this.press;
    const here = this.at(event, matrix);
    this.wanted = { x: this.held.x, z: this.held.z };
    this.wanted[way] = this.held[way] + here[way] - this.press.from[way];
    this.try();
  }

  up() {
    const isDragged = Boolean(this.press?.way);
    this.press = null;
    if (isDragged) this.put();
  }

  key(event) {
    const way = { ArrowLeft: ["x", -1], ArrowRight: ["x", 1], ArrowUp: ["z", 1], ArrowDown: ["z", -1] }[event.key];
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.put();
    }
    if (!way || !this.held) return;
    event.preventDefault();
    this.wanted[way[0]] += way[1] * STEP * (event.shiftKey ? 10 : 1);
    this.try();
  }

  // One question at a time; the latest wish is asked when the answer is there.
  async try() {
    this.isTried = true;
    this.strip.classList.add("trying");
    if (this.asking) return;
    this.asking = true;
    const asked = { ...this.wanted };
    const form = this.boat.form.elements;
    const told = await this.ask(`${ROOT}/try?${new URLSearchParams({
      path: this.held.path, x: asked.x.toFixed(3), z: asked.z.toFixed(3),
      filling: form.filling?.value ?? "", up: form.up.value, touched: form.touched.value,
    })}`);
    this.asking = false;
    if (!told || !this.isTried || !this.boat.isConnected) return;
    this.show(told);
    if (asked.x !== this.wanted.x || asked.z !== this.wanted.z) this.try();
    else if (told.stopped && !this.press) this.wanted = { x: told.x, z: told.z };
    if (this.isPut) this.put();
  }

  show(told) {
    this.told = told;
    const [dx, dz] = told.shift;
    for (const path of this.held.along) {
      const group = this.group(path);
      group?.setAttribute("transform", `translate(${dx} ${-dz})`);
      this.above(path)?.setAttribute("transform", `translate(${dx} 0)`);
    }
    this.boat.trial(told, this.held.along, told.shift);
    this.strip.querySelector("[name=place_x]").placeholder = told.at;
    this.strip.querySelector("[name=place_z]").placeholder = told.high;
    this.near(told.near, told.stopped);
    this.boat.drawing.measure(told.gaps, told);
    const rows = told.rows.map(([name, now, then]) => {
      const row = document.createElement("tr");
      for (const [tag, text] of [["th", name], ["td", now], ["td", now === then ? "the same" : then]]) {
        row.append(Object.assign(document.createElement(tag), { textContent: text }));
      }
      row.firstChild.scope = "row";
      row.lastChild.className = now === then ? "same" : "then";
      return row;
    });
    this.strip.querySelector("tbody").replaceChildren(...rows);
  }

  near(gaps, stopped) {
    const said = stopped ? `Stops at ${stopped}.` : "";
    const place = this.told ? `${this.told.at} from the ${this.boat.dataset.toldFrom}, ${this.told.high} high` : "";
    this.strip.querySelector(".where").textContent = place;
    this.strip.querySelector(".stopped").textContent = said;
    this.strip.querySelector(".near").textContent = gaps.join(", ");
  }

  // Puts it where it was last tried.
  put() {
    if (!this.isTried || !this.held) return;
    if (this.asking) {
      this.isPut = true;
      return;
    }
    this.isTried = this.isPut = false;
    const told = this.told;
    if (!told || Math.hypot(...told.shift) < 0.05) return this.leave();
    act(`move ${this.held.path}`, { move_x: String(told.x), move_z: String(told.z) });
  }

  typed(event) {
    event.preventDefault();
    if (this.isTried && !event.target.matches("input")) return this.put();
    if (this.held) act(`move ${this.held.path}`);
  }

  // Puts everything back as it is; nothing was changed.
  leave() {
    this.press = null;
    if (!this.isTried || !this.held) return;
    this.isTried = this.isPut = false;
    this.strip.classList.remove("trying");
    for (const path of this.held.along) {
      for (const one of [this.group(path), this.above(path)]) one?.removeAttribute("transform");
    }
    this.told = null;
    this.wanted = { x: this.held.x, z: this.held.z };
    this.near(this.held.near, "");
    this.boat.drawing.measure(this.held.gaps);
    this.strip.querySelector("tbody").replaceChildren();
    this.boat.untried();
  }
}
