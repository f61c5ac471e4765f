// A style sheet that comes with what it is for, not with the first page.

import { ROOT } from "./root.js";

/**
 * Loads a style sheet; done once it counts, or cannot be had.
 * @param {string} name
 */
export function styled(name) {
  const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", href: `${ROOT}/static/${name}` });
  document.head.append(sheet);
  return new Promise((done) => (sheet.onload = sheet.onerror = done));
}
