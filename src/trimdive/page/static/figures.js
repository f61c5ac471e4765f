// The three figures between two exact states, written as the server writes them.

import { between } from "./interpolate.js";

const MINUS = "\u2212";
const LARGE = 100; // from here on one decimal less says as much
const SMALL = 3; // fewer grams than this are given with a decimal
const LEVEL = 0.05; // degrees
const STEP = 0.0006; // of the slider: so near to the neutral mark it is that

/**
 * A number with its unit.
 * @param {number} value in that unit
 * @param {Unit} unit
 */
export function written(value, { name, decimals }) {
  const digits = Math.max(0, decimals - (Math.abs(value) >= LARGE ? 1 : 0));
  const text = value.toFixed(digits);
  return `${Number(text) === 0 ? (0).toFixed(digits) : text.replace("-", MINUS)} ${name}`;
}

/**
 * A length [mm] as it is told of her.
 * @param {number} mm
 * @param {Dive} dive
 */
export function far(mm, { length }) {
  return written(mm * length.per_mm, length);
}

/**
 * How full her tanks are at a filling.
 * @param {number} filling
 * @param {Dive} dive
 */
export function howFull(filling, { share: { blown, full } }) {
  return `${Math.round(100 * (blown + filling * (full - blown)))} %`;
}

/**
 * Whether she is neutral there, wholly under.
 * @param {number} filling
 * @param {Dive} dive
 */
export function isNeutral(filling, { neutral }) {
  return neutral !== null && Math.abs(filling - neutral) < STEP;
}

/**
 * Which moment of the dive this is: "tanks full", "at 89 %, neutral", "at 45 %".
 * @param {number} filling
 * @param {Dive} dive
 */
function moment(filling, dive) {
  if (filling <= 0) return "tanks blown";
  if (filling >= 1) return "tanks full";
  return `at ${howFull(filling, dive)}${isNeutral(filling, dive) ? ", neutral" : ""}`;
}

/**
 * Weight less buoyancy, wholly under: "293 g", "heavy"; "367 g", "light"; "neutral", "".
 * @param {Lie} lie
 * @param {Dive} dive
 */
export function weighs(lie, dive) {
  const { blown, full, name, decimals } = dive.weight;
  const excess = blown + lie.filling * (full - blown);
  const size = Math.abs(excess);
  const text = written(size, { name, decimals: decimals === 0 && size < SMALL ? 1 : decimals });
  if (Number.parseFloat(text) === 0 || isNeutral(lie.filling, dive)) return { size: "neutral", word: "" };
  return { size: text, word: excess > 0 ? "heavy" : "light" };
}

/**
 * Trim in degrees, and which way.
 * @param {Lie} lie
 */
export function trims({ trim }) {
  const tip = Math.abs(trim);
  return { large: `${tip.toFixed(1)}°`, word: tip < LEVEL ? "level" : `${trim > 0 ? "bow" : "stern"} down` };
}

/**
 * The three figures of a moment, until the exact ones are there.
 * @param {Lie} lie
 * @param {Dive} dive
 * @returns {Figure[]}
 */
export function figuresAt(lie, dive) {
  const [says, { size, word }] = [moment(lie.filling, dive), weighs(lie, dive)];
  return [
    { ...trims(lie), off: "", says },
    { large: size, word, off: "", says },
    { large: far(lie.bg, dive), word: "", off: "", says },
  ];
}

/**
 * What the three figures were before the last change, at the same moment of the dive; neutral is
 * held against neutral.
 * @param {Lie} lie
 * @param {Dive} dive
 * @param {Dive} before
 * @param {boolean} isUp
 */
export function was(lie, dive, before, isUp) {
  const isBoth = isNeutral(lie.filling, dive) && before.neutral !== null;
  const filling = isBoth ? (before.neutral ?? 0) : lie.filling;
  const then = between(isUp ? before.up : before.down, filling);
  const full = howFull(filling, before);
  const where = isBoth && full !== howFull(lie.filling, dive) ? ` at ${full}` : "";
  return figuresAt({ ...then, filling }, before).map(({ large, word }) => `was ${large}${word && ` ${word}`}${where}`);
}
