// What runs beside the board: how far it is. And each way out of a thing, played in its picture.

import { all, any, around, one, where } from "../dom.js";
import { go } from "../fields.js";
import { ROOT } from "../root.js";

const PAUSE = 700; // ms between two looks at what runs
const LASTS = 2600; // ms that a way out is played
let looking = 0;

async function look() {
  clearTimeout(looking);
  const rooms = all(document, "[data-running]", HTMLElement);
  if (!rooms.length) return;
  const running = await Promise.all(rooms.map(runs));
  if (running.includes(false)) return go("board", false);
  looking = window.setTimeout(look, PAUSE);
}

/**
 * Shows how far a work is; returns whether it still runs.
 * @param {HTMLElement} room
 */
async function runs(room) {
  const answer = await fetch(`${ROOT}/board/progress?of=${room.dataset.running}`).catch(() => null);
  if (!answer?.ok || !room.isConnected) return true;
  /** @type {{ is_running: boolean, took: number, lines: string[] }} */
  const now = await answer.json();
  if (!now.is_running) return false;
  one(room, ".fit-took", HTMLElement).textContent = `${Math.round(now.took)} s`;
  const lines = now.lines.map((text) => Object.assign(document.createElement("li"), { textContent: text }));
  if (lines.length) any(around(room, ".within", HTMLElement), "[data-stages]", HTMLElement)?.replaceChildren(...lines);
  return true;
}
look();
document.addEventListener("htmx:afterSwap", look);

/**
 * The poses of a way: forward and up [mm], bow up [degrees].
 * @param {SVGElement} thing
 */
const posesOf = (thing) => (thing.dataset.poses ?? "").split(";").map((pose) => pose.split(" ").map(Number));

/**
 * Puts a thing where it is when so much of its way is done.
 * @param {HTMLInputElement} handle
 */
function put(handle) {
  const section = around(handle, ".way-out", HTMLElement);
  const thing = one(section, ".moves", SVGElement);
  const poses = posesOf(thing);
  const lengths = poses.slice(1).map((pose, k) => Math.hypot(...pose.map((at, i) => at - poses[k][i])));
  let left = (Number(handle.value) / 1000) * lengths.reduce((sum, each) => sum + each, 0);
  let leg = 0;
  while (leg < lengths.length - 1 && left > lengths[leg]) left -= lengths[leg++];
  const share = lengths[leg] ? Math.min(left / lengths[leg], 1) : 0;
  const [x, z, pitch] = poses[leg].map((at, i) => at + share * (poses[leg + 1][i] - at));
  const [u, v] = (thing.dataset.about ?? "0 0").split(" ").map(Number);
  thing.setAttribute("transform", `translate(${x} ${-z}) rotate(${-pitch} ${u} ${v})`);
  handle.setAttribute("aria-valuetext", `${Math.round(Number(handle.value) / 10)} % of its way out`);
}

document.addEventListener("input", (event) => {
  if (event.target instanceof HTMLInputElement && event.target.matches("[data-way]")) put(event.target);
});

document.addEventListener("click", (event) => {
  const button = where(event, "[data-play]", HTMLButtonElement);
  if (!button) return;
  const handle = one(around(button, ".way-out", HTMLElement), "[data-way]", HTMLInputElement);
  if (matchMedia("(prefers-reduced-motion: reduce)").matches) {
    handle.value = "1000";
    put(handle);
    return;
  }
  const began = performance.now();
  /** @param {number} now */
  const frame = (now) => {
    const share = Math.min((now - began) / LASTS, 1);
    handle.value = `${Math.round(1000 * share)}`;
    put(handle);
    if (share < 1 && handle.isConnected) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
});

for (const handle of all(document, "[data-way]", HTMLInputElement)) put(handle);
