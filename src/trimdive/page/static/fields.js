// Fields of the boat file and the places: what is typed is sent when the field is left or Enter is
// pressed; the answer is the whole sheet. The field that had the focus has it again.

import { ROOT } from "./root.js";
const form = () => document.getElementById("sheet");
let focused = null; // id of what had the focus, and where its caret was

// What the sheet holds beside the fields: the slider, the place, how its list is sorted.
export function held() {
  const values = {};
  for (const [name, value] of new FormData(form())) values[name] = value;
  return values;
}

// One after another: what is typed while the answer before is on its way waits for it.
let last = Promise.resolve();
const waiting = []; // what was pressed and is not answered yet

// What is typed counts once: leaving a field whose Enter is being answered says it again.
export function send(address, values) {
  const key = JSON.stringify([address, values]);
  const isTwice = waiting.includes(key) && (values.typed !== undefined || Object.keys(values).length > 1);
  const isMend = values.act?.startsWith("do ") && waiting.includes(key);
  if (isTwice || isMend) return last;
  waiting.push(key);
  last = last.catch(() => {}).then(() => window.htmx.ajax("POST", address, {
    source: form(), target: form(), swap: "innerHTML", values: { ...held(), ...values },
  })).finally(() => waiting.splice(waiting.indexOf(key), 1));
  return last;
}

// Buttons go the same way; one that mends something counts once however often it is pressed.
document.addEventListener("submit", (event) => {
  const pressed = event.submitter?.name === "act" ? event.submitter.value : "";
  if (event.target !== form() || !pressed) return;
  event.preventDefault();
  event.stopPropagation();
  act(pressed);
}, true);

// A change of pieces made by hand, such as a part that was dragged or a cell that was pasted.
export function edit(field, typed, says = "") {
  return send(`${ROOT}/edit`, { field, typed, says });
}

export function act(pressed, values = {}) {
  return send(`${ROOT}/act`, { act: pressed, ...values });
}

// A file that was dropped or chosen, to a place.
export async function take(address, file) {
  const asked = new URLSearchParams(held());
  const answer = await fetch(`${address}?${asked}`, {
    method: "POST",
    body: file,
    headers: { "x-name": encodeURIComponent(file.name), "content-type": "application/octet-stream" },
  });
  if (!answer.ok) return document.dispatchEvent(new CustomEvent("refused", { detail: await answer.text() }));
  const elsewhere = answer.headers.get("hx-redirect"); // another boat is shown now
  if (elsewhere) return location.assign(elsewhere);
  show(await answer.text());
}

export function show(html) {
  window.htmx.swap(form(), html, { swapStyle: "innerHTML" });
}

// A place's own style sheet and script are loaded when it is first opened, not with the first page.
const loaded = new Set([...document.querySelectorAll("[data-own]")].map((one) => one.dataset.own));

function load(place) {
  const link = document.querySelector(`.places a[data-place="${place}"]`);
  const names = (link?.dataset.files ?? "").split(" ").filter((name) => name && !loaded.has(name));
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

export async function go(place, isNew = true) {
  const mine = ++gone;
  const asked = new URLSearchParams({ ...held(), place });
  const loading = load(place);
  const answer = await fetch(`${ROOT}/${place}?${asked}`, { headers: { "hx-request": "true" } });
  const html = await answer.text();
  await loading;
  if (mine !== gone) return;
  if (isNew) history.pushState({ place }, "", `${ROOT}/${place}`);
  show(html);
}

document.addEventListener("change", (event) => {
  const field = event.target.dataset?.field;
  if (!field) return;
  event.stopPropagation();
  edit(field, event.target.type === "checkbox" ? String(event.target.checked) : event.target.value);
});

document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !event.target.matches("input.field")) return;
  event.preventDefault();
  event.target.dispatchEvent(new Event("change", { bubbles: true }));
});

document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[data-place]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  go(link.dataset.place);
});

window.addEventListener("popstate", () => go(location.pathname.slice(ROOT.length + 1) || "right", false));

document.addEventListener("htmx:beforeSwap", () => {
  const one = document.activeElement;
  const isTyped = one?.matches?.("input:not([type=range], [type=checkbox], [type=radio], [type=file])") && one.value !== one.defaultValue;
  focused = one?.id ? { id: one.id, at: one.selectionStart ?? null, typed: isTyped ? one.value : null, was: one.defaultValue } : null;
});
document.addEventListener("htmx:afterSettle", () => {
  load(document.querySelector("input[name=place]").value);
  const wrong = document.querySelector("[aria-invalid=true]");
  const had = focused && document.getElementById(focused.id);
  const [typed, at] = [focused?.typed ?? null, focused?.at ?? null];
  const isGoing = had && typed !== null && had.defaultValue === focused.was && typed !== had.value;
  focused = null;
  // What was being typed into another field while the answer was on its way stays typed.
  const one = isGoing ? had : (wrong ?? had);
  if (!one) return;
  if (isGoing) had.value = typed;
  one.focus({ preventScroll: !wrong });
  if (isGoing) had.setSelectionRange?.(at, at);
  else if (wrong) one.select?.();
});
