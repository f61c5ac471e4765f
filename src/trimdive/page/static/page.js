// <boat-drawing>: the slider moves the boat between the states of the dive; on release the exact
// state is fetched. Nothing runs while nothing moves.

import { ROOT } from "./root.js";
import { AT, between, turned } from "./interpolate.js";
import { Astern, Drawing } from "./drawing.js";
import { Drag } from "./drag.js";
import { over, weighs, written } from "./figures.js";
import { Track } from "./track.js";

const ONE = 0.02; // radians; way down and way up are one where she turns less between them
const LEVEL = 0.05; // degrees
let before = null; // how she lay and what was told before the page's part was changed

class BoatDrawing extends HTMLElement {
  connectedCallback() {
    this.dive = JSON.parse(this.querySelector(".dive").textContent);
    this.lie = JSON.parse(this.querySelector(".start").textContent);
    this.drawing = new Drawing(this.querySelector(".scene"), this.dive);
    this.astern = new Astern(this.querySelector(".astern"), this.dive);
    this.slider = this.querySelector("input[name=filling]");
    if (this.slider) this.listen();
    this.querySelector(".scene").addEventListener("pointerenter", () => this.cut(), { once: true });
    this.querySelector(".astern").addEventListener("focus", () => this.cut(), { once: true });
    this.sizes = new ResizeObserver(() => this.fit());
    this.sizes.observe(this.querySelector(".scene"));
    this.fit();
    if (before) this.compare();
    this.drag = new Drag(this);
  }

  // Shows her with a thing in hand somewhere else.
  trial(told, along, shift) {
    this.drawing.haunt(this.real ??= this.lie);
    this.show(told.lie);
    this.drawing.shiftTanks(along, shift);
    this.track?.trial(told.curve);
    this.tell(told);
  }

  untried() {
    if (!this.real) return;
    this.drawing.shiftTanks([], [0, 0]);
    this.drawing.ghost.replaceChildren();
    this.track?.trial(null);
    this.show(this.real);
    this.real = null;
    this.released();
  }

  disconnectedCallback() {
    this.sizes.disconnect();
    this.asked?.abort();
  }

  // Sections are loaded once she is pointed at.
  async cut() {
    await import("./section.js");
    this.show(this.lie);
  }

  listen() {
    this.track = new Track(this.querySelector(".track"), this.dive);
    this.slider.addEventListener("input", () => this.moved());
    this.slider.addEventListener("change", () => this.released());
    this.slider.addEventListener("keydown", (event) => {
      if (event.key === "Enter") event.preventDefault();
    });
  }

  fit() {
    this.drawing.fit();
    this.track?.fit();
    this.show(this.lie);
  }

  show(lie) {
    this.lie = lie;
    this.drawing.show(lie);
    this.astern.show(lie);
    this.track?.show(lie);
    this.dispatchEvent(new CustomEvent("lies", { bubbles: true })); // plan, section, gauges
  }

  // She stays on the way she is on as long as the other lies elsewhere.
  way(filling) {
    const [down, up] = [between(this.dive.down, filling), between(this.dive.up, filling)];
    const own = this.isUp ? up : down;
    if (turned(down, up) < ONE) this.isUp = filling < this.lie[AT.filling];
    return own;
  }

  moved() {
    this.form.elements.touched.value = "1";
    this.slider.parentElement.classList.add("touched");
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      const lie = this.way(Number(this.slider.value));
      this.form.elements.up.value = this.isUp ? "1" : "";
      this.show(lie);
      this.estimate(lie);
    });
  }

  get form() {
    return this.closest("form");
  }

  estimate(lie) {
    const tip = Math.abs(lie[AT.trim]);
    const end = tip < LEVEL ? "level" : `${lie[AT.trim] > 0 ? "bow" : "stern"} down`;
    const lean = Math.abs(lie[AT.heel]);
    const way = lie[AT.heel] > 0 ? "starboard" : "port";
    const words = `About ${this.full(lie)} full${lean > LEVEL ? `, heel ${lean.toFixed(1)}° to ${way}` : ""}`;
    const [size, unit, word = ""] = weighs(lie, this.dive.weight).split(" ");
    const bg = written(over(lie) * this.dive.length[0], this.dive.length);
    this.fill([
      { large: `${tip.toFixed(1)}°`, word: "", says: end },
      { large: unit ? `${size} ${unit}` : size, word, says: `${this.full(lie)} full` },
      { large: bg, word: "", says: "as she lies" },
    ]);
    this.querySelector(".words").setAttribute("aria-busy", "true"); // read out when exact
    this.querySelector(".words").textContent = `${words} …`;
    this.slider.setAttribute("aria-valuetext", `${this.full(lie)} full, trim ${tip.toFixed(1)}° ${end}`);
    this.drawing.ghost.replaceChildren();
  }

  full(lie) {
    const [low, high] = this.dive.full;
    return `${Math.round(100 * (low + lie[AT.filling] * (high - low)))} %`;
  }

  async released() {
    this.asked?.abort();
    this.asked = new AbortController();
    const asked = new URLSearchParams({ filling: this.slider.value, up: this.isUp ? "1" : "" });
    try {
      const answer = await fetch(`${ROOT}/state?${asked}`, { signal: this.asked.signal });
      if (!answer.ok) return refused(await answer.text());
      const told = await answer.json();
      if (String(told.revision) !== this.form.elements.revision.value) return;
      cancelAnimationFrame(this.frame);
      this.frame = 0;
      this.show(told.lie);
      this.tell(told);
    } catch (error) {
      if (error.name !== "AbortError") gone();
    }
  }

  tell(told) {
    this.querySelector(".words").textContent = told.words;
    this.querySelector(".words").removeAttribute("aria-busy");
    this.fill(told.figures);
  }

  fill(figures) {
    const shown = [...this.querySelectorAll(".figures > div:not(.lean)")];
    figures.forEach((figure, i) => {
      shown[i].querySelector(".large").textContent = figure.large;
      shown[i].querySelector(".word").textContent = figure.word;
      shown[i].querySelector(".explained").textContent = figure.says;
    });
  }

  figures() {
    return [...this.querySelectorAll(".figures .value")].map((one) => one.textContent.replace(/\s+/g, " ").trim());
  }

  compare() {
    this.drawing.haunt(before.lie);
    const now = this.figures();
    [...this.querySelectorAll(".figures .was")].forEach((one, i) => {
      if (before.figures[i] !== now[i]) one.textContent = `was ${before.figures[i]}`;
    });
    before = null;
  }
}

function refused(text) {
  const note = document.getElementById("note");
  note.className = "refused";
  note.replaceChildren(Object.assign(document.createElement("p"), { textContent: text.slice(0, 300) }));
}

function gone() {
  document.getElementById("gone").hidden = false;
}

customElements.define("boat-drawing", BoatDrawing);

// Looked at again, a window shows how she is now: changed in another one, or on disk.
window.addEventListener("focus", async () => {
  try {
    const now = await (await fetch(`${ROOT}/now`)).json();
    const own = document.querySelector("input[name=revision]").value;
    const isTold = document.querySelector("#note.changed-on-disk") !== null;
    if (String(now.revision) !== own || now.is_changed_on_disk !== isTold) location.reload();
  } catch {
    gone();
  }
});

document.addEventListener("htmx:beforeSwap", () => {
  const boat = document.querySelector("boat-drawing");
  before = { lie: boat.real ?? boat.lie, figures: boat.drag.was ?? boat.figures() };
});
document.addEventListener("htmx:afterSettle", () => {
  if (document.activeElement === document.body) document.querySelector("h2")?.focus({ preventScroll: true });
  looked();
});
// What is wanted now and then is loaded when it is first pressed.
document.addEventListener("click", async (event) => {
  const button = event.target.closest?.("[data-loads]");
  if (button) (await import(`./${button.dataset.loads}.js`)).pressed(button);
});
document.addEventListener("gone", gone);
document.addEventListener("refused", (event) => refused(event.detail));

// A moment after a change it has been saved by itself; the page says so, or why not.
async function looked() {
  await new Promise((done) => setTimeout(done, 1500));
  const button = document.querySelector("button.save");
  if (!button || button.disabled) return;
  try {
    const now = await (await fetch(`${ROOT}/now`)).json();
    if (String(now.revision) !== document.querySelector("input[name=revision]").value) return;
    button.disabled = now.is_saved;
    button.textContent = now.is_saved ? "Saved" : "Save";
    if (now.trouble) refused(`Not saved yet. ${now.trouble}`);
  } catch {
    gone();
  }
}
document.addEventListener("htmx:sendError", gone);
document.addEventListener("htmx:responseError", (event) => refused(event.detail.xhr.responseText));
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const pressed = { z: event.shiftKey ? "redo" : "undo", y: "redo", s: "save" }[event.key.toLowerCase()];
  const button = pressed && document.querySelector(`button[value="${pressed}"]`);
  if (!button) return;
  event.preventDefault();
  if (!button.disabled) button.click();
});
