// The form of a piece: what decides which fields there are is sent at once; Enter saves.

import { any, where, Working } from "../dom.js";
import { act } from "../fields.js";

class PieceForm extends Working {
  #of = "";

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
    this.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !where(event, "input", HTMLInputElement)) return;
      event.preventDefault();
      act("entry save");
    }, until);
    const of = any(this, "input[name=entry_of]", HTMLInputElement)?.value ?? "";
    if (of !== this.#of) any(this, ".entry-field input, .entry-field select", HTMLElement)?.focus();
    this.#of = of;
  }
}

customElements.define("piece-form", PieceForm);
