// The dial is the one of the card for the phone; what is taken along is for the water it stands at.
import { ROOT } from "../root.js";
import "../../pond/dial.js";
import { held } from "../fields.js";

document.addEventListener("turned", (event) => {
  document.querySelector("[data-pond=why]").dataset.why = `lead-for-density/${event.target.dataset.density}`;
  const values = Object.entries(held()).filter(([name]) => name.startsWith("pond-"));
  for (const link of document.querySelectorAll("a[data-pond]")) link.href = `${ROOT}/pond/${link.dataset.pond}?${new URLSearchParams(values)}`;
});
