// Between the states of the dive: only inside a run, never across a jump.

/**
 * One moment of a run, or a place between it and the next.
 * @param {Run} run
 * @param {number} i
 * @param {number} share how far towards the next
 * @returns {Lie}
 */
function moment(run, i, share = 0) {
  /** @param {number[]} column */
  const at = (column) => (share ? column[i] + share * (column[i + 1] - column[i]) : column[i]);
  return {
    filling: at(run.filling),
    up_x: at(run.up_x),
    up_y: at(run.up_y),
    up_z: at(run.up_z),
    water: at(run.water),
    g_x: at(run.g_x),
    g_z: at(run.g_z),
    b_x: at(run.b_x),
    b_z: at(run.b_z),
    bg: at(run.bg),
    trim: at(run.trim),
    heel: at(run.heel),
    tanks: run.tanks.map((tank) => ({ share: at(tank.share), level: at(tank.level) })),
  };
}

/** @param {Run} run */
export function first(run) {
  return moment(run, 0);
}

/** @param {Run} run */
export function last(run) {
  return moment(run, run.filling.length - 1);
}

/**
 * How she lies at a filling.
 * @param {Run[]} runs
 * @param {number} filling
 * @returns {Lie}
 */
export function between(runs, filling) {
  const found = runs.findIndex((one) => filling <= one.filling[one.filling.length - 1]);
  const at = found < 0 ? runs.length - 1 : found;
  const column = runs[at].filling;
  if (filling < column[0]) {
    const before = at > 0 ? last(runs[at - 1]) : null;
    const isNearer = before && filling - before.filling < column[0] - filling;
    return { ...(isNearer ? before : first(runs[at])), filling };
  }
  let low = 0;
  let high = column.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (column[middle] <= filling) low = middle;
    else high = middle;
  }
  const span = column[high] - column[low];
  const share = span > 0 ? Math.min(Math.max((filling - column[low]) / span, 0), 1) : 0;
  const lie = moment(runs[at], low, share);
  const size = Math.hypot(lie.up_x, lie.up_y, lie.up_z);
  lie.up_x /= size;
  lie.up_y /= size;
  lie.up_z /= size;
  lie.filling = filling;
  return lie;
}

/**
 * How far two states are turned from one another [rad].
 * @param {Lie} a
 * @param {Lie} b
 */
export function turned(a, b) {
  const dot = a.up_x * b.up_x + a.up_y * b.up_y + a.up_z * b.up_z;
  return Math.acos(Math.min(Math.max(dot, -1), 1));
}
