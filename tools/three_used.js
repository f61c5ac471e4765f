// What the page uses of three.js: tools/bundle_three.py makes one file of it and of nothing else.

export {
  BackSide, BufferAttribute, BufferGeometry, Color, DecrementWrapStencilOp, DoubleSide, EqualDepth, FrontSide, Group,
  IncrementWrapStencilOp, LineBasicMaterial, LineSegments, Mesh, MeshBasicMaterial, NotEqualStencilFunc,
  PerspectiveCamera, Plane, Raycaster, Scene, ShaderMaterial, Vector2, Vector3, WebGLRenderer,
} from "three";
export { LineMaterial } from "three/addons/lines/LineMaterial.js";
export { LineSegments2 } from "three/addons/lines/LineSegments2.js";
export { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
