// A file that is brought to a place.

import { refuse } from "./dom.js";
import { held, show } from "./fields.js";

/**
 * A file that was dropped or chosen, to a place.
 * @param {string} address
 * @param {File} file
 */
export async function take(address, file) {
  const asked = new URLSearchParams(held());
  const answer = await fetch(`${address}?${asked}`, {
    method: "POST",
    body: file,
    headers: { "x-name": encodeURIComponent(file.name), "content-type": "application/octet-stream" },
  });
  if (!answer.ok) return refuse(await answer.text());
  const elsewhere = answer.headers.get("hx-redirect"); // another boat is shown now
  if (elsewhere) return location.assign(elsewhere);
  await show(await answer.text());
}
