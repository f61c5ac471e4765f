// What is marked on a plan, drawn over its picture: points that can be gone to by keys, lines between
// them, the lines that are taken in blue, and in rust where two views differ.

const LINES = /^(keel|deck|half|waterline|section-)/; // which are seen as lines when others are marked
const NS = "http://www.w3.org/2000/svg";

/** @typedef {import("./trace_picture.js").Picture} Picture */

/**
 * @param {string} name
 * @param {Record<string, string | number>} values
 */
function made(name, values) {
  const element = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(values)) element.setAttribute(key, String(value));
  return element;
}

/**
 * @param {Picture} picture
 * @param {[number, number, ...unknown[]][]} places
 */
function run(picture, places) {
  return places.map(([x, y]) => {
    const at = picture.to({ x, y });
    return `${at.x.toFixed(1)},${at.y.toFixed(1)}`;
  }).join(" ");
}

/**
 * Draws everything anew; the point in hand stays in hand.
 * @param {SVGSVGElement} svg
 * @param {Picture} picture
 * @param {TraceState} state
 * @param {import("./trace_picture.js").Place | null} cross in the picture, where keys would mark
 */
export function drawMarks(svg, picture, state, cross) {
  const held = document.activeElement instanceof SVGElement ? document.activeElement.getAttribute("data-point") : null;
  const below = [];
  const above = [];
  for (const [key, points] of Object.entries(state.things)) {
    const kind = key === state.active ? "own" : "other";
    if (points.length > 1 && !state.drawn[key] && (LINES.test(key) || (kind === "own" && points.length === 2))) below.push(made("polyline", { class: `between ${kind}`, points: run(picture, points) }));
    for (const [number, [x, y, onInk, name]] of points.entries()) {
      const at = picture.to({ x, y });
      const point = made("circle", {
        class: `point ${kind}${onInk ? "" : " bare"}`, cx: at.x.toFixed(1), cy: at.y.toFixed(1), r: kind === "own" ? 5 : 3,
        tabindex: kind === "own" ? 0 : -1, role: "button", "aria-label": name, "data-point": `${key} ${number}`,
      });
      if (!onInk) point.append(Object.assign(made("title", {}), { textContent: "No ink was found under it." }));
      above.push(point);
    }
  }
  for (const [key, line] of Object.entries(state.drawn)) below.push(made("polyline", { class: `taken${key === state.active ? " own" : ""}`, points: run(picture, line) }));
  for (const [x, y] of state.spots) {
    const at = picture.to({ x, y });
    below.push(made("circle", { class: "spot", cx: at.x.toFixed(1), cy: at.y.toFixed(1), r: 9 }));
  }
  if (cross) {
    const at = picture.to(cross);
    above.push(made("path", { class: "cross", d: `M${at.x - 14},${at.y}h10m8,0h10M${at.x},${at.y - 14}v10m0,8v10` }));
  }
  svg.replaceChildren(...below, ...above);
  if (held) held && point(svg, held)?.focus();
}

/**
 * @param {SVGSVGElement} svg
 * @param {string} named its thing and its number
 */
export function point(svg, named) {
  const found = svg.querySelector(`[data-point="${CSS.escape(named)}"]`);
  return found instanceof SVGElement ? found : null;
}
