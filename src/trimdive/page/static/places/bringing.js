// A file brought to a place: chosen, or dropped anywhere on the page while the place waits for one.

import { any, refuse } from "../dom.js";
import { ROOT } from "../root.js";
import { take } from "../take.js";

const LARGEST = 256 * 2 ** 20; // of a file brought in, in bytes; the page refuses larger ones

/**
 * @param {string | undefined} address
 * @param {File | undefined} file
 */
async function bring(address, file) {
  if (!address || !file) return;
  if (file.size > LARGEST) return refuse(`${file.name}: it is larger than 256 MB. Bring a smaller one.`);
  try {
    await take(address, file);
  } catch {
    refuse(`${file.name}: it could not be sent. See that the program still runs, and try again.`);
  }
}

/**
 * Listens for files of one kind, from now on.
 * @param {string} taken what follows the key in their address, such as "shelf/in"
 */
export function bringing(taken) {
  const zoneOf = () => any(document, `[data-drop$='/${taken}']`, HTMLElement);
  document.addEventListener("change", (event) => {
    const at = event.target;
    if (at instanceof HTMLInputElement && at.dataset.take === `${ROOT}/${taken}`) bring(at.dataset.take, at.files?.[0]);
  });
  document.addEventListener("dragover", (event) => {
    const zone = zoneOf();
    if (!zone) return;
    event.preventDefault();
    zone.classList.add("over");
  });
  document.addEventListener("dragleave", () => zoneOf()?.classList.remove("over"));
  document.addEventListener("drop", (event) => {
    const zone = zoneOf();
    const file = event.dataTransfer?.files[0];
    if (!zone || !file) return;
    event.preventDefault();
    zone.classList.remove("over");
    bring(zone.dataset.drop, file);
  });
}
