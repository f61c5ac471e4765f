// What is looked for on the page is there, and of its kind, or it is said what is missing.

/**
 * The element that a selector names within another.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {new () => T} kind
 * @returns {T}
 */
export function one(within, selector, kind) {
  const found = within.querySelector(selector);
  if (found instanceof kind) return found;
  throw new Error(`There is no ${selector} on this page.`);
}

/**
 * The same, where there may be none.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {new () => T} kind
 * @returns {T | null}
 */
export function any(within, selector, kind) {
  const found = within.querySelector(selector);
  return found instanceof kind ? found : null;
}

/**
 * Every one of them.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {new () => T} kind
 * @returns {T[]}
 */
export function all(within, selector, kind) {
  /** @type {T[]} */
  const found = [];
  for (const element of within.querySelectorAll(selector)) if (element instanceof kind) found.push(element);
  return found;
}

/**
 * The field of a name.
 * @param {ParentNode} within
 * @param {string} name
 */
export function input(within, name) {
  return one(within, `input[name="${name}"]`, HTMLInputElement);
}

/**
 * What an element lies in.
 * @template {Element} T
 * @param {Element} inner
 * @param {string} selector
 * @param {new () => T} kind
 * @returns {T}
 */
export function around(inner, selector, kind) {
  const found = inner.closest(selector);
  if (found instanceof kind) return found;
  throw new Error(`There is no ${selector} on this page.`);
}

/**
 * Where something happened, or what that lies in; null where it happened elsewhere.
 * @template {Element} T
 * @param {Event} event
 * @param {string} selector
 * @param {new () => T} kind
 * @returns {T | null}
 */
export function where(event, selector, kind) {
  const found = event.target instanceof Element ? event.target.closest(selector) : null;
  return found instanceof kind ? found : null;
}

/**
 * Changes notes beside fields, and the field in hand stays where it is on the screen.
 * @param {() => void} change
 */
export function steady(change) {
  const at = document.activeElement;
  const before = at?.getBoundingClientRect().top ?? 0;
  change();
  if (!at?.matches("input, select")) return;
  const place = at.closest(".place");
  const scrolls = place && place.scrollHeight > place.clientHeight + 1 ? place : document.scrollingElement;
  scrolls?.scrollBy({ top: at.getBoundingClientRect().top - before, behavior: "instant" });
}

/**
 * Says on the page why something was not done.
 * @param {string} says
 */
export function refuse(says) {
  document.dispatchEvent(new CustomEvent("refused", { detail: says }));
}

/** Says on the page that the program has stopped. */
export function lost() {
  document.dispatchEvent(new CustomEvent("gone"));
}

/** @type {Set<Working>} */
const working = new Set();

/**
 * An element with work of its own: begun when it comes on the page and anew when an answer was put
 * into the page, ended when it goes.
 */
export class Working extends HTMLElement {
  #life = new AbortController();
  #isDue = false;

  connectedCallback() {
    working.add(this);
    this.#isDue = true;
    queueMicrotask(() => this.#isDue && this.renew()); // what it holds may still be put into it
  }

  disconnectedCallback() {
    working.delete(this);
    this.#isDue = false;
    this.#life.abort();
  }

  renew() {
    this.#isDue = false;
    this.#life.abort();
    this.#life = new AbortController();
    this.begin(this.#life.signal);
  }

  /**
   * Listeners end with the signal.
   * @param {AbortSignal} _signal
   */
  begin(_signal) {}
}

document.addEventListener("htmx:afterSwap", () => {
  for (const element of [...working]) element.renew();
});
