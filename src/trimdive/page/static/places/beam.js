// Words on the balance beam: as large as other notes however small the beam is drawn. A name that
// does not fit its box is left out; what is said of the piece in hand stays within the beam.

import { all, any } from "../dom.js";

const LETTER = 14; // pixels
const UNDER = 15; // from the lever to where its words stand [pixels]
const EDGE = 2; // pixels left free at both ends, and in a box at both sides

/** @param {SVGSVGElement} beam */
function write(beam) {
  const scale = beam.getScreenCTM()?.a;
  if (!scale) return;
  beam.style.setProperty("--letter", `${LETTER / scale}px`);
  for (const name of all(beam, ".weight text", SVGTextElement)) {
    const room = Number(name.previousElementSibling?.getAttribute("width")) - (2 * EDGE) / scale;
    name.classList.toggle("covered", name.getComputedTextLength() > room);
  }
  const [says, lever] = [any(beam, ".lever-says", SVGTextElement), any(beam, ".lever", SVGPathElement)];
  if (!says || !lever) return;
  const { x, width } = beam.viewBox.baseVal;
  const { x: left, y: top, width: far, height } = lever.getBBox();
  const half = says.getComputedTextLength() / 2 + EDGE / scale;
  says.setAttribute("x", String(Math.max(x + half, Math.min(x + width - half, left + far / 2))));
  says.setAttribute("y", String(top + height / 2 + UNDER / scale));
}

/**
 * Writes on the beam, now and whenever its size changes.
 * @param {AbortSignal} signal
 */
export function lettered(signal) {
  const beam = any(document, ".scales .balance", SVGSVGElement);
  if (!beam) return;
  const sizes = new ResizeObserver(() => write(beam));
  sizes.observe(beam);
  signal.addEventListener("abort", () => sizes.disconnect());
}
