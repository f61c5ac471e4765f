// three.js, loaded with the first picture in 3D.

import { ROOT } from "../root.js";

/** @type {typeof import("three")} */
export const three = await import(`${ROOT}/static/three.min.js`);
