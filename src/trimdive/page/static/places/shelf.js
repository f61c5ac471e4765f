// The shelf: what follows is fetched, a new boat grows as it is typed, files are taken, and the
// walk is told how far she was slid.

import { ROOT } from "../root.js";
import { go, take } from "../fields.js";

const PAUSE = 250; // ms after the last key
const LARGEST = 256 * 2 ** 20; // of a file brought in, in bytes; the page refuses larger ones
const KEPT = "trimdive new boat"; // what was typed, should the page be loaded again
let timer = 0;
let asked = null;

// Parts of the place that are worked out after the place itself, one after another.
async function fill() {
  for (const one of document.querySelectorAll("[data-from]")) {
    const from = one.dataset.from;
    one.removeAttribute("data-from");
    try {
      const answer = await fetch(from);
      const text = await answer.text();
      if (answer.ok) one.innerHTML = text;
      else one.textContent = text;
    } catch {
      return; // the program has stopped; the page says so elsewhere
    }
  }
}

function typing() {
  return [...document.querySelectorAll(".new-boat .grow")];
}

function keep() {
  const values = {};
  for (const one of typing()) {
    if (one.type !== "radio" || one.checked) values[one.name] = one.value;
  }
  sessionStorage.setItem(KEPT, JSON.stringify(values));
}

// What was typed before the page was loaded again, or another place was looked at.
function restore() {
  const fields = typing();
  if (!fields.length || fields.some((one) => one.tagName === "INPUT" && one.type !== "radio" && one.value)) return;
  const values = JSON.parse(sessionStorage.getItem(KEPT) ?? "{}");
  if (!Object.values(values).some(Boolean)) return;
  for (const one of fields) {
    if (one.type === "radio") one.checked = values[one.name] === one.value;
    else if (values[one.name] !== undefined) one.value = values[one.name];
  }
  grow();
}

async function grow() {
  asked?.abort();
  asked = new AbortController();
  const values = {};
  for (const one of typing()) {
    if (one.type !== "radio" || one.checked) values[one.name] = one.value;
  }
  try {
    const answer = await fetch(`${ROOT}/shelf/growing?${new URLSearchParams(values)}`, { signal: asked.signal });
    if (!answer.ok) return;
    const told = await answer.json();
    document.getElementById("growing").innerHTML = told.html;
    for (const one of typing()) {
      const says = document.getElementById(`wrong-${one.name}`);
      if (!says) continue;
      const text = told.wrong[one.name] ?? "";
      if (says.textContent !== text) says.textContent = text;
      if (text) one.setAttribute("aria-invalid", "true");
      else one.removeAttribute("aria-invalid");
    }
  } catch {
    // another key was pressed meanwhile, or the program has stopped
  }
}

document.addEventListener("input", (event) => {
  if (!event.target.matches?.(".new-boat .grow")) return;
  keep();
  clearTimeout(timer);
  timer = setTimeout(grow, PAUSE);
});

// Enter goes to the next field and presses nothing.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !event.target.matches?.(".new-boat input.grow")) return;
  event.preventDefault();
  const seen = typing().filter((one) => one.offsetParent && one.matches("input:not([type=radio])"));
  const next = seen[seen.indexOf(event.target) + 1] ?? document.querySelector('button[value="shelf begin"]');
  next.focus();
});
document.addEventListener("keydown", (event) => {
  const button = { "as-name": "save-as", "variant-name": "variant" }[event.target.id];
  if (event.key !== "Enter" || !button) return;
  event.preventDefault();
  document.querySelector(`button[value="shelf ${button}"]`).click();
});

function refuse(says) {
  document.dispatchEvent(new CustomEvent("refused", { detail: says }));
}

async function bring(address, file) {
  if (file.size > LARGEST) return refuse(`${file.name}: it is larger than 256 MB. Bring in one boat alone.`);
  try {
    await take(address, file);
  } catch {
    refuse(`${file.name}: it could not be sent. See that the program still runs, and try again.`);
  }
}

document.addEventListener("change", (event) => {
  const { take: address } = event.target.dataset ?? {};
  if (address?.startsWith(`${ROOT}/shelf/`) && event.target.files?.[0]) bring(address, event.target.files[0]);
});
document.addEventListener("dragover", (event) => {
  if (!document.querySelector("[data-drop$='/shelf/in']")) return;
  event.preventDefault();
  document.querySelector("[data-drop]").classList.add("over");
});
document.addEventListener("dragleave", () => document.querySelector("[data-drop]")?.classList.remove("over"));
document.addEventListener("drop", (event) => {
  const zone = document.querySelector("[data-drop$='/shelf/in']");
  if (!zone || !event.dataTransfer.files[0]) return;
  event.preventDefault();
  zone.classList.remove("over");
  bring(zone.dataset.drop, event.dataTransfer.files[0]);
});

// "Start mine": the shelf, at the first field of a new boat.
document.addEventListener("click", async (event) => {
  if (!event.target.closest?.("[data-start-mine]") || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  await go("shelf");
  setTimeout(begin);
}, true);

function begin() {
  document.getElementById("new-boat")?.scrollIntoView();
  document.getElementById("new-name")?.focus({ preventScroll: true });
}

// The walk is told when the slider is let go, and its line put in the place of the one before.
document.addEventListener("change", async (event) => {
  if (event.target.name !== "filling" || !document.getElementById("walk")) return;
  const isUp = event.target.closest("boat-drawing")?.isUp;
  const asked = { filling: event.target.value, up: isUp ? "1" : "" };
  try {
    const answer = await fetch(`${ROOT}/shelf/slid?${new URLSearchParams(asked)}`);
    if (!answer.ok) return;
    const there = document.getElementById("walk");
    const text = await answer.text();
    if (there && text !== there.outerHTML) there.outerHTML = text;
  } catch {
    // the program has stopped; the page says so elsewhere
  }
});

document.addEventListener("click", (event) => {
  const pressed = event.target.closest?.("button[value^='shelf ']");
  if (pressed?.value === "shelf begin") sessionStorage.removeItem(KEPT);
  if (pressed?.value.startsWith("shelf open ")) setTimeout(() => { pressed.textContent = "Opening …"; });
});

function ready() {
  restore();
  fill();
}

document.addEventListener("htmx:afterSettle", () => {
  if (typing().some((one) => one.tagName === "INPUT" && one.type !== "radio" && one.value)) keep();
  ready();
});
if (location.hash === "#new-boat") begin();
ready();
