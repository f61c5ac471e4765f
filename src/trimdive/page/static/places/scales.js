// The weight table: moved in by keys as in a spreadsheet, pasted into, sorted and looked through here.

import { ROOT } from "../root.js";
import { act, take } from "../fields.js";

const ROWS = { ArrowUp: -1, ArrowDown: 1 };
const LOOK = 120; // ms after a key before rows are looked through

// What was understood of a list stands over the table: just read, it is brought into sight, however
// long that took.
const bring = (file) => take(`${ROOT}/scales/list`, file);

function see() {
  const list = document.querySelector("section.list[data-fresh]");
  list?.removeAttribute("data-fresh");
  list?.querySelector("h2").scrollIntoView({ block: "center" });
}

class WeightList extends HTMLElement {
  connectedCallback() {
    this.body = this.querySelector("tbody");
    this.rows = [...this.body.rows];
    this.sorting = this.querySelector("[name=scales_sort]");
    this.show = this.querySelector("[name=scales_show]");
    this.find = this.querySelector("[name=scales_find]");
    this.listen();
    this.sort();
    this.look();
    requestAnimationFrame(see);
  }

  listen() {
    this.addEventListener("keydown", (event) => this.key(event));
    this.addEventListener("paste", (event) => this.paste(event));
    this.addEventListener("click", (event) => {
      const head = event.target.closest("[data-sort]");
      const pick = event.target.closest("[data-pick]");
      if (head) this.by(head.dataset.sort);
      if (pick) this.pick(pick.dataset.pick);
    });
    this.show.addEventListener("change", () => this.look());
    this.find.addEventListener("input", () => {
      clearTimeout(this.soon);
      this.soon = setTimeout(() => this.look(), LOOK);
    });
    this.querySelector("input.list").addEventListener("change", (event) => {
      const [file] = event.target.files;
      if (file) bring(file);
    });
    this.addEventListener("dragover", (event) => event.preventDefault());
    this.addEventListener("drop", (event) => {
      event.preventDefault();
      const [file] = event.dataTransfer.files;
      if (file) bring(file);
    });
  }

  shown() {
    return [...this.body.rows].filter((row) => !row.hidden);
  }

  // Up, down and Enter go from row to row; left and right from cell to cell at the end of its text.
  key(event) {
    const cell = event.target.closest(".cell");
    if (!cell) {
      if (event.key === "Enter" && event.target.matches("input")) event.preventDefault();
      return;
    }
    if (event.key === "Escape") {
      cell.value = cell.defaultValue ?? cell.value;
      cell.select?.();
      return;
    }
    if (event.key === "F2") {
      cell.setSelectionRange?.(cell.value.length, cell.value.length);
      return;
    }
    const isText = cell.tagName === "INPUT";
    let next = null;
    if (event.key in ROWS && isText) next = this.beside(cell, ROWS[event.key], 0);
    if (event.key === "Enter" && isText) next = this.beside(cell, event.shiftKey ? -1 : 1, 0);
    if (event.key === "ArrowRight" && isText && cell.selectionStart === cell.value.length) next = this.beside(cell, 0, 1);
    if (event.key === "ArrowLeft" && isText && cell.selectionEnd === 0) next = this.beside(cell, 0, -1);
    if (!next) return;
    event.preventDefault();
    event.stopPropagation();
    next.focus();
    next.select?.();
  }

  beside(cell, down, right) {
    const rows = this.shown();
    const cells = (row) => [...row.querySelectorAll("td")];
    const at = rows.indexOf(cell.closest("tr"));
    const column = cells(rows[at]).indexOf(cell.closest("td"));
    for (let [i, j] = [at + down, column + right]; rows[i] && j >= 0 && j < 7; [i, j] = [i + down, j + right]) {
      const found = cells(rows[i])[j]?.querySelector(".cell");
      if (found) return found;
    }
    return null;
  }

  // Several cells from a spreadsheet go in from here on, right and down.
  paste(event) {
    const cell = event.target.closest(".cell");
    const text = event.clipboardData.getData("text/plain").replace(/\r\n?/g, "\n").replace(/\n$/, "");
    if (!cell || !/[\t\n]/.test(text)) return;
    event.preventDefault();
    const rows = this.shown();
    const at = rows.indexOf(cell.closest("tr"));
    const column = [...rows[at].querySelectorAll("td")].indexOf(cell.closest("td"));
    const cells = [];
    text.split("\n").forEach((line, i) => {
      line.split("\t").forEach((typed, j) => {
        const one = rows[at + i]?.querySelectorAll("td")[column + j]?.querySelector(".cell");
        if (one) cells.push([one.dataset.field, typed]);
      });
    });
    act("scales paste", { cells: JSON.stringify(cells) });
  }

  by(column) {
    this.sorting.value = this.sorting.value === `-${column}` ? "" : this.sorting.value === column ? `-${column}` : column;
    this.sort();
  }

  sort() {
    const [, sign, column] = /^(-?)(.*)$/.exec(this.sorting.value);
    const middle = this.middle();
    const value = (row) => ({
      name: row.querySelector(".pick").textContent.toLowerCase(),
      known: row.dataset.known,
      spread: parseFloat(row.querySelector("td.spread .cell")?.value || row.querySelector("td.spread .cell")?.placeholder.slice(2)) || 0,
      pull: Math.abs(row.dataset.mass * (row.dataset.x - middle)),
    })[column] ?? Number(row.dataset[column]);
    const ordered = column ? [...this.rows].sort((a, b) => {
      const [one, other] = [value(a), value(b)];
      return (one < other ? -1 : one > other ? 1 : 0) * (sign ? -1 : 1);
    }) : this.rows;
    this.body.append(...ordered);
    for (const head of this.querySelectorAll("thead th")) head.removeAttribute("aria-sort");
    const head = column ? this.querySelector(`[data-sort="${column}"]`) : null;
    head?.closest("th").setAttribute("aria-sort", sign ? "descending" : "ascending");
  }

  middle(rows = this.rows) {
    const mass = rows.reduce((sum, row) => sum + Number(row.dataset.mass), 0);
    return mass ? rows.reduce((sum, row) => sum + row.dataset.mass * row.dataset.x, 0) / mass : 0;
  }

  look() {
    const [show, find] = [this.show.value, this.find.value.trim().toLowerCase()];
    const [what, which] = show.split(/:(.*)/);
    const fits = {
      "": () => true,
      group: (row) => row.dataset.group === which,
      in: (row) => row.dataset.inside === which,
      above: (row) => row.dataset.above === "1",
      below: (row) => row.dataset.above !== "1",
      guess: (row) => row.dataset.known === "guess",
    }[what];
    for (const row of this.rows) {
      row.hidden = !fits(row) || !row.querySelector("th").textContent.toLowerCase().includes(find);
    }
    this.sum();
  }

  sum() {
    const rows = this.shown();
    const line = this.querySelector("tr.shown");
    line.hidden = rows.length === this.rows.length;
    this.querySelector(".of").textContent = line.hidden ? "" : `${rows.length} of ${this.rows.length}`;
    if (line.hidden) return;
    const mass = rows.reduce((sum, row) => sum + Number(row.dataset.mass), 0);
    const at = (axis) => (mass ? rows.reduce((sum, row) => sum + row.dataset.mass * row.dataset[axis], 0) / mass : 0);
    const { kilogram, metre, massUnit, lengthUnit, zero, way } = this.dataset;
    const length = (value) => `${Number((value * metre).toPrecision(4))} ${lengthUnit}`;
    line.querySelector(".mass").textContent = `${Number((mass * kilogram).toPrecision(5))} ${massUnit}`;
    line.querySelector(".x").textContent = mass ? length(Number(zero) + way * at("x")) : "";
    line.querySelector(".y").textContent = mass ? length(at("y")) : "";
    line.querySelector(".z").textContent = mass ? length(at("z")) : "";
  }

  pick(path) {
    const picked = document.querySelector("select[name=picked]");
    if (!picked || ![...picked.options].some((one) => one.value === path)) return mark(path);
    picked.value = path;
    picked.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

function mark(path) {
  for (const one of document.querySelectorAll("weight-list tr.held, .balance .held")) one.classList.remove("held");
  const row = document.querySelector(`weight-list tr[data-path="${CSS.escape(path)}"]`);
  row?.classList.add("held");
  document.querySelector(`.balance [data-path="${CSS.escape(path)}"]`)?.classList.add("held");
  return row;
}

document.addEventListener("picked", (event) => mark(event.detail));
document.addEventListener("click", (event) => {
  const box = event.target.closest?.(".balance .weight");
  if (box) document.querySelector("weight-list")?.pick(box.dataset.path);
});

customElements.define("weight-list", WeightList);
