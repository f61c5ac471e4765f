// The drawing board: cells of a table of lines, and what is picked in a row is picked in the drawing.

import { all, any, where } from "../dom.js";
import { act, files } from "../fields.js";
import "../folds.js";
import { bringing } from "./bringing.js";
import "./fit.js";
import "./parts.js"; // which asks for the drawings

// In 3D: loaded when it is unfolded.
document.addEventListener("toggle", (event) => {
  if (where(event, "details.in-3d", HTMLDetailsElement)?.open) import("./solid.js");
}, true);

// A plan that is open, likewise; and a picture of one that is brought.
const trace = () => document.querySelector("plan-tracer") && files("trace.css trace.js");
document.addEventListener("htmx:afterSwap", trace);
trace();
bringing("board/plan");

// Enter in a field of a question beside the boat file asks it.
document.addEventListener("keydown", (event) => {
  const asks = event.key === "Enter" && where(event, "[data-enter]", HTMLInputElement)?.dataset.enter;
  if (!asks) return;
  event.preventDefault();
  act(asks);
});

/** @type {Record<string, "previousElementSibling" | "nextElementSibling">} */
const ROWS = { ArrowUp: "previousElementSibling", ArrowDown: "nextElementSibling" };

document.addEventListener("change", (event) => {
  const at = event.target;
  if (!(at instanceof HTMLInputElement || at instanceof HTMLSelectElement)) return;
  const { cell, shape } = at.dataset;
  if (cell) act(`board cell ${cell}`, { cell: at.value });
  if (shape) act(`board shape ${shape}`, { shape: at.value });
});

// Arrow keys go up and down in a table, Enter takes what was typed and goes down.
document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (!(at instanceof HTMLInputElement) || !at.matches(".cells input, .pieces input")) return;
  const row = at.closest("tr");
  const cell = at.closest("td");
  if (event.key === "Enter") {
    event.preventDefault();
    if (at.dataset.cell) at.dispatchEvent(new Event("change", { bubbles: true }));
  }
  const way = ROWS[event.key];
  if (!way || !row || !cell) return;
  const beside = row[way]?.children[[...row.children].indexOf(cell)];
  const next = beside && any(beside, "input", HTMLInputElement);
  if (!next) return;
  event.preventDefault();
  next.focus();
  next.select();
});

/**
 * @param {string} path
 * @param {boolean} isPicked
 */
function pick(path, isPicked) {
  const drawn = `:is(.board-drawing, .scene) [data-path="${CSS.escape(path)}"]`;
  for (const thing of all(document, drawn, Element)) thing.classList.toggle("picked", isPicked);
}

/**
 * The row of a piece, the fold in which it stands opened.
 * @param {string} path
 */
function rowOf(path) {
  const row = any(document, `.pieces tr[data-path="${CSS.escape(path)}"]`, HTMLElement);
  const fold = row?.closest("details");
  if (fold) fold.open = true;
  return row;
}

// What is picked elsewhere, as in the picture in 3D, is picked in the drawings and in its row.
document.addEventListener("picked", ({ detail }) => {
  for (const one of all(document, ":is(.board-drawing, .scene, .pieces) .picked", Element)) one.classList.remove("picked");
  pick(detail, true);
  rowOf(detail)?.classList.add("picked");
});

for (const name of ["focusin", "focusout", "mouseover", "mouseout"]) {
  document.addEventListener(name, (event) => {
    const path = where(event, ".pieces tr[data-path]", HTMLElement)?.dataset.path;
    if (path) pick(path, name === "focusin" || name === "mouseover");
  });
}

// A thing pressed in the plan, or in the boat above: its row, and the fold in which that stands.
document.addEventListener("click", (event) => {
  const path = where(event, ".board-drawing [data-path], .scene .thing[data-path]", Element)?.getAttribute("data-path");
  const row = path && rowOf(path);
  if (row) any(row, "input", HTMLInputElement)?.focus();
});
