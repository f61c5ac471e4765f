// The form of a piece: what decides which fields there are is sent at once; Enter saves; a row that is
// added is gone to.

import { all, any, around, one, steady, where, Working } from "../dom.js";
import { act, held } from "../fields.js";
import { isGoing } from "../morph.js";
import { ROOT } from "../root.js";

/**
 * A field that is left is looked at at once, and what is wrong stands beside it: nothing is saved.
 * @param {HTMLInputElement} field
 */
async function check(field) {
  const typed = field.value;
  const body = new URLSearchParams({ ...held(), left: field.name });
  const answer = await fetch(`${ROOT}/field`, { method: "POST", body }).catch(() => null);
  if (!answer?.ok || !field.isConnected || field.value !== typed) return;
  const { says } = await answer.json();
  steady(() => note(field, says));
}

/**
 * Puts a sentence beside a field, or takes it away.
 * @param {HTMLInputElement} field
 * @param {string} says
 */
function note(field, says) {
  const room = around(field, ".entry-field", HTMLElement);
  room.classList.toggle("amiss", Boolean(says));
  field.toggleAttribute("aria-invalid", Boolean(says));
  const was = any(room, ".wrong", HTMLElement);
  if (was) was.style.visibility = says ? "" : "hidden"; // its room stays, so that nothing moves up
  if (!says) return;
  field.setAttribute("aria-invalid", "true");
  const told = was ?? Object.assign(document.createElement("p"), { className: "wrong", id: `wrong-${field.id}` });
  told.setAttribute("role", "alert");
  told.textContent = says;
  if (!was) field.after(told);
  field.setAttribute("aria-describedby", `${told.id} hint-${field.id}`);
}

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
      const field = where(event, ".entry-field input:not([type=checkbox])", HTMLInputElement);
      if (field) check(field);
      if (!where(event, "[data-decides]", HTMLElement)) return;
      event.stopPropagation();
      act("entry look");
    }, until);
    this.addEventListener("focusin", (event) => this.#tell(event.target), until);
    this.addEventListener("pointerover", (event) => this.#tell(event.target), until);
    this.addEventListener("pointerleave", () => this.#tell(document.activeElement), until);
    this.addEventListener("click", (event) => {
      this.ask(event);
      this.#more = where(event, "button[value^='entry more ']", HTMLButtonElement)?.value;
    }, until);
    this.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !where(event, "input", HTMLInputElement)) return;
      event.preventDefault();
      act("entry save");
    }, until);
    for (const field of all(this, ".entry-field input:not([type=checkbox])", HTMLInputElement)) {
      if (field.value !== field.defaultValue && field !== document.activeElement) check(field); // left before this was loaded
    }
    const of = any(this, "input[name=entry_of]", HTMLInputElement)?.value ?? "";
    const isTyped = any(this, ":is(input, select):focus", HTMLElement); // already, before this was loaded
    if (of !== this.#of && !isTyped) {
      const asked = any(this, "[data-asked] .entry-field :is(input, select)", HTMLElement);
      asked?.scrollIntoView({ block: "center" });
      (asked ?? any(this, ".entry-field input, .entry-field select", HTMLElement))?.focus({ preventScroll: true });
    }
    this.#of = of;
    const more = this.#more ? any(this, `button[value="${this.#more}"]`, HTMLElement) : null;
    const rows = more?.closest(".entry-rows")?.querySelectorAll(":scope > .entry-row") ?? [];
    if (rows.length) any(rows[rows.length - 1], "select, input:not([type=hidden])", HTMLElement)?.focus();
    this.#more = undefined;
    this.#tell(document.activeElement);
  }

  /**
   * What else is to be known of a field, under the head of the form.
   * @param {EventTarget | null} at
   */
  #tell(at) {
    const field = at instanceof Element && this.contains(at) ? at.closest(".entry-field") : null;
    const told = any(this, ".entry-told", HTMLElement);
    if (told && field) told.textContent = field.querySelector(".hint")?.textContent || field.getAttribute("title") || "";
  }

  /**
   * What was typed and not saved is not forgotten without asking.
   * @param {Event} event
   */
  ask(event) {
    const dialog = one(this, ".entry-ask", HTMLDialogElement);
    if (where(event, ".entry-ask button", HTMLElement)) return dialog.close();
    const typed = all(this, ".entry-field input:not([type=checkbox])", HTMLInputElement).filter((field) => field.hasAttribute("data-typed") || isGoing(field));
    if (!typed.length || !where(event, "button[value='entry cancel']", HTMLElement)) return;
    event.preventDefault();
    one(dialog, "p", HTMLElement).textContent = `${typed.length === 1 ? "What is typed here is" : `${typed.length} figures typed here are`} not saved.`;
    dialog.showModal();
  }
}

customElements.define("piece-form", PieceForm);
