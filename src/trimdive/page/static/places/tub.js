// What is chosen in the Tub is held by the form; answers that take a while are asked for beside it,
// and progress only while something runs.

import { all, any, around, input, one, where } from "../dom.js";
import { files, go } from "../fields.js";
import { restore } from "../folds.js";
import { ROOT } from "../root.js";

import { bringing } from "./bringing.js";

const PAUSE = 500; // ms between two looks at what runs
let looking = 0;

/** @param {string} at */
function open(at) {
  input(document, "tub.at").value = at;
  return go("tub", false);
}

const SECTIONS = "details[id^=fold-tub-]";

/** Asks for what is in the folds that were opened, and says which are. */
function opened() {
  const at = any(document, '[name="tub.at"]', HTMLInputElement);
  if (!at || at.value === "wet") return;
  const folds = all(document, SECTIONS, HTMLDetailsElement).filter((fold) => fold.open);
  at.value = folds.map((fold) => fold.id.slice("fold-tub-".length)).join(" ");
  if (folds.some((fold) => fold.querySelector("[data-tub-closed]"))) go("tub", false);
}

document.addEventListener("toggle", ({ target }) => {
  if (target instanceof HTMLDetailsElement && target.matches(SECTIONS)) opened();
}, true);

/** @param {HTMLElement} room */
async function later(room) {
  const address = room.dataset.tubLater ?? "";
  if (room.dataset.asked === address) return;
  room.dataset.asked = address;
  const answer = await fetch(address).catch(() => null);
  if (!room.isConnected || room.dataset.tubLater !== address) return;
  if (!answer?.ok) {
    room.textContent = "It could not be calculated. Open it again.";
    return;
  }
  room.innerHTML = await answer.text();
  room.removeAttribute("aria-busy");
  delete room.dataset.tubLater;
  delete room.dataset.asked;
  restore();
  if (!document.querySelector(".tub-field .wrong")) wrong(room);
}

/**
 * What was typed wrong stands beside its field, once the answer is there.
 * @param {HTMLElement} room
 */
function wrong(room) {
  for (const says of all(room, "[data-tub-wrong]", HTMLElement)) {
    const typed = document.getElementById(says.dataset.tubWrong ?? "");
    if (!typed) continue;
    says.hidden = false;
    typed.setAttribute("aria-invalid", "true");
    typed.setAttribute("aria-describedby", says.id);
    around(typed, "label", HTMLElement).after(says);
  }
}

async function look() {
  clearTimeout(looking);
  const rooms = all(document, "[data-tub-running]", HTMLElement);
  if (!rooms.length) return;
  const running = await Promise.all(rooms.map(runs));
  if (running.includes(false)) return go("tub", false);
  looking = window.setTimeout(look, PAUSE);
}

/**
 * Shows how far a work is; returns whether it still runs.
 * @param {HTMLElement} room
 */
async function runs(room) {
  const of = room.dataset.tubRunning;
  const answer = await fetch(`${ROOT}/tub/progress?of=${of}`).catch(() => null);
  if (!answer?.ok || !room.isConnected || room.dataset.tubRunning !== of) return true;
  /** @type {{ is_running: boolean, took: number, lines: string[] }} */
  const now = await answer.json();
  if (!now.is_running) return false;
  one(room, ".tub-took", HTMLElement).textContent = `${Math.round(now.took)} s`;
  const lines = now.lines.map((text) => Object.assign(document.createElement("li"), { textContent: text }));
  any(room, ".tub-told", HTMLElement)?.replaceChildren(...lines);
  return true;
}

function wake() {
  for (const room of all(document, "[data-tub-later]", HTMLElement)) later(room);
  look();
}
wake();
document.addEventListener("htmx:afterSwap", wake);

// A photograph that is open takes the whole place; and one that is brought.
const trace = () => document.querySelector("plan-tracer") && files("trace.css trace.js");
document.addEventListener("htmx:afterSwap", trace);
trace();
bringing("tub/photo");

document.addEventListener("click", (event) => {
  const pressed = where(event, "[data-tub-at], [data-tub-order], [data-tub-example], [data-wet]", HTMLElement);
  if (!pressed || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const { tubAt, tubOrder, tubExample, wet } = pressed.dataset;
  if (tubAt !== undefined) {
    event.preventDefault();
    open(tubAt);
  } else if (tubOrder !== undefined) {
    input(document, "tub.order").value = tubOrder;
    go("tub", false);
  } else if (tubExample !== undefined) {
    event.preventDefault();
    const typed = input(document, "tub.reading");
    typed.value = tubExample;
    typed.focus();
  } else press(wet ?? "");
});

/**
 * A key of the pad for wet hands; none takes the last one back.
 * @param {string} word
 */
function press(word) {
  const typed = input(document, "wet.text");
  if (word) {
    typed.value += word;
    return;
  }
  const words = all(document, "[data-wet]", HTMLElement).map((key) => key.dataset.wet ?? "").sort((a, b) => b.length - a.length);
  const last = words.find((one) => one && typed.value.endsWith(one));
  typed.value = typed.value.slice(0, -(last?.length ?? 1));
}

document.addEventListener("change", (event) => {
  const at = event.target;
  if (!(at instanceof HTMLInputElement || at instanceof HTMLSelectElement) || !at.closest(".place.tub")) return;
  if (!at.name.startsWith("tub.") || at.name === "tub.reading") return;
  if (document.querySelector("[data-tub-running]")) return;
  go("tub", false);
});

document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (!(at instanceof Element) || (!at.closest(".place.tub") && at !== document.body)) return;
  if (event.key === "Enter" && at instanceof HTMLInputElement && /^(tub|wet)\./.test(at.name)) {
    event.preventDefault();
    const button = any(document, `[data-tub-enter="${at.name}"]`, HTMLElement);
    if (button) button.click();
    else at.dispatchEvent(new Event("change", { bubbles: true }));
    return;
  }
  if (!document.querySelector(".wet-hands") || at.matches("input, select") || event.ctrlKey || event.metaKey || event.altKey) return;
  const button = any(document, `.wet-hands [data-key="${CSS.escape(event.key)}"]`, HTMLElement);
  if (!button) return;
  event.preventDefault();
  button.click();
});

// Opened by its address: what is asked for there is open, and all that was left open.
const first = new URLSearchParams(location.search).get("tub.at") ?? "";
for (const key of first.split(" ")) {
  const fold = any(document, `#fold-tub-${CSS.escape(key)}`, HTMLDetailsElement);
  if (fold) fold.open = true;
}
opened();
