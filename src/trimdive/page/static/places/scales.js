// The weight table: moved in by keys as in a spreadsheet, pasted into, sorted and looked through here.

import { all, any, around, input, one, where, Working } from "../dom.js";
import { act } from "../fields.js";
import { take } from "../take.js";
import { isGoing } from "../morph.js";
import { ROOT } from "../root.js";
import { lettered } from "./beam.js";
import { Fresh } from "./scales_rows.js";

/** @type {Record<string, number>} */
const ROWS = { ArrowUp: -1, ArrowDown: 1 };
const LOOK = 120; // ms after a key before rows are looked through

/** @typedef {HTMLInputElement | HTMLSelectElement} Cell */
/** @typedef {{ rows: HTMLTableRowElement[], row: number, column: number }} At where a cell is among what is shown */

/**
 * What was understood of a list stands over the table: just read, it is brought into sight, however
 * long that took.
 * @param {File | undefined} file
 */
function bring(file) {
  if (file) take(`${ROOT}/scales/list`, file);
}

function see() {
  const list = any(document, "section.list[data-fresh]", HTMLElement);
  list?.removeAttribute("data-fresh");
  list?.querySelector("h2")?.scrollIntoView({ block: "center" });
}

/**
 * The cell within an element of the table, or round what an event is about.
 * @param {Element | null | undefined} found
 * @returns {Cell | null}
 */
function asCell(found) {
  return found instanceof HTMLInputElement || found instanceof HTMLSelectElement ? found : null;
}

/** @param {Cell} cell */
function select(cell) {
  if (cell instanceof HTMLInputElement) cell.select();
}

/** @param {Event} event */
const hush = (event) => event.stopPropagation();

/** @param {HTMLTableRowElement} row */
function massOf(row) {
  return Number(row.dataset.mass);
}

/**
 * The middle of what weighs along an axis, in metres.
 * @param {HTMLTableRowElement[]} rows
 * @param {"x" | "y" | "z"} axis
 */
function middle(rows, axis) {
  const mass = rows.reduce((sum, row) => sum + massOf(row), 0);
  return mass ? rows.reduce((sum, row) => sum + massOf(row) * Number(row.dataset[axis]), 0) / mass : 0;
}

/** @param {HTMLTableRowElement} row */
function spreadOf(row) {
  const cell = any(row, "td.spread .cell", HTMLInputElement);
  return parseFloat(cell?.value || (cell?.placeholder.slice(2) ?? "")) || 0;
}

/**
 * How rows of a column are put in order.
 * @param {string} column
 * @param {HTMLTableRowElement[]} rows
 * @returns {(a: HTMLTableRowElement, b: HTMLTableRowElement) => number}
 */
function order(column, rows) {
  /** @type {Record<string, (row: HTMLTableRowElement) => string>} */
  const words = {
    name: (row) => one(row, ".pick", HTMLElement).textContent.toLowerCase(),
    known: (row) => row.dataset.known ?? "",
  };
  const text = words[column];
  if (text) return (a, b) => (text(a) < text(b) ? -1 : text(a) > text(b) ? 1 : 0);
  const pivot = middle(rows, "x");
  /** @param {HTMLTableRowElement} row */
  const value = (row) =>
    column === "spread" ? spreadOf(row)
    : column === "pull" ? Math.abs(massOf(row) * (Number(row.dataset.x) - pivot))
    : Number(row.dataset[column]);
  return (a, b) => value(a) - value(b);
}

/**
 * Which rows are shown.
 * @param {string} show
 * @returns {(row: HTMLTableRowElement) => boolean}
 */
function fitting(show) {
  const [what, which] = show.split(/:(.*)/);
  switch (what) {
    case "group": return (row) => row.dataset.group === which;
    case "in": return (row) => row.dataset.inside === which;
    case "above": return (row) => row.dataset.above === "1";
    case "below": return (row) => row.dataset.above !== "1";
    case "guess": return (row) => row.dataset.known === "guess";
    default: return () => true;
  }
}

export class WeightList extends Working {
  /** @type {HTMLTableRowElement[]} */
  rows = []; // in the order of the boat file
  fresh = new Fresh();
  /** @type {Cell[]} */
  chosen = []; // cells of a column that are selected, from above

  /** @param {AbortSignal} signal */
  begin(signal) {
    this.rows = [...this.body().rows];
    this.fresh.begin(this);
    this.chosen = [];
    this.listen({ signal });
    lettered(signal);
    this.sort();
    this.look();
    requestAnimationFrame(see);
  }

  body() {
    return one(this, "table.weights > tbody", HTMLTableSectionElement);
  }

  /** @param {{ signal: AbortSignal }} until */
  listen(until) {
    this.addEventListener("keydown", (event) => this.key(event), until);
    this.addEventListener("paste", (event) => this.paste(event), until);
    this.addEventListener("focusin", (event) => {
      const path = where(event, "tr", HTMLElement)?.dataset.path;
      if (path && asCell(event.target instanceof Element ? event.target : null)) this.follow(path);
    }, until);
    one(this, ".to-new", HTMLElement).addEventListener("click", () => this.fresh.go(), until);
    one(this, ".fill", HTMLElement).addEventListener("click", () => this.fill(), until);
    one(this, ".all-weighed", HTMLElement).addEventListener("click", () => this.allWeighed(), until);
    this.addEventListener("pointerdown", (event) => {
      const cell = asCell(where(event, ".cell", HTMLElement));
      const from = asCell(document.activeElement);
      if (event.shiftKey && cell && from && from !== cell) {
        event.preventDefault();
        this.choose(from, cell);
      } else this.choose(null, null);
    }, until);
    this.addEventListener("click", (event) => {
      const column = where(event, "[data-sort]", HTMLElement)?.dataset.sort;
      const path = where(event, "[data-pick]", HTMLElement)?.dataset.pick;
      if (column) this.by(column);
      if (path) this.pick(path);
    }, until);
    one(this, "[name=scales_show]", HTMLSelectElement).addEventListener("change", () => this.look(), until);
    let soon = 0;
    input(this, "scales_find").addEventListener("input", () => {
      clearTimeout(soon);
      soon = window.setTimeout(() => this.look(), LOOK);
    }, until);
    const list = one(this, "input.list", HTMLInputElement);
    list.addEventListener("change", () => bring(list.files?.[0]), until);
    this.addEventListener("dragover", (event) => event.preventDefault(), until);
    this.addEventListener("drop", (event) => {
      event.preventDefault();
      bring(event.dataTransfer?.files[0]);
    }, until);
  }

  shown() {
    return [...this.body().rows].filter((row) => !row.hidden);
  }

  /**
   * Up, down and Enter go from row to row; left and right from cell to cell at the end of its text.
   * W on a mass says that it is weighed, Ctrl-D fills down; Ctrl and Enter begin a new row.
   * @param {KeyboardEvent} event
   */
  key(event) {
    const cell = asCell(where(event, ".cell", HTMLElement));
    const isNew = event.key === "Enter" && (event.ctrlKey || event.metaKey);
    const isFill = event.key.toLowerCase() === "d" && (event.ctrlKey || event.metaKey);
    if (isNew || (isFill && cell)) {
      event.preventDefault();
      if (isNew && cell) cell.dispatchEvent(new Event("change", { bubbles: true }));
      if (isNew) return this.fresh.go();
      return cell && this.fill(cell);
    }
    if (!cell) {
      if (event.key === "Enter" && event.target instanceof HTMLInputElement) event.preventDefault();
      return;
    }
    if (event.key.toLowerCase() === "w" && !event.ctrlKey && !event.metaKey && this.isWeighed(cell)) return event.preventDefault();
    if (this.fresh.key(event, cell)) return;
    if (!(cell instanceof HTMLInputElement)) return;
    if (event.key === "Escape") {
      if (cell.value === cell.defaultValue) return;
      event.preventDefault();
      cell.value = cell.defaultValue;
      cell.select();
      return;
    }
    if (event.key === "F2") {
      cell.setSelectionRange(cell.value.length, cell.value.length);
      return;
    }
    let next = null;
    if (event.key in ROWS) next = this.beside(cell, ROWS[event.key], 0);
    if (event.shiftKey && next) {
      event.preventDefault();
      return this.choose(this.anchor ?? cell, next);
    }
    if (event.key === "Enter") {
      next = this.beside(cell, event.shiftKey ? -1 : 1, 0);
      const row = next?.closest("tr");
      const isFirst = row && !row.dataset.path && !cell.closest("tbody.fresh");
      if (isFirst && !event.shiftKey) {
        cell.dispatchEvent(new Event("change", { bubbles: true }));
        event.preventDefault();
        return this.fresh.go();
      }
    }
    if (event.key === "ArrowRight" && cell.selectionStart === cell.value.length) next = this.beside(cell, 0, 1);
    if (event.key === "ArrowLeft" && cell.selectionEnd === 0) next = this.beside(cell, 0, -1);
    if (!next) return;
    event.preventDefault();
    event.stopPropagation();
    this.choose(null, null);
    next.focus();
    select(next);
  }

  /** @type {Cell | null} */
  anchor = null; // where what is selected begins

  /**
   * Selects the cells of a column between two.
   * @param {Cell | null} from
   * @param {Cell | null} to
   */
  choose(from, to) {
    for (const cell of this.chosen) cell.classList.remove("chosen");
    this.chosen = [];
    this.anchor = from;
    if (from && to) {
      const { rows, row, column } = this.at(from);
      const ends = [row, this.at(to).row].sort((a, b) => a - b);
      for (const each of rows.slice(ends[0], ends[1] + 1)) {
        const cell = this.cell(each, column);
        if (cell?.dataset.field) this.chosen.push(cell);
      }
      for (const cell of this.chosen) cell.classList.add("chosen");
      to.focus();
    }
    one(this, ".fill", HTMLButtonElement).disabled = this.chosen.length < 2;
    const many = this.chosen.length > 1 ? `These ${this.chosen.length} weighed` : "All weighed";
    one(this, ".all-weighed", HTMLElement).textContent = many;
  }

  /**
   * Puts the first of the selected cells into the others; with none selected the one above into this.
   * @param {Cell | null} cell
   */
  fill(cell = null) {
    let cells = this.chosen;
    const above = cell && this.beside(cell, -1, 0);
    if (cells.length < 2 && cell?.dataset.field && above) cells = [above, cell];
    if (cells.length < 2) return;
    const typed = cells[0].value;
    const into = cells.slice(isGoing(cells[0]) ? 0 : 1);
    act("scales fill", { cells: JSON.stringify(into.map((each) => ({ field: each.dataset.field, typed }))) });
  }

  /** The masses of the rows that are selected, or of all that are shown. */
  allWeighed() {
    const rows = this.chosen.length > 1 ? this.chosen.map((cell) => around(cell, "tr", HTMLTableRowElement)) : this.shown();
    const fields = rows.map((row) => row.querySelector("td.known .cell")).filter((cell) => cell instanceof HTMLSelectElement);
    act("scales weighed", { cells: JSON.stringify(fields.map((cell) => ({ field: cell.dataset.field, typed: "weighed" }))) });
  }

  /**
   * A mass, typed or there, is weighed: both are put in as one, and it goes on.
   * @param {Cell} cell
   */
  isWeighed(cell) {
    const row = around(cell, "tr", HTMLTableRowElement);
    if (!cell.closest("td.mass") || !(cell instanceof HTMLInputElement) || !/\d/.test(cell.value)) return false;
    const known = any(row, "td.known .cell", HTMLSelectElement);
    if (!known) return false;
    if (!row.dataset.path) {
      known.value = "weighed";
      one(row, "td.x .cell", HTMLInputElement).focus();
      return true;
    }
    const cells = [{ field: cell.dataset.field, typed: cell.value }, { field: known.dataset.field, typed: "weighed" }];
    const next = this.beside(cell, 1, 0);
    cell.defaultValue = cell.value; // it is sent with the other, and not again as it is left
    act("scales weighed", { cells: JSON.stringify(cells) });
    cell.addEventListener("change", hush);
    next?.focus();
    cell.removeEventListener("change", hush);
    if (next) select(next);
    return true;
  }

  /**
   * @param {Cell} cell
   * @returns {At}
   */
  at(cell) {
    const rows = [...this.shown(), ...this.fresh.rows()];
    const own = around(cell, "tr", HTMLTableRowElement);
    const column = around(cell, "td, th", HTMLTableCellElement).cellIndex;
    return { rows, row: rows.indexOf(own), column };
  }

  /**
   * @param {HTMLTableRowElement | undefined} row
   * @param {number} column
   */
  cell(row, column) {
    return asCell(row?.cells[column]?.querySelector(".cell"));
  }

  /**
   * @param {Cell} cell
   * @param {number} down
   * @param {number} right
   */
  beside(cell, down, right) {
    const { rows, row, column } = this.at(cell);
    for (let [i, j] = [row + down, column + right]; rows[i] && j >= 0 && j < rows[i].cells.length; i += down, j += right) {
      const found = this.cell(rows[i], j);
      if (found) return found;
    }
    return null;
  }

  /**
   * Several cells from a spreadsheet go in from here on, right and down.
   * @param {ClipboardEvent} event
   */
  paste(event) {
    const cell = asCell(where(event, ".cell", HTMLElement));
    const text = (event.clipboardData?.getData("text/plain") ?? "").replace(/\r\n?/g, "\n").replace(/\n$/, "");
    if (!cell || !/[\t\n]/.test(text)) return;
    event.preventDefault();
    const { rows, row, column } = this.at(cell);
    const cells = text.split("\n").flatMap((line, i) => line.split("\t").map((typed, j) => (
      { field: this.cell(rows[row + i], column + j)?.dataset.field, typed }
    ))).filter(({ field }) => field);
    act("scales paste", { cells: JSON.stringify(cells) });
  }

  /** @param {string} column */
  by(column) {
    const sorting = input(this, "scales_sort");
    sorting.value = sorting.value === `-${column}` ? "" : sorting.value === column ? `-${column}` : column;
    this.sort();
  }

  sort() {
    const sorting = input(this, "scales_sort").value;
    const isDown = sorting.startsWith("-");
    const column = isDown ? sorting.slice(1) : sorting;
    const compared = order(column, this.rows);
    const ordered = column ? [...this.rows].sort((a, b) => (isDown ? compared(b, a) : compared(a, b))) : this.rows;
    this.arrange(ordered);
    for (const head of all(this, "thead th", HTMLElement)) head.removeAttribute("aria-sort");
    const head = column ? this.querySelector(`[data-sort="${column}"]`)?.closest("th") : null;
    head?.setAttribute("aria-sort", isDown ? "descending" : "ascending");
  }

  /**
   * Puts rows in an order; whichever has the focus keeps it, where the browser can move it so.
   * @param {HTMLTableRowElement[]} rows
   */
  arrange(rows) {
    const body = this.body();
    rows.forEach((row, i) => {
      const there = body.rows[i] ?? null;
      if (there === row) return;
      if (row.isConnected && "moveBefore" in body) body.moveBefore(row, there);
      else body.insertBefore(row, there);
    });
  }

  look() {
    const fits = fitting(one(this, "[name=scales_show]", HTMLSelectElement).value);
    const find = input(this, "scales_find").value.trim().toLowerCase();
    for (const row of this.rows) {
      row.hidden = !fits(row) || !one(row, "th", HTMLElement).textContent.toLowerCase().includes(find);
    }
    this.sum();
  }

  sum() {
    const rows = this.shown();
    const line = one(this, "tr.shown", HTMLTableRowElement);
    line.hidden = rows.length === this.rows.length;
    one(this, ".of", HTMLElement).textContent = line.hidden ? "" : `${rows.length} of ${this.rows.length}`;
    if (line.hidden) return;
    const mass = rows.reduce((sum, row) => sum + massOf(row), 0);
    const { kilogram, metre, massUnit, lengthUnit, zero, way } = this.dataset;
    /** @param {number} value */
    const length = (value) => (mass ? `${Number((value * Number(metre)).toPrecision(4))} ${lengthUnit}` : "");
    one(line, ".mass", HTMLElement).textContent = `${Number((mass * Number(kilogram)).toPrecision(5))} ${massUnit}`;
    one(line, ".x", HTMLElement).textContent = length(Number(zero) + Number(way) * middle(rows, "x"));
    one(line, ".y", HTMLElement).textContent = length(middle(rows, "y"));
    one(line, ".z", HTMLElement).textContent = length(middle(rows, "z"));
  }

  /**
   * The row in which one types is marked; with a thing in hand, it is what is in hand.
   * @param {string} path
   */
  follow(path) {
    const inHand = any(document, "select[name=picked]", HTMLSelectElement)?.value;
    if (!inHand) mark(path);
    else if (inHand !== path) this.pick(path);
  }

  /** @param {string} path */
  pick(path) {
    const picked = any(document, "select[name=picked]", HTMLSelectElement);
    const isMoved = picked && [...picked.options].some((option) => option.value === path);
    if (picked && (isMoved || picked.value)) {
      picked.value = isMoved ? path : "";
      picked.dispatchEvent(new Event("change", { bubbles: true }));
    }
    mark(path);
  }
}

/** @param {string} path */
function mark(path) {
  for (const held of all(document, "weight-list tr.held, .balance .held, .scene .thing.held", Element)) held.classList.remove("held");
  const own = `[data-path="${CSS.escape(path)}"]`;
  for (const thing of all(document, `weight-list tr${own}, .balance ${own}, .scene .thing${own}`, Element)) thing.classList.add("held");
}

document.addEventListener("picked", ({ detail }) => {
  mark(detail);
  const row = any(document, `weight-list tr[data-path="${CSS.escape(detail)}"]`, HTMLElement);
  if (row && !row.contains(document.activeElement)) row.scrollIntoView({ block: "nearest" });
});
document.addEventListener("click", (event) => {
  const path = where(event, ".balance .weight", Element)?.getAttribute("data-path");
  if (path) any(document, "weight-list", WeightList)?.pick(path);
});

customElements.define("weight-list", WeightList);
