// The fields of a thing in hand: its place and the few that matter most, put like all other fields;
// its place may be typed to either of its ends.

import { any, one, where } from "./dom.js";
import { act } from "./fields.js";
import { ROOT } from "./root.js";

const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", href: `${ROOT}/static/panel.css` });
export const styled = new Promise((done) => (sheet.onload = sheet.onerror = done));
document.head.append(sheet);

export class Panel {
  /** @param {import("./drag.js").Drag} drag */
  constructor(drag) {
    this.drag = drag;
    this.strip = drag.strip;
    this.room = one(this.strip, ".panel", HTMLElement);
    const until = { signal: drag.boat.signal };
    this.strip.addEventListener("keydown", (event) => this.pressed(event), until);
    this.strip.addEventListener("change", (event) => this.typed(event), until);
    this.strip.addEventListener("click", (event) => where(event, ".leave", HTMLElement) && this.release(), until);
  }

  /**
   * Nothing of another thing stays in it.
   * @param {string} path
   */
  begin(path) {
    if (this.room.dataset.path === path) return this.measured();
    this.room.replaceChildren();
    one(this.strip, ".told", HTMLElement).textContent = "";
    this.room.dataset.path = "";
  }

  /** @param {Held} view */
  fill({ path, told, panel }) {
    if (this.room.dataset.path === path) return; // it came with the page
    this.room.dataset.path = path;
    this.room.innerHTML = panel;
    one(this.strip, ".told", HTMLElement).textContent = told;
  }

  /**
   * Its place is a field like the others where it is typed to the end that stands in the file, or empty and to be moved to.
   * @param {boolean} isChosen the end, just now
   */
  measured(isChosen = false) {
    const end = any(this.room, ".end", HTMLSelectElement);
    const field = any(this.room, ".x input", HTMLInputElement);
    if (!end || !field) return;
    const isOwn = end.value === end.dataset.own;
    field.dataset.field = isOwn ? end.dataset.of : "";
    field.placeholder = end.selectedOptions[0].dataset.at ?? "";
    if (isChosen || (!isOwn && !field.ariaInvalid)) field.value = isOwn ? field.defaultValue : "";
    if (isChosen) field.focus();
  }

  /** @param {Event} event */
  typed({ target }) {
    const end = any(this.room, ".end", HTMLSelectElement);
    if (end && target === end) return this.measured(true);
    const { held } = this.drag;
    if (!held || !end || !(target instanceof HTMLInputElement) || target.dataset.field !== "" || !target.value.trim()) return;
    act(`move ${held.path}`, { place_x: target.value, place_end: end.value, field: end.dataset.of ?? "", hand: "1" });
  }

  /**
   * Enter puts a field, or what is tried; Escape takes back what was typed or tried, and then leaves the thing.
   * @param {KeyboardEvent} event
   */
  pressed(event) {
    const { drag } = this;
    const field = event.target instanceof HTMLInputElement && event.target.matches(".field") ? event.target : null;
    if (event.key === "Enter" && !field && event.target instanceof Element && event.target.matches("input, select")) {
      event.preventDefault();
      drag.put();
    }
    if (event.key !== "Escape" || !drag.pick.value) return;
    event.preventDefault();
    if (drag.isTried) drag.leave();
    else if (field?.ariaInvalid) this.forget(field);
    else if (field?.dataset.field && field.value !== field.defaultValue) field.value = field.defaultValue;
    else this.release();
  }

  /**
   * What was refused goes, and what stands in the file comes back.
   * @param {HTMLInputElement} field
   */
  forget(field) {
    field.value = field.defaultValue = field.dataset.was ?? "";
    field.removeAttribute("aria-invalid");
    any(this.room, ".wrong", HTMLElement)?.remove();
    this.measured();
  }

  /** Leaves the thing as it is. */
  release() {
    this.drag.pick.value = "";
    this.drag.chosen("");
    this.drag.pick.focus({ preventScroll: true });
  }
}
