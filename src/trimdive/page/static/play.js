// Let her go by herself from blown to full and back. At a jump she halts and it is said; across it
// nothing is made up.

import { first, last } from "./interpolate.js";

const WHOLE = 14; // seconds from blown to full
const HALT = 1.2; // seconds at a jump and where she turns round
/** @type {Play | null} */
let playing = null; // the boat that goes by herself

class Play {
  /**
   * @param {Boat} boat
   * @param {HTMLInputElement} slider
   * @param {HTMLElement} button
   */
  constructor(boat, slider, button) {
    this.boat = boat;
    this.slider = slider;
    this.button = button;
    this.at = Number(slider.value);
    this.way = this.at > 0.999 || boat.isUp ? -1 : 1;
    this.until = 0;
    /** @param {Event} event */
    this.stop = (event) => {
      if (event.isTrusted) this.end();
    };
    for (const name of ["pointerdown", "keydown"]) slider.addEventListener(name, this.stop);
    button.textContent = "Pause";
    this.last = performance.now();
    requestAnimationFrame((now) => this.step(now));
  }

  /** @param {number} now */
  step(now) {
    if (playing !== this) return;
    if (this.boat.signal.aborted) return this.end();
    const far = Math.min((now - this.last) / 1000, 0.1) / WHOLE;
    this.last = now;
    if (now >= this.until) this.go(far);
    requestAnimationFrame((later) => this.step(later));
  }

  /** @param {number} far */
  go(far) {
    const next = Math.min(Math.max(this.at + this.way * far, 0), 1);
    const jump = this.jump(this.at, next);
    this.at = next;
    this.slider.value = String(next);
    this.boat.moved();
    if (jump) this.halt(jump);
    else if (next === 1 && this.way > 0) {
      this.way = -1;
      this.halt("");
    } else if (next === 0 && this.way < 0) this.end();
  }

  /**
   * What is said where the way ends between two fillings and goes on elsewhere.
   * @param {number} from
   * @param {number} to
   */
  jump(from, to) {
    const runs = this.way > 0 ? this.boat.dive.down : this.boat.dive.up;
    for (let k = 1; k < runs.length; k += 1) {
      const [lower, upper] = [last(runs[k - 1]), first(runs[k])];
      const [here, there] = this.way > 0 ? [lower, upper] : [upper, lower];
      if (Math.min(from, to) >= here.filling || Math.max(from, to) < here.filling) continue;
      const [before, after] = [Math.abs(here.heel), Math.abs(there.heel)];
      const tips = Math.abs(here.trim - there.trim);
      return Math.abs(before - after) >= tips
        ? `Here she flops: leans ${after.toFixed(0)}°, before it ${before.toFixed(0)}°.`
        : `Here she flops: her trim jumps by ${tips.toFixed(0)}°.`;
    }
    return "";
  }

  /** @param {string} says */
  halt(says) {
    this.until = performance.now() + 1000 * HALT;
    if (says) requestAnimationFrame(() => (this.boat.words.textContent = says));
  }

  end() {
    playing = null;
    this.button.textContent = "Play";
    for (const name of ["pointerdown", "keydown"]) this.slider.removeEventListener(name, this.stop);
    if (!this.boat.signal.aborted) this.boat.released();
  }
}

/**
 * The button was pressed.
 * @param {HTMLElement} button
 * @param {Boat} boat
 */
export function pressed(button, boat) {
  if (playing) playing.end();
  else if (boat.slider) playing = new Play(boat, boat.slider, button);
}
