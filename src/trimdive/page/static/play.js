// Let her go by herself from blown to full and back. At a jump she halts and it is said; across it
// nothing is made up.

import { AT } from "./interpolate.js";

const WHOLE = 14; // seconds from blown to full
const HALT = 1.2; // seconds at a jump and where she turns round
let playing = null; // the boat that goes by herself

class Play {
  constructor(boat, button) {
    [this.boat, this.button] = [boat, button];
    this.at = Number(boat.slider.value);
    this.way = this.at > 0.999 || boat.isUp ? -1 : 1;
    this.until = 0;
    this.stop = (event) => event.isTrusted && this.end();
    for (const name of ["pointerdown", "keydown"]) boat.slider.addEventListener(name, this.stop);
    button.textContent = "Pause";
    this.last = performance.now();
    requestAnimationFrame((now) => this.step(now));
  }

  step(now) {
    if (playing !== this) return;
    if (!this.boat.isConnected) return this.end();
    const far = Math.min((now - this.last) / 1000, 0.1) / WHOLE;
    this.last = now;
    if (now >= this.until) this.go(far);
    requestAnimationFrame((later) => this.step(later));
  }

  go(far) {
    const next = Math.min(Math.max(this.at + this.way * far, 0), 1);
    const jump = this.jump(this.at, next);
    this.at = next;
    this.boat.slider.value = String(next);
    this.boat.moved();
    if (jump) this.halt(jump);
    else if (next === 1 && this.way > 0) {
      this.way = -1;
      this.halt("");
    } else if (next === 0 && this.way < 0) this.end();
  }

  // What is said where the way ends between two fillings and goes on elsewhere.
  jump(from, to) {
    const runs = this.way > 0 ? this.boat.dive.down : this.boat.dive.up;
    for (let k = 1; k < runs.length; k += 1) {
      const edges = [runs[k - 1][runs[k - 1].length - 1], runs[k][0]];
      const edge = edges[this.way > 0 ? 0 : 1][AT.filling];
      if (Math.min(from, to) >= edge || Math.max(from, to) < edge) continue;
      const [a, b] = [edges[0][AT.heel], edges[1][AT.heel]].map(Math.abs);
      const tips = Math.abs(edges[0][AT.trim] - edges[1][AT.trim]);
      return Math.abs(a - b) >= tips
        ? `Here she flops: leans ${(this.way > 0 ? b : a).toFixed(0)}°, before it ${(this.way > 0 ? a : b).toFixed(0)}°.`
        : `Here she flops: her trim jumps by ${tips.toFixed(0)}°.`;
    }
    return "";
  }

  halt(says) {
    this.until = performance.now() + 1000 * HALT;
    if (says) requestAnimationFrame(() => (this.boat.querySelector(".words").textContent = says));
  }

  end() {
    playing = null;
    this.button.textContent = "Play";
    for (const name of ["pointerdown", "keydown"]) this.boat.slider.removeEventListener(name, this.stop);
    if (this.boat.isConnected) this.boat.released();
  }
}

// The button was pressed.
export function pressed(button) {
  if (playing) playing.end();
  else playing = new Play(button.closest("boat-drawing"), button);
}
