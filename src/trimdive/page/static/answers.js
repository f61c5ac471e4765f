// Answers change only what differs, so that whatever is the same stays: the focus, the caret and what
// is selected, what is unfolded, how far a table is scrolled. What was typed since, or is not answered
// yet, stays as it is typed; what was refused stays beside its own field until that is left right. And
// whether all is saved is said of what was typed too, not only of what was answered.

import { all, any, refuse, input, lost, where } from "./dom.js";
import { files, held, load, send } from "./fields.js";
import { isGoing, LEFT, touched, TYPED, waiting } from "./morph.js";
import { ROOT } from "./root.js";

await files("entry.css"); // a form may come with any answer, and is to be seen as it stays
const MOMENT = 1500; // after an answer, until it is asked whether she lies on disk [ms]

/** @type {import("./morph.js").Sent | undefined} */
let answering; // whose answer comes into the page now
document.addEventListener("htmx:beforeSwap", (event) => {
  const { detail } = /** @type {CustomEvent} */ (event);
  answering = waiting.find((one) => one.once === detail.requestConfig?.parameters.once);
});

/**
 * Whether what was sent goes into a field.
 * @param {import("./morph.js").Sent} sent
 * @param {string} field
 */
function touches({ values }, field) {
  return values.field === field || Boolean(values.cells?.includes(JSON.stringify(field)));
}

/**
 * Whether what stands in a field is newer than what the answer tells of it.
 * @param {HTMLElement} old
 */
function isNewer(old) {
  const { field } = old.dataset;
  const when = touched.get(old) ?? 0;
  if (!field) return Boolean(answering) && when > (answering?.sent ?? 0);
  if (waiting.some((one) => one !== answering && touches(one, field))) return true;
  if (answering && touches(answering, field)) return when > answering.at && isGoing(old);
  return isGoing(old) && old === document.activeElement;
}

/**
 * Whether what was refused in a field is still to be put right: another field was answered.
 * @param {HTMLElement} old
 * @param {HTMLElement} next
 */
function isRefused(old, next) {
  const { field } = old.dataset;
  const isElsewhere = field && field === next.dataset.field && answering?.values.field && !touches(answering, field);
  return Boolean(isElsewhere && old.ariaInvalid === "true" && next.ariaInvalid !== "true");
}

/** @type {Element | null} */
let typing = null; // the field whose value stays as it is being typed
let told = ""; // what the answer has for it
/** @type {Set<string>} */
const refusals = new Set(); // sentences that stay, by their ids

/** @param {Morphing} idiomorph */
export function changer(idiomorph) {
  const { callbacks } = idiomorph.defaults;
  callbacks.beforeNodeMorphed = (old, next) => {
    typing = null;
    if (!(old instanceof HTMLElement) || !(next instanceof HTMLElement)) return true;
    if (old.hasAttribute("data-stays")) return false; // a script's own
    if (isRefused(old, next)) {
      refusals.add(old.getAttribute("aria-describedby") ?? "");
      return false;
    }
    if (old instanceof HTMLInputElement && next instanceof HTMLInputElement && old.matches(TYPED)) {
      const isSame = old.defaultValue === next.defaultValue && isGoing(old) && old === document.activeElement;
      const isOne = old.dataset.field === next.dataset.field && old.name === next.name;
      if (isSame || (isOne && isNewer(old))) [typing, told] = [old, next.defaultValue];
    } else if (old.dataset.field && old.dataset.field === next.dataset.field && isNewer(old)) return false;
    return true;
  };
  callbacks.beforeAttributeUpdated = (name, element, how) => {
    if (name === "value" && element === typing) {
      element.setAttribute("value", told); // to which Escape goes back
      return false;
    }
    if (name === "aria-busy") return false; // until its own answer
    if (element.getAttribute("data-keeps")?.split(" ").includes(name)) return false; // scripts alone have set it
    return !(name === "open" && how === "remove" && element instanceof HTMLDetailsElement);
  };
  callbacks.beforeNodeRemoved = (old) => !(old instanceof Element && old.matches(".wrong") && refusals.has(old.id));
  return idiomorph;
}

// What was refused goes by Escape, and what stands in the file comes back.
document.addEventListener("keydown", (event) => {
  const field = event.key === "Escape" ? where(event, "input[data-was][aria-invalid]:not(.panel *)", HTMLInputElement) : null;
  if (!field) return;
  event.preventDefault();
  field.value = field.defaultValue = field.dataset.was ?? "";
  field.removeAttribute("aria-invalid");
  document.getElementById(field.getAttribute("aria-describedby") ?? "")?.remove();
}, true);

/** Says whether all that was typed is saved. */
function say() {
  const button = any(document, "button.save", HTMLButtonElement);
  if (!button) return;
  const isTyped = all(document, "input[data-field]", HTMLInputElement).some(isGoing);
  const isSaved = !waiting.length && !isTyped && button.dataset.saved === "1";
  const isFigure = waiting.some(({ values }) => values.typed !== undefined || values.cells || values.rows);
  button.disabled = isSaved || waiting.length > 0;
  button.textContent = waiting.length ? (isFigure ? "Saving" : "Working") : isSaved ? "Saved" : "Save";
}
for (const sign of ["sending", "input", "change"]) document.addEventListener(sign, say);
document.addEventListener("htmx:afterSwap", () => {
  answering = undefined;
  typing = null;
  refusals.clear();
  say();
});
say();

// A moment after a change it has been saved by itself; the page says so, or why not.
async function looked() {
  await new Promise((done) => setTimeout(done, MOMENT));
  const button = any(document, "button.save", HTMLButtonElement);
  if (!button || button.dataset.saved === "1" || waiting.length) return;
  try {
    /** @type {Stand} */
    const now = await (await fetch(`${ROOT}/now`)).json();
    if (String(now.revision) !== input(document, "revision").value) return;
    button.dataset.saved = now.is_saved ? "1" : "";
    say();
    if (now.trouble) refuse(`Not saved yet. ${now.trouble}`);
  } catch {
    lost();
  }
}
document.addEventListener("htmx:afterSettle", looked);

// What is not answered as the page is left goes with it, once; a page loaded anew says it again, and it
// counts once all the same.
window.addEventListener("pagehide", () => {
  if (!waiting.length) return;
  const boat = document.querySelector("h1")?.textContent ?? "";
  const left = waiting.map(({ once, address, values }) => ({ once, is: address.slice(ROOT.length + 1), ...values }));
  const body = new URLSearchParams({ ...held(), boat, left: JSON.stringify(left) });
  sessionStorage.setItem(LEFT, JSON.stringify({ boat, left: waiting.map(({ once, address, values }) => ({ once, address, values })) }));
  fetch(`${ROOT}/left`, { method: "POST", body, keepalive: true }).catch(() => {});
});

// What is typed and not left, or stands in a form, is not thrown away without asking.
window.addEventListener("beforeunload", (event) => {
  const typed = all(document, "input[data-field], [data-new], .entry-field input", HTMLInputElement);
  if (typed.some((field) => isGoing(field) && field.offsetParent)) event.preventDefault();
});

document.addEventListener("htmx:afterSettle", () => {
  load(input(document, "place").value);
  // Who is in a field already, or types on in this one, is left in peace.
  const [wrong, at] = [any(document, "[aria-invalid=true]", HTMLElement), document.activeElement];
  if (wrong && !isGoing(at) && (at === wrong || !at?.matches("[data-field], [data-new]"))) {
    wrong.focus();
    if (wrong instanceof HTMLInputElement) wrong.select();
  }
  if (document.activeElement === document.body) any(document, "h2", HTMLElement)?.focus({ preventScroll: true });
});

// What was not answered as this page was left counts.
const left = JSON.parse(sessionStorage.getItem(LEFT) ?? "null");
sessionStorage.removeItem(LEFT);
const isHers = left?.boat === document.querySelector("h1")?.textContent;
for (const { address, values, once } of isHers ? left.left : []) send(address, values, once);
