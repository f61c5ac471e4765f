// Where words stand in a picture: each beside what it is about, none over another, none struck
// through. A greedy rule over a few places for each, the first label first; all in pixels.

const GAP = 5; // pixels between words and what they keep off
const FAR = 8; // pixels of a leader from which it is drawn
const KEPT = 60; // what a place is worth because words stood there before: pixels of leader
const SLANT = 1.2; // what a pixel of a leader along costs of one up or down
const ASIDE = 0.2; // and one that the middle of the words stands aside
const NONE = 1000; // and a label without a place
const ROW = 22; // from one row of words to the next
const STEPS = [0, -0.5, 0.5, -1, 1, -1.5, 1.5, -2, 2, -3, 3, -4, 4]; // of its breadth to either side
const ROWS = [0, 1, 2, 3];

/**
 * @typedef {{ left: number, top: number, right: number, bottom: number }} Box
 * @typedef {{ x: number, y: number }} Spot
 * @typedef {{ from: Spot, to: Spot }} Stroke
 * @typedef {{ key: string, box: Box, cost: number, leader: Stroke | null, says?: string }} Place
 * @typedef {{ name: string, places: Place[] }} Label its name finds it again
 * @typedef {{ room: Box, boxes: Box[], strokes: Stroke[] }} Ground what words must lie in, and keep off
 * @typedef {{ top: (left: number, right: number) => number, bottom: (left: number, right: number) => number }} Skyline
 */

/**
 * @param {Box} a
 * @param {Box} b
 */
export function meets(a, b, gap = 0) {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

/**
 * Whether a line runs through a box.
 * @param {Stroke} stroke
 * @param {Box} box
 */
export function strikes({ from, to }, box, gap = 0) {
  let [start, end] = [0, 1];
  for (const [at, run, low, high] of [
    [from.x, to.x - from.x, box.left - gap, box.right + gap],
    [from.y, to.y - from.y, box.top - gap, box.bottom + gap],
  ]) {
    if (!run) {
      if (at <= low || at >= high) return false;
      continue;
    }
    const [a, b] = [(low - at) / run, (high - at) / run];
    start = Math.max(start, Math.min(a, b));
    end = Math.min(end, Math.max(a, b));
  }
  return start < end;
}

/**
 * Whether two lines cross.
 * @param {Stroke} one
 * @param {Stroke} other
 */
export function crosses(one, other) {
  /** @param {Stroke} line @param {Spot} at */
  const side = ({ from, to }, at) => Math.sign((to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x));
  return side(one, other.from) * side(one, other.to) < 0 && side(other, one.from) * side(other, one.to) < 0;
}

/**
 * Places for words above and under a boat, nearest first, with the leader to each.
 * @param {Spot} at what they are about
 * @param {{ width: number, height: number }} size of the words
 * @param {Skyline} boat
 * @param {number} water where its surface is; words stand on one side of it
 * @returns {Place[]}
 */
export function around(at, { width, height }, boat, water) {
  return STEPS.flatMap((step) => [-1, 1].flatMap((way) => ROWS.map((row) => {
    const left = at.x + (step - 0.5) * width;
    const edge = way < 0 ? Math.min(boat.top(left, left + width), at.y) : Math.max(boat.bottom(left, left + width), at.y);
    let top = edge + way * (GAP + row * ROW) - (way < 0 ? height : 0);
    if (top < water + GAP && top + height > water - GAP) top = way < 0 ? water - GAP - height : water + GAP;
    const box = { left, top, right: left + width, bottom: top + height };
    const leader = leaderTo(at, box);
    const to = leader?.to ?? at;
    const cost = Math.abs(to.y - at.y) + SLANT * Math.abs(to.x - at.x) + ASIDE * Math.abs(step * width);
    return { key: `${way} ${step} ${row}`, box, cost, leader };
  })));
}

/**
 * @param {Spot} at
 * @param {Box} box
 * @returns {Stroke | null}
 */
export function leaderTo(at, { left, top, right, bottom }) {
  const to = { x: Math.min(Math.max(at.x, left), right), y: Math.min(Math.max(at.y, top), bottom) };
  return Math.hypot(to.x - at.x, to.y - at.y) < FAR ? null : { from: at, to };
}

/**
 * A place for each label, or none where there is no room: placed one after another, begun with each
 * of them, and what costs least is kept.
 * @param {Label[]} labels
 * @param {Ground} ground
 * @param {Map<string, string>} kept where each stood last, by its key; brought up to date
 * @returns {(Place | null)[]}
 */
export function placed(labels, ground, kept) {
  /** @type {(Place | null)[]} */
  let best = [];
  let least = Infinity;
  const sorted = labels.map(({ name, places }) => {
    const usual = kept.get(name);
    const costed = places.map((place) => ({ ...place, cost: place.cost - (place.key === usual ? KEPT : 0) }));
    return costed.sort((a, b) => a.cost - b.cost);
  });
  labels.forEach((_, first) => {
    const found = greedy(sorted, first, ground);
    const cost = found.reduce((sum, place) => sum + (place ? place.cost : NONE), 0);
    if (cost < least) [best, least] = [found, cost];
  });
  labels.forEach(({ name }, i) => {
    const key = best[i]?.key;
    if (key === undefined) kept.delete(name);
    else kept.set(name, key);
  });
  return best;
}

/**
 * @param {Place[][]} every what each label may take, the best first
 * @param {number} first the label that is placed first
 * @param {Ground} ground
 */
function greedy(every, first, { room, boxes, strokes }) {
  const [words, leaders] = [[...boxes], /** @type {Stroke[]} */ ([])];
  /** @type {(Place | null)[]} */
  const found = every.map(() => null);
  /** @param {Place} place */
  const isFree = ({ box, leader }) =>
    box.left >= room.left && box.right <= room.right && box.top >= room.top && box.bottom <= room.bottom &&
    !words.some((other) => meets(box, other, GAP)) &&
    !found.some((other) => other && leader && strikes(leader, other.box)) &&
    !strokes.some((line) => strikes(line, box, GAP / 2)) &&
    !leaders.some((line) => strikes(line, box, GAP / 2) || (leader && crosses(line, leader)));
  every.forEach((_, i) => {
    const at = (first + i) % every.length;
    const place = every[at].find(isFree);
    if (!place) return;
    found[at] = place;
    words.push(place.box);
    if (place.leader) leaders.push(place.leader);
  });
  return found;
}

const BIN = 6; // pixels of a column of a skyline

/**
 * How high and how low lines reach over a stretch.
 * @param {Stroke[]} strokes
 * @param {number} width of the picture
 * @returns {Skyline}
 */
export function skyline(strokes, width) {
  const count = Math.ceil(width / BIN) + 1;
  const [tops, bottoms] = [new Float64Array(count).fill(Infinity), new Float64Array(count).fill(-Infinity)];
  for (const { from, to } of strokes) {
    const [a, b] = from.x < to.x ? [from, to] : [to, from];
    const rise = (b.y - a.y) / (b.x - a.x || 1);
    /** @param {number} x */
    const at = (x) => a.y + rise * (Math.min(Math.max(x, a.x), b.x) - a.x);
    const isUpright = b.x - a.x < 1e-6;
    for (let i = Math.max(0, Math.floor(a.x / BIN)); i <= Math.min(count - 1, Math.floor(b.x / BIN)); i++) {
      const [y0, y1] = isUpright ? [a.y, b.y] : [at(i * BIN), at((i + 1) * BIN)];
      tops[i] = Math.min(tops[i], y0, y1);
      bottoms[i] = Math.max(bottoms[i], y0, y1);
    }
  }
  /** @param {Float64Array} of @param {(a: number, b: number) => number} pick @param {number} none */
  const over = (of, pick, none) => (/** @type {number} */ left, /** @type {number} */ right) => {
    let found = none;
    const last = Math.min(count - 1, Math.floor((right + GAP) / BIN));
    for (let i = Math.max(0, Math.floor((left - GAP) / BIN)); i <= last; i++) found = pick(found, of[i]);
    return found;
  };
  return { top: over(tops, Math.min, Infinity), bottom: over(bottoms, Math.max, -Infinity) };
}
