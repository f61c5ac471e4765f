// Between the states of the dive: only inside a run, never across a jump.
// A state is [filling, n x, n y, n z, water, G x, G z, B x, B z, trim, heel, then a tank's share
// and level for each tank], as the server tells it.

export const AT = { filling: 0, n: 1, water: 4, g: 5, b: 7, trim: 9, heel: 10, tanks: 11 };

export function between(runs, filling) {
  const run = runs.find((one) => filling <= one[one.length - 1][AT.filling]) ?? runs[runs.length - 1];
  const before = runs[runs.indexOf(run) - 1];
  if (filling < run[0][AT.filling]) {
    const end = before?.[before.length - 1];
    const isNearer = end && filling - end[AT.filling] < run[0][AT.filling] - filling;
    return [filling, ...(isNearer ? end : run[0]).slice(1)];
  }
  let low = 0;
  let high = run.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (run[middle][AT.filling] <= filling) low = middle;
    else high = middle;
  }
  const [a, b] = [run[low], run[high]];
  const span = b[AT.filling] - a[AT.filling];
  const share = span > 0 ? Math.min(Math.max((filling - a[AT.filling]) / span, 0), 1) : 0;
  const lie = a.map((value, i) => value + share * (b[i] - value));
  const size = Math.hypot(lie[1], lie[2], lie[3]);
  for (const i of [1, 2, 3]) lie[i] /= size;
  lie[AT.filling] = filling;
  return lie;
}

// How far two states are turned from one another [rad].
export function turned(a, b) {
  const dot = a[1] * b[1] + a[2] * b[2] + a[3] * b[3];
  return Math.acos(Math.min(Math.max(dot, -1), 1));
}
