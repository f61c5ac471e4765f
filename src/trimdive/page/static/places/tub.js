// What is chosen in the Tub is held by the form; answers that take a while are asked for beside it,
// and progress only while something runs.
import { ROOT } from "../root.js";
import { go, held } from "../fields.js";

const PAUSE = 500; // ms between two looks at what runs
let asked = 0; // the latest answer that was asked for
let looking = 0;

const field = (name) => document.querySelector(`[name="${name}"]`);

function open(at) {
  field("tub.at").value = at;
  return go("tub", false);
}

async function later() {
  const room = document.querySelector("[data-tub-later]");
  if (!room) return;
  const mine = ++asked;
  const answer = await fetch(room.dataset.tubLater).catch(() => null);
  if (mine !== asked || !room.isConnected) return;
  if (!answer?.ok) return (room.textContent = "It could not be calculated. Open it again.");
  room.innerHTML = await answer.text();
  room.removeAttribute("aria-busy");
  delete room.dataset.tubLater;
  if (!document.querySelector(".tub-field .wrong")) wrong(room);
}

// What was typed wrong stands beside its field, once the answer is there.
function wrong(room) {
  for (const one of room.querySelectorAll("[data-tub-wrong]")) {
    const typed = document.getElementById(one.dataset.tubWrong);
    if (!typed) continue;
    one.hidden = false;
    typed.setAttribute("aria-invalid", "true");
    typed.setAttribute("aria-describedby", one.id);
    typed.closest("label").after(one);
  }
}

async function look() {
  clearTimeout(looking);
  const room = document.querySelector("[data-tub-running]");
  if (!room) return;
  const answer = await fetch(`${ROOT}/tub/progress?of=${room.dataset.tubRunning}`).catch(() => null);
  if (!room.isConnected) return;
  if (answer?.ok) {
    const now = await answer.json();
    if (!now.is_running) return go("tub", false);
    room.querySelector(".tub-took").textContent = `${Math.round(now.took)} s`;
    const list = room.querySelector(".tub-told");
    list?.replaceChildren(...now.told.map((text) => Object.assign(document.createElement("li"), { textContent: text })));
  }
  looking = setTimeout(look, PAUSE);
}

function wake() {
  later();
  look();
}
wake();
document.addEventListener("htmx:afterSettle", wake);

function keep(event, name, value) {
  event.preventDefault();
  const typed = field(name);
  typed.value = value;
  typed.focus();
}

document.addEventListener("click", (event) => {
  const one = event.target.closest?.("[data-tub-at], [data-tub-order], [data-tub-example], [data-wet]");
  if (!one || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const { tubAt, tubOrder, tubExample, wet } = one.dataset;
  if (tubAt !== undefined) {
    event.preventDefault();
    open(tubAt);
  } else if (tubOrder !== undefined) {
    field("tub.order").value = tubOrder;
    go("tub", false);
  } else if (tubExample !== undefined) keep(event, "tub.reading", tubExample);
  else press(wet);
});

function press(word) {
  const typed = field("wet.text");
  if (word) return (typed.value += word);
  const whole = [...document.querySelectorAll("[data-wet]")].map((one) => one.dataset.wet).sort((a, b) => b.length - a.length);
  const last = whole.find((one) => one && typed.value.endsWith(one));
  typed.value = typed.value.slice(0, -(last?.length ?? 1));
}

document.addEventListener("change", (event) => {
  const { name } = event.target;
  if (!name?.startsWith("tub.") || name === "tub.reading" || !event.target.closest(".place.tub")) return;
  if (document.querySelector("[data-tub-running]")) return;
  go("tub", false);
});

document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (!at.closest?.(".place.tub") && at !== document.body) return;
  if (event.key === "Enter" && at.matches("input[name^='tub.'], input[name^='wet.']")) {
    event.preventDefault();
    const button = document.querySelector(`[data-tub-enter="${at.name}"]`);
    if (button) button.click();
    else at.dispatchEvent(new Event("change", { bubbles: true }));
    return;
  }
  if (!document.querySelector(".wet-hands") || at.matches("input, select") || event.ctrlKey || event.metaKey || event.altKey) return;
  const button = document.querySelector(`.wet-hands [data-key="${CSS.escape(event.key)}"]`);
  if (!button) return;
  event.preventDefault();
  button.click();
});

// Opened by its address: the question asked for there is the one that is shown.
const first = new URLSearchParams(location.search).get("tub.at");
if (first && field("tub.at") && held()["tub.at"] !== first) open(first);
