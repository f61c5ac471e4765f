// The three figures between two exact states, written as the server writes them.

const LARGE = 100; // from here on one decimal less says as much
const SMALL = 3; // fewer grams than this are given with a decimal

/**
 * A number with its unit.
 * @param {number} value in that unit
 * @param {Unit} unit
 */
export function written(value, { name, decimals }) {
  const digits = Math.max(0, decimals - (Math.abs(value) >= LARGE ? 1 : 0));
  const text = value.toFixed(digits);
  return `${Number(text) === 0 ? (0).toFixed(digits) : text} ${name}`;
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
 * B over G along the plumb line [mm], as she lies.
 * @param {Lie} lie
 */
export function over(lie) {
  return (lie.b_x - lie.g_x) * lie.up_x + (lie.b_z - lie.g_z) * lie.up_z;
}

/**
 * Weight less buoyancy, wholly under: "293 g", "heavy"; "367 g", "light"; "neutral", "".
 * @param {Lie} lie
 * @param {Dive} dive
 */
export function weighs(lie, { weight: { blown, full, name, decimals } }) {
  const excess = blown + lie.filling * (full - blown);
  const size = Math.abs(excess);
  const text = written(size, { name, decimals: decimals === 0 && size < SMALL ? 1 : decimals });
  if (Number.parseFloat(text) === 0) return { size: "neutral", word: "" };
  return { size: text, word: excess > 0 ? "heavy" : "light" };
}
