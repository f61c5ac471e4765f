// What was sent and is not answered yet, what is typed meanwhile, and how answers come into the page:
// by changing what differs, see answers.js, which is loaded when something is first pressed or typed.

import { lost } from "./dom.js";
import { ROOT } from "./root.js";

export const TYPED = "input:not([type=range], [type=checkbox], [type=radio], [type=file], [type=hidden])";
export const LEFT = "trimdive left"; // what was not answered as the page was left, in the session

/** @typedef {{ once: string, key: string, address: string, values: Record<string, string>, at: number, sent: number }} Sent when it was typed and when it went */

/** @type {Sent[]} */
export const waiting = []; // in the order of its answers

let ticks = 0;
export const tick = () => ++ticks;

/** @type {WeakMap<EventTarget, number>} */
export const touched = new WeakMap(); // when a field was last typed into
document.addEventListener("input", ({ target }) => target && touched.set(target, tick()), true);

/**
 * Whether something is typed into a field that was not sent yet.
 * @param {Element | null} field
 * @returns {field is HTMLInputElement}
 */
export function isGoing(field) {
  return field instanceof HTMLInputElement && field.matches(TYPED) && field.value !== field.defaultValue;
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
  const answers = import("./answers.js"); // which says at once that something is typed
  if (document.readyState !== "complete") await new Promise((done) => addEventListener("load", done, { once: true })); // htmx begins then
  await library("htmx");
  await library("Idiomorph"); // which tells htmx of itself
  return (await answers).changer(window.Idiomorph);
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
