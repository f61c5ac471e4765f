// The edge between boat and place: dragged or moved by arrow keys, kept for the next time.

const KEPT = "trimdive edge"; // of the room that both share: the boat's, in percent
const [LEAST, MOST] = [30, 80];
const STEP = 2;
const root = document.documentElement;

function set(share) {
  const kept = Math.min(Math.max(share, LEAST), MOST);
  root.style.setProperty("--split", `${kept.toFixed(1)}%`);
  document.querySelector(".divide")?.setAttribute("aria-valuenow", String(Math.round(kept)));
  localStorage.setItem(KEPT, kept.toFixed(1));
}

function share(event) {
  const boat = document.querySelector("boat-drawing").getBoundingClientRect();
  const work = document.querySelector(".work").getBoundingClientRect();
  const isBeside = work.left >= boat.right;
  const [low, high] = isBeside ? [boat.left, work.right] : [boat.top, work.bottom];
  return (100 * ((isBeside ? event.clientX : event.clientY) - low)) / (high - low);
}

document.addEventListener("pointerdown", (event) => {
  const edge = event.target.closest?.(".divide");
  if (!edge) return;
  event.preventDefault();
  edge.setPointerCapture(event.pointerId);
  const moved = (at) => set(share(at));
  edge.addEventListener("pointermove", moved);
  edge.addEventListener("lostpointercapture", () => edge.removeEventListener("pointermove", moved), { once: true });
});

document.addEventListener("keydown", (event) => {
  const edge = event.target.closest?.(".divide");
  const way = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 }[event.key];
  if (!edge || !way) return;
  event.preventDefault();
  set(parseFloat(getComputedStyle(root).getPropertyValue("--split")) + way * STEP);
});

const kept = parseFloat(localStorage.getItem(KEPT) ?? "");
if (kept >= LEAST && kept <= MOST) set(kept);

// Each place is found again as far down as it was left.
const downs = new Map(); // by place [px]
const place = () => document.querySelector("input[name=place]").value;

document.addEventListener("scroll", (event) => {
  if (event.target.matches?.(".place")) downs.set(place(), event.target.scrollTop);
}, true);
document.addEventListener("htmx:afterSettle", () => {
  const here = document.querySelector(".place");
  if (here) here.scrollTop = downs.get(place()) ?? 0;
});
