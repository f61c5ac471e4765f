// The shelf: a new boat grows as it is typed, files are taken.

import { all, any, one, steady, where } from "../dom.js";
import { ROOT } from "../root.js";
import { bringing } from "./bringing.js";
import "./parts.js"; // which asks for the cards and what is compared

const PAUSE = 250; // ms after the last key
const KEPT = "trimdive new boat"; // what was typed, should the page be loaded again
/** @type {Record<string, string>} */
const NAMED = { "as-name": "save-as", "variant-name": "variant" }; // a name typed, and what Enter presses
let timer = 0;
/** @type {AbortController | null} */
let asked = null;

/** @returns {(HTMLInputElement | HTMLSelectElement)[]} */
function typing() {
  return all(document, ".new-boat .grow", HTMLElement).filter((field) => field instanceof HTMLInputElement || field instanceof HTMLSelectElement);
}

/** @param {HTMLInputElement | HTMLSelectElement} field */
function isText(field) {
  return field instanceof HTMLInputElement && field.type !== "radio";
}

function typed() {
  /** @type {Record<string, string>} */
  const values = {};
  for (const field of typing()) {
    if (!(field instanceof HTMLInputElement) || field.type !== "radio" || field.checked) values[field.name] = field.value;
  }
  return values;
}

function keep() {
  sessionStorage.setItem(KEPT, JSON.stringify(typed()));
}

// What was typed before the page was loaded again, or another place was looked at.
function restore() {
  const fields = typing();
  if (!fields.length || fields.some((field) => isText(field) && field.value)) return;
  /** @type {Record<string, string>} */
  const values = JSON.parse(sessionStorage.getItem(KEPT) ?? "{}");
  if (!Object.values(values).some(Boolean)) return;
  for (const field of fields) {
    if (field instanceof HTMLInputElement && field.type === "radio") field.checked = values[field.name] === field.value;
    else if (values[field.name] !== undefined) field.value = values[field.name];
  }
  if (!fields.some((field) => field.hasAttribute("aria-invalid"))) grow(); // else what is missing was asked for
}

/**
 * Say what is guessed where nothing is chosen or typed.
 * @param {HTMLInputElement | HTMLSelectElement} field
 * @param {string | undefined} text
 */
function guess(field, text) {
  if (text === undefined) return;
  if (field instanceof HTMLInputElement) field.placeholder = text;
  else if (field.options[0].text !== text) field.options[0].text = text;
}

async function grow() {
  asked?.abort();
  asked = new AbortController();
  try {
    const answer = await fetch(`${ROOT}/shelf/growing?${new URLSearchParams(typed())}`, { signal: asked.signal });
    if (!answer.ok) return;
    /** @type {{ html: string, wrong: Record<string, string>, guesses: Record<string, string> }} */
    const answered = await answer.json();
    const growing = any(document, "#growing", HTMLElement);
    if (!growing) return;
    growing.innerHTML = answered.html;
    steady(() => {
      for (const field of typing()) {
        guess(field, answered.guesses[field.name]);
        const says = document.getElementById(`wrong-${field.name}`);
        if (!says) continue;
        const text = answered.wrong[field.name] ?? "";
        if (says.textContent !== text) says.textContent = text;
        if (text) field.setAttribute("aria-invalid", "true");
        else field.removeAttribute("aria-invalid");
      }
    });
  } catch {
    // another key was pressed meanwhile, or the program has stopped
  }
}

// How many figures are there is said at once; her picture follows.
function count() {
  const shown = all(document, ".new-boat .asked", HTMLElement).filter((row) => row.offsetParent && row.querySelector(".number"));
  const there = shown.filter((row) => row.querySelector("input")?.value && !row.querySelector("[aria-invalid]"));
  const says = any(document, "#growing .progress b", HTMLElement);
  if (says && there.length < shown.length) says.textContent = `${there.length} of ${shown.length}`;
}

document.addEventListener("input", (event) => {
  if (!(event.target instanceof Element) || !event.target.matches(".new-boat .grow")) return;
  keep();
  count();
  any(document, "#note.refused", HTMLElement)?.replaceChildren(); // of how she was when it was pressed
  clearTimeout(timer);
  timer = window.setTimeout(grow, PAUSE);
});

// Enter goes to the next field and presses nothing.
document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (event.key !== "Enter" || !(at instanceof HTMLInputElement) || !at.matches(".new-boat input.grow")) return;
  event.preventDefault();
  const seen = typing().filter((field) => field.offsetParent && isText(field));
  const next = seen[seen.indexOf(at) + 1] ?? any(document, 'button[value="shelf begin"]', HTMLButtonElement);
  next?.focus();
});
document.addEventListener("keydown", (event) => {
  const button = event.target instanceof Element && NAMED[event.target.id];
  if (event.key !== "Enter" || !button) return;
  event.preventDefault();
  one(document, `button[value="shelf ${button}"]`, HTMLButtonElement).click();
});

bringing("shelf/in");

document.addEventListener("click", (event) => {
  const pressed = where(event, "button[value^='shelf ']", HTMLButtonElement);
  if (pressed?.value === "shelf begin") {
    sessionStorage.removeItem(KEPT);
    clearTimeout(timer); // what was typed is looked at as a whole now
    asked?.abort();
  }
  if (pressed?.value.startsWith("shelf open ")) setTimeout(() => { pressed.textContent = "Opening …"; });
});

document.addEventListener("htmx:afterSwap", () => {
  if (typing().some((field) => isText(field) && field.value)) keep();
  restore();
});
restore();
