// The dial is the one of the card for the phone; what is taken along is for the water it stands at.

import "../../pond/dial.js";
import { all, one, where } from "../dom.js";
import { held } from "../fields.js";
import { ROOT } from "../root.js";

document.addEventListener("turned", (event) => {
  const density = where(event, ".dial", HTMLElement)?.dataset.density;
  one(document, "[data-pond=why]", HTMLElement).dataset.why = `lead-for-density/${density}`;
  const values = new URLSearchParams(Object.entries(held()).filter(([name]) => name.startsWith("pond-")));
  for (const link of all(document, "a[data-pond]", HTMLAnchorElement)) link.href = `${ROOT}/pond/${link.dataset.pond}?${values}`;
});
