// New rows of the weight table: typed one after another, sent while the next is typed. What is refused
// stays, with the reason in its row.

import { all, any, one } from "../dom.js";
import { act } from "../fields.js";

/** @typedef {HTMLInputElement | HTMLSelectElement} Cell */
/** @typedef {Record<string, [string, string] | null>} Told field and sentence, by the key of a row; null: it was put in */

/** @type {Map<string, HTMLTableRowElement>} */
const sent = new Map(); // by their keys
let number = 0;
let isSending = false;
/** @type {HTMLTableRowElement[]} */
let kept = []; // while another place is shown
const ON = ["known", "inside", "kind", "material"]; // that the next row begins with

/** @param {HTMLTableRowElement} row */
const cells = (row) => [...all(row, "[data-new]", HTMLElement)].filter((cell) => cell instanceof HTMLInputElement || cell instanceof HTMLSelectElement);
/** @param {HTMLTableRowElement} row */
const isBlank = (row) => !["name", "mass", "x"].some((key) => cell(row, key).value.trim());

/**
 * @param {HTMLTableRowElement} row
 * @param {string} key
 */
function cell(row, key) {
  const found = cells(row).find((each) => each.dataset.new === key);
  if (found) return found;
  throw new Error(`There is no ${key} in this row.`);
}

export class Fresh {
  /** @type {HTMLElement | null} */
  list = null;

  /** @param {HTMLElement} list of weights */
  begin(list) {
    this.list = list;
    const told = any(list, "script.added", HTMLScriptElement);
    if (told) this.told(JSON.parse(told.text));
    told?.remove();
    const body = this.body();
    if (!body.rows.length) body.append(...kept);
    if (!body.rows.length || [...body.rows].every((row) => row.dataset.key)) this.one();
    kept = [...body.rows];
    if (body.contains(document.activeElement)) document.activeElement?.scrollIntoView({ block: "nearest" });
  }

  body() {
    return one(/** @type {HTMLElement} */ (this.list), "tbody.fresh", HTMLTableSectionElement);
  }

  rows() {
    return [...this.body().rows];
  }

  /** One more row; it begins as the row before ended. */
  one() {
    const body = this.body();
    const last = body.rows[body.rows.length - 1];
    const template = one(/** @type {HTMLElement} */ (this.list), "template.fresh-row", HTMLTemplateElement);
    const row = one(/** @type {DocumentFragment} */ (template.content.cloneNode(true)), "tr", HTMLTableRowElement);
    if (last) for (const key of ON) cell(row, key).value = cell(last, key).value;
    one(row, ".put-in", HTMLElement).addEventListener("click", () => this.put(row));
    body.append(row);
    kept = [...body.rows];
    return row;
  }

  /** To the row that is still to be typed. */
  go() {
    const body = this.body();
    const row = this.rows().find((each) => !each.dataset.key && isBlank(each)) ?? body.rows[body.rows.length - 1];
    const first = cell(row.dataset.key ? this.one() : row, "name");
    first.focus();
    first.scrollIntoView({ block: "nearest" });
  }

  /**
   * Enter puts a row in and goes on to the next; Escape clears it.
   * @param {KeyboardEvent} event
   * @param {Cell} at
   */
  key(event, at) {
    const row = at.closest("tbody.fresh tr");
    if (!(row instanceof HTMLTableRowElement)) return false;
    if (event.key === "Escape") {
      if (isBlank(row)) return true;
      for (const each of cells(row)) if (each instanceof HTMLInputElement) each.value = "";
      event.preventDefault();
      cell(row, "name").focus();
      return true;
    }
    if (event.key !== "Enter" || event.shiftKey) return false;
    event.preventDefault();
    event.stopPropagation();
    if (!isBlank(row)) this.put(row);
    return true;
  }

  /** @param {HTMLTableRowElement} row */
  put(row) {
    if (row.dataset.key || isBlank(row)) return;
    row.dataset.key = String(++number);
    sent.set(row.dataset.key, row);
    for (const wrong of all(row, ".wrong", HTMLElement)) wrong.remove();
    for (const each of cells(row)) {
      each.removeAttribute("aria-invalid");
      if (each instanceof HTMLInputElement) each.readOnly = true;
    }
    const next = this.rows().find((each) => !each.dataset.key) ?? this.one();
    const first = cell(next, "name");
    first.focus();
    first.scrollIntoView({ block: "nearest" });
    this.send();
  }

  /** All that wait, together; one answer at a time. */
  async send() {
    if (isSending) return;
    const rows = [...sent].filter(([, row]) => !row.hasAttribute("data-under-way"));
    if (!rows.length) return;
    isSending = true;
    const all = rows.map(([key, row]) => {
      row.setAttribute("data-under-way", "");
      return { key, row: Object.fromEntries(cells(row).map((each) => [each.dataset.new, each.value])) };
    });
    try {
      await act("scales rows", { rows: JSON.stringify(all) });
    } finally {
      isSending = false;
      for (const { key } of all) this.back(key, null); // where nothing was said of it
    }
    this.send();
  }

  /** @param {Told} told */
  told(told) {
    for (const [key, wrong] of Object.entries(told)) {
      if (wrong) this.back(key, wrong);
      else {
        const row = sent.get(key);
        sent.delete(key);
        row?.remove();
      }
    }
  }

  /**
   * A row that was not put in can be typed into again.
   * @param {string} key
   * @param {[string, string] | null} wrong
   */
  back(key, wrong) {
    const row = sent.get(key);
    if (!row) return;
    sent.delete(key);
    row.removeAttribute("data-key");
    row.removeAttribute("data-under-way");
    for (const each of cells(row)) if (each instanceof HTMLInputElement) each.readOnly = false;
    if (!wrong) return;
    const at = cell(row, wrong[0]);
    at.setAttribute("aria-invalid", "true");
    at.after(Object.assign(document.createElement("span"), { className: "wrong", textContent: wrong[1], role: "alert" }));
  }
}
