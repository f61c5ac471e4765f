// The three figures between two exact states, written as the server writes them.

import { AT } from "./interpolate.js";

const LARGE = 100; // from here on one decimal less says as much
const SMALL = 3; // fewer grams than this are given with a decimal

// A number with its unit: [how many of it in a millimetre or gram, its name, its decimals].
export function written(value, [, unit, decimals]) {
  const digits = Math.max(0, decimals - (Math.abs(value) >= LARGE ? 1 : 0));
  const text = value.toFixed(digits);
  return `${Number(text) === 0 ? (0).toFixed(digits) : text} ${unit}`;
}

// B over G along the plumb line [mm], as she lies.
export function over(lie) {
  return (lie[AT.b] - lie[AT.g]) * lie[AT.n] + (lie[AT.b + 1] - lie[AT.g + 1]) * lie[AT.n + 2];
}

// Weight less buoyancy, wholly under: "293 g heavy", "367 g light" or "neutral".
export function weighs(lie, { ends: [blown, full], unit, decimals }) {
  const excess = blown + lie[AT.filling] * (full - blown);
  const size = Math.abs(excess);
  const text = written(size, [1, unit, decimals === 0 && size < SMALL ? 1 : decimals]);
  return Number.parseFloat(text) === 0 ? "neutral" : `${text} ${excess > 0 ? "heavy" : "light"}`;
}
