// Fields of the boat file and the places: what is typed is sent when the field is left or Enter is
// pressed; the answer is the whole sheet, of which only what differs is changed.

import { any, input, one, where } from "./dom.js";
import { LEFT, morphing, tick, waiting } from "./morph.js";
import { ROOT } from "./root.js";

/** @typedef {Record<string, string>} Values */

const MORPH = "morph:innerHTML";
const form = () => one(document, "#sheet", HTMLFormElement);

/** What the sheet holds beside the fields: the slider, the place, how its list is sorted. */
export function held() {
  /** @type {Values} */
  const values = {};
  for (const [name, value] of new FormData(form())) if (typeof value === "string") values[name] = value;
  return values;
}

// One after another: what is typed while the answer before is on its way waits for it.
/** @type {Promise<void>} */
let last = Promise.resolve();

/**
 * What is typed counts once: leaving a field whose Enter is being answered says it again.
 * @param {string} address
 * @param {Values} values
 */
export function send(address, values, once = `${Date.now()}${Math.random()}`) {
  const key = JSON.stringify([address, values]);
  const latest = waiting.findLast((one) => values.typed === undefined ? one.key === key : one.values.field === values.field || one.values.act);
  const isOne = values.typed !== undefined || Object.keys(values).length > 1 || values.act?.startsWith("do ");
  if (latest?.key === key && isOne) return last;
  const one = { once, key, address, values, at: tick(), sent: 0 };
  waiting.push(one);
  document.dispatchEvent(new Event("sending"));
  last = last.catch(() => {}).then(morphing).then(() => {
    one.sent = tick();
    return window.htmx.ajax("POST", address, { source: form(), target: form(), swap: MORPH, values: { ...held(), ...values, once } });
  }).finally(() => {
    waiting.splice(waiting.indexOf(one), 1);
    document.dispatchEvent(new Event("sending"));
  });
  return last;
}

// Buttons go the same way; one that mends something counts once however often it is pressed.
document.addEventListener("submit", (event) => {
  const button = event.submitter;
  const pressed = button instanceof HTMLButtonElement && button.name === "act" ? button.value : "";
  if (event.target !== form() || !pressed) return;
  event.preventDefault();
  event.stopPropagation();
  busy(button, act(pressed));
}, true);

/**
 * What was pressed shows at once that it is at work, until it is answered.
 * @param {Element | null} pressed
 * @param {Promise<unknown>} work
 */
function busy(pressed, work) {
  pressed?.setAttribute("aria-busy", "true");
  work.catch(() => {}).finally(() => pressed?.removeAttribute("aria-busy"));
}

/**
 * A change of pieces made by hand, such as a part that was dragged or a cell that was pasted.
 * @param {string} field
 * @param {string} typed
 */
export function edit(field, typed, says = "", hand = "") {
  return send(`${ROOT}/edit`, { field, typed, says, hand });
}

/**
 * @param {string} pressed
 * @param {Values} values
 */
export function act(pressed, values = {}) {
  return send(`${ROOT}/act`, { act: pressed, ...values });
}

/** @param {string} html */
export async function show(html) {
  await morphing();
  window.htmx.swap(form(), html, { swapStyle: MORPH }, { contextElement: form() });
}

// A place's own style sheet and script are loaded when it is first opened, not with the first page.
const loaded = new Set([...document.querySelectorAll("[data-own]")].map((own) => own.getAttribute("data-own")));

/** @param {string} place */
export function load(place) {
  const link = any(document, `.places a[data-place="${place}"]`, HTMLElement);
  const over = any(document, ".work [data-files]", HTMLElement); // a form that stands over the place
  return files(`${link?.dataset.files ?? ""} ${over?.dataset.files ?? ""}`);
}

/** @param {string} named style sheets and scripts, loaded once each */
export function files(named) {
  const names = named.split(" ").filter((name) => name && !loaded.has(name));
  return Promise.all(names.map((name) => {
    loaded.add(name);
    const address = `${ROOT}/static/places/${name}`;
    if (name.endsWith(".js")) return import(address);
    const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", href: address });
    document.head.append(sheet);
    return new Promise((done) => (sheet.onload = sheet.onerror = done));
  }));
}

// Of several places that were pressed the last counts: an answer that comes after a later one is not shown.
let gone = 0;

/** @param {string} place */
export async function go(place, isNew = true) {
  const mine = ++gone;
  const asked = new URLSearchParams({ ...held(), place });
  const loading = Promise.all([load(place), morphing()]);
  const answer = await fetch(`${ROOT}/${place}?${asked}`, { headers: { "hx-request": "true" } });
  const html = await answer.text();
  await loading;
  if (mine !== gone) return;
  if (isNew) history.pushState({ place }, "", `${ROOT}/${place}`);
  await show(html);
}

document.addEventListener("change", (event) => {
  const at = event.target;
  if (!(at instanceof HTMLInputElement || at instanceof HTMLSelectElement) || !at.dataset.field) return;
  event.stopPropagation();
  const isSaid = at instanceof HTMLInputElement && at.type !== "checkbox" && at.value === at.defaultValue && !waiting.some((one) => one.values.field === at.dataset.field);
  if (event.isTrusted && isSaid) return; // left after Enter in it was answered
  const typed = at instanceof HTMLInputElement && at.type === "checkbox" ? String(at.checked) : at.value;
  edit(at.dataset.field, typed, "", at.closest(".hand") ? "1" : "");
});

document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !(event.target instanceof Element) || !event.target.matches("input.field")) return;
  event.preventDefault();
  event.target.dispatchEvent(new Event("change", { bubbles: true }));
});

document.addEventListener("click", (event) => {
  const place = where(event, "a[data-place]", HTMLElement)?.dataset.place;
  if (!place || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  if (event.detail || place !== input(document, "place").value) busy(where(event, "a[data-place]", HTMLElement), go(place));
  else import("./leaving.js").then(({ enter }) => enter()); // pressed by keys
});

window.addEventListener("popstate", () => go(location.pathname.slice(ROOT.length + 1) || "right", false));

// What was not answered as this page was left counts: see answers.js.
if (sessionStorage.getItem(LEFT)) morphing();
