// The kinds of bodies in three dimensions: how each is drawn, in which of the page's inks, and what is picked first.

import { mixed } from "./solid_ink.js";

/** @typedef {import("./solid_ink.js").Ink} Ink */
/**
 * How a kind of body is drawn. Shares are of ink in paper.
 * @typedef {object} Kind
 * @property {[number, number]} [glass] how much it covers, where it faces the eye and at its rim
 * @property {number} [solid]
 * @property {number} [edge] how much its edges cover
 * @property {number} [cut] where it is cut
 * @property {boolean} [isSea] its ink is that of the water
 */

/** @type {Record<string, Kind>} */
export const KINDS = {
  skin: { glass: [0.24, 0.85], edge: 0.5, cut: 1 },
  lump: { glass: [0.24, 0.85], edge: 0.5, cut: 0.18 },
  cylinder: { glass: [0.16, 1], edge: 0.9, cut: 0.7 },
  bore: { cut: 0.7 },
  tank: { glass: [0.12, 0.6], edge: 0.9, isSea: true },
  part: { solid: 0.32, edge: 0.9, cut: 0.42 },
  hollow: { glass: [0.3, 0.9], edge: 0.9, cut: 0.42 },
  lead: { solid: 0.66, edge: 0.9, cut: 0.85 },
  foam: { solid: 0.06, edge: 0.6, cut: 0.14 },
  sparse: { edge: 0.3 },
  point: { solid: 0.5 },
};
export const OUTSIDE = ["skin", "lump"];
// What is filled together where it is cut; later over earlier.
export const CUT = [["skin"], ["lump"], ["cylinder", "bore"], ["foam"], ["part"], ["hollow"], ["lead"]];
// What is picked before what is round it.
export const DEEPER = [["part", "lead", "foam", "point"], ["hollow", "sparse"], ["tank"], ["cylinder"], OUTSIDE];

/**
 * @param {import("three").Use} use
 * @param {Record<string, Ink>} inks
 * @returns {Ink}
 */
export function colour({ kind = "", isLine, isCut, isPicked }, { paper, ink, sea, warn }) {
  if (isPicked) return warn;
  if (kind === "water") return mixed(paper, sea, 0.6);
  const { glass, solid = 0, cut = 0, isSea } = KINDS[kind];
  if (isSea) return sea;
  if (isLine) return ink;
  return mixed(paper, ink, isCut ? cut : glass ? 0.5 : solid);
}
