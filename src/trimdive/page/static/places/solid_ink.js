// The page's own inks for a picture in three dimensions: solid things lightly shaded, glass whose rim is
// inked, and on every surface the line where the water stands and where the section is.

/** @typedef {[number, number, number]} Ink red, green and blue, each 0 to 1 */

const NAMES = ["paper", "ink", "pale", "hair", "sea", "warn"];

/**
 * The page's inks as they are now: light, dark or of the builder's own choice.
 * @param {HTMLElement} element
 */
export function inks(element) {
  const probe = document.createElement("i");
  element.append(probe);
  /** @type {Record<string, Ink>} */
  const found = {};
  for (const name of NAMES) {
    probe.style.color = `var(--${name})`;
    const [red, green, blue] = (getComputedStyle(probe).color.match(/[\d.]+/g) ?? ["0", "0", "0"]).map(Number);
    found[name] = [red / 255, green / 255, blue / 255];
  }
  probe.remove();
  return found;
}

/**
 * @param {Ink} one
 * @param {Ink} other
 * @param {number} share of the other
 * @returns {Ink}
 */
export function mixed(one, other, share) {
  /** @param {0 | 1 | 2} k */
  const at = (k) => one[k] + share * (other[k] - one[k]);
  return [at(0), at(1), at(2)];
}

// Taken where a dot is covered, never beyond the edge of a triangle: else slivers that are cut off leave dots.
const VARYING = `
#if NUM_CLIPPING_PLANES > 0
  centroid varying vec3 vClipPosition;
#endif
centroid varying vec3 vFacing;
centroid varying vec3 vEye;
centroid varying float vHigh;
centroid varying float vAlong;
`;

export const VERTEX = `${VARYING}
void main() {
  vec4 place = modelMatrix * vec4(position, 1.0);
  vec4 mvPosition = viewMatrix * place;
  vFacing = normalMatrix * normal;
  vEye = -mvPosition.xyz;
  vHigh = place.z;
  vAlong = position.x;
  gl_Position = projectionMatrix * mvPosition;
  #include <clipping_planes_vertex>
}`;

const LINES = `${VARYING}
#if NUM_CLIPPING_PLANES > 0
  uniform vec4 clippingPlanes[NUM_CLIPPING_PLANES];
#endif
uniform vec3 ink;
uniform vec3 paper;
uniform vec3 color;
uniform vec3 sea;
uniform float alpha;
uniform float rim;
uniform float cut;
const vec3 LIGHT = vec3(0.348, 0.796, 0.497);
float line(float off, float wide) { return 1.0 - smoothstep(wide, wide + 1.0, abs(off) / max(fwidth(off), 1e-7)); }
`;

export const GLASS = `${LINES}
void main() {
  #include <clipping_planes_fragment>
  float facing = abs(dot(normalize(vFacing), normalize(vEye)));
  float edge = pow(1.0 - facing, 3.0);
  float light = 0.5 + 0.5 * dot(normalize(vFacing), LIGHT);
  vec3 seen = mix(mix(color, paper, light), ink, edge);
  float thick = mix(alpha, rim, edge);
  float wet = line(vHigh, 0.6);
  seen = mix(seen, sea, wet);
  thick = max(thick, 0.9 * wet);
  float cutting = line(vAlong - cut, 1.2);
  seen = mix(seen, ink, cutting);
  gl_FragColor = vec4(seen, max(thick, cutting));
}`;

export const SOLID = `${LINES}
void main() {
  #include <clipping_planes_fragment>
  vec3 flatly = normalize(cross(dFdx(vEye), dFdy(vEye)));
  float light = 0.5 + 0.5 * dot(flatly, LIGHT);
  vec3 seen = mix(mix(color, ink, rim), color, light);
  if (!gl_FrontFacing) seen = mix(color, paper, 0.3);
  seen = mix(seen, ink, line(vAlong - cut, 1.2));
  gl_FragColor = vec4(seen, alpha);
}`;
