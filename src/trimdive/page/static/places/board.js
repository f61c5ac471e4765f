// The drawing board: cells of a table of lines, and what is picked in a row is picked in the drawing.

import { act } from "../fields.js";

document.addEventListener("change", (event) => {
  const { cell, shape } = event.target.dataset ?? {};
  if (cell) act(`board cell ${cell}`, { cell: event.target.value });
  if (shape) act(`board shape ${shape}`, { shape: event.target.value });
});

// Arrow keys go up and down in a table, Enter takes what was typed and goes down.
document.addEventListener("keydown", (event) => {
  if (!event.target.matches?.(".cells input, .pieces input")) return;
  const step = { ArrowUp: -1, ArrowDown: 1 }[event.key];
  if (event.key === "Enter") {
    event.preventDefault();
    if (event.target.dataset.cell) event.target.dispatchEvent(new Event("change", { bubbles: true }));
  }
  if (!step) return;
  const row = event.target.closest("tr");
  const column = [...row.children].indexOf(event.target.closest("td"));
  const next = (step > 0 ? row.nextElementSibling : row.previousElementSibling)?.children[column]?.querySelector("input");
  if (!next) return;
  event.preventDefault();
  next.focus();
  next.select();
});

function pick(path, isPicked) {
  for (const one of document.querySelectorAll(`.board-drawing [data-path="${path}"]`)) one.classList.toggle("picked", isPicked);
}

for (const [name, isPicked] of [["focusin", true], ["focusout", false], ["mouseover", true], ["mouseout", false]]) {
  document.addEventListener(name, (event) => {
    const path = event.target.closest?.(".pieces tr[data-path]")?.dataset.path;
    if (path) pick(path, isPicked);
  });
}

// A thing pressed in the drawing: its row.
document.addEventListener("click", (event) => {
  const path = event.target.closest?.(".board-drawing [data-path]")?.dataset.path;
  if (path) document.querySelector(`.pieces tr[data-path="${path}"] input`)?.focus();
});

// What was unfolded stays so when something is changed.
let unfolded = [];
document.addEventListener("htmx:beforeSwap", () => {
  unfolded = [...document.querySelectorAll("details[id][open]")].map((one) => one.id);
});
document.addEventListener("htmx:afterSwap", () => {
  for (const id of unfolded) document.getElementById(id)?.setAttribute("open", "");
});
