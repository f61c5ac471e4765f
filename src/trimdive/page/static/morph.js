// Answers are put into the page by changing what differs, so that whatever is the same stays: the
// focus, the caret and what is selected, what is unfolded, how far a table is scrolled.

import { lost } from "./dom.js";
import { ROOT } from "./root.js";

const TYPED = "input:not([type=range], [type=checkbox], [type=radio], [type=file])";

/**
 * Whether something is typed into a field that was not sent yet.
 * @param {Element | null} field
 * @returns {field is HTMLInputElement}
 */
export function isGoing(field) {
  return field instanceof HTMLInputElement && field.matches(TYPED) && field.value !== field.defaultValue;
}

/** @type {Set<string | undefined>} */
export const pending = new Set(); // fields that were sent and are not answered yet

/** @type {Element | null} */
let typing = null; // the field whose value stays as it is being typed

/** @param {Morphing} idiomorph */
function changer(idiomorph) {
  idiomorph.defaults.callbacks.beforeNodeMorphed = (old, next) => {
    // What is typed gives way only where the answer has another figure for that field.
    const isSame = old instanceof HTMLInputElement && next instanceof HTMLInputElement && old.defaultValue === next.defaultValue;
    const isHeld = isSame && isGoing(old) && (old === document.activeElement || pending.has(old.dataset.field));
    typing = isHeld ? old : null;
    return !(old instanceof HTMLElement && old.hasAttribute("data-stays")); // a script's own
  };
  idiomorph.defaults.callbacks.beforeAttributeUpdated = (name, element, how) => {
    if (name === "value" && element === typing) return false;
    if (element.getAttribute("data-keeps")?.split(" ").includes(name)) return false; // scripts alone have set it
    return !(name === "open" && how === "remove" && element instanceof HTMLDetailsElement);
  };
  return idiomorph;
}

/**
 * Loads a library of the page, once.
 * @param {"htmx" | "Idiomorph"} name
 */
function library(name) {
  if (window[name]) return;
  const script = document.createElement("script");
  script.src = `${ROOT}/static/${name.toLowerCase()}.min.js`;
  document.head.append(script);
  return new Promise((done, fail) => {
    script.onload = done;
    script.onerror = () => fail(new Error("The program has stopped."));
  });
}

async function load() {
  if (document.readyState !== "complete") await new Promise((done) => addEventListener("load", done, { once: true })); // htmx begins then
  await library("htmx");
  await library("Idiomorph"); // which tells htmx of itself
  return changer(window.Idiomorph);
}

/** @type {Promise<Morphing> | null} */
let loading = null;

/** What sends and what puts in its place, loaded at the first sign of a hand. */
export function morphing() {
  return loading ??= load().catch((why) => {
    loading = null;
    lost();
    throw why;
  });
}

const SIGNS = ["pointermove", "pointerdown", "keydown"];
for (const sign of SIGNS) document.addEventListener(sign, () => void morphing().catch(() => {}), { once: true, capture: true });
if (document.querySelector("[hx-trigger]")) morphing().catch(() => {}); // a file that is being read

/**
 * Puts an answer into one part of the page.
 * @param {Element} room
 * @param {string} html
 */
export async function put(room, html) {
  (await morphing()).morph(room, html, { morphStyle: "innerHTML" });
}
