// The form of a piece: what decides which fields there are is sent at once; Enter saves; a row that is
// added is gone to.

import { any, where, Working } from "../dom.js";
import { act } from "../fields.js";

class PieceForm extends Working {
  #of = "";
  /** @type {string | undefined} */
  #more; // the button by which a row was added

  /**
   * @param {AbortSignal} signal
   * @override
   */
  begin(signal) {
    const until = { signal };
    this.addEventListener("change", (event) => {
      if (!where(event, "[data-decides]", HTMLElement)) return;
      event.stopPropagation();
      act("entry look");
    }, until);
    this.addEventListener("click", (event) => {
      this.#more = where(event, "button[value^='entry more ']", HTMLButtonElement)?.value;
    }, until);
    this.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !where(event, "input", HTMLInputElement)) return;
      event.preventDefault();
      act("entry save");
    }, until);
    const of = any(this, "input[name=entry_of]", HTMLInputElement)?.value ?? "";
    const isTyped = any(this, ":is(input, select):focus", HTMLElement); // already, before this was loaded
    if (of !== this.#of && !isTyped) any(this, ".entry-field input, .entry-field select", HTMLElement)?.focus();
    this.#of = of;
    const more = this.#more ? any(this, `button[value="${this.#more}"]`, HTMLElement) : null;
    const rows = more?.closest(".entry-rows")?.querySelectorAll(":scope > .entry-row") ?? [];
    if (rows.length) any(rows[rows.length - 1], "select, input:not([type=hidden])", HTMLElement)?.focus();
    this.#more = undefined;
  }
}

customElements.define("piece-form", PieceForm);
