// What the server sends of her bodies.

/**
 * A block as the server sent it: its head, corners [m], triangles and edges.
 * @param {ArrayBuffer} block
 */
export function read(block) {
  const led = new DataView(block).getUint32(0, true);
  /** @type {SolidHead} */
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(block, 4, led)));
  const first = 4 + led;
  const corners = new Float32Array(block, first, 3 * head.corners);
  const triangles = new Uint32Array(block, first + corners.byteLength, 3 * head.triangles);
  const edges = new Uint32Array(block, first + corners.byteLength + triangles.byteLength, 2 * head.edges);
  return { head, corners, triangles, edges };
}
