// What the page uses of three.js, for those who work on it: nothing of it reaches the browser. The names
// are those of tools/three_used.js.

declare module "three" {
  export type Settings = Record<string, unknown>;

  export class Vector2 {
    constructor(x?: number, y?: number);
  }
  export class Vector3 {
    constructor(x?: number, y?: number, z?: number);
    x: number;
    y: number;
    z: number;
    set(x: number, y: number, z: number): this;
    clone(): Vector3;
    copy(other: Vector3): this;
    add(other: Vector3): this;
    sub(other: Vector3): this;
    addScaledVector(other: Vector3, times: number): this;
    dot(other: Vector3): number;
    cross(other: Vector3): this;
    length(): number;
    normalize(): this;
    applyMatrix4(matrix: Matrix4): this;
  }
  export class Color {
    setRGB(red: number, green: number, blue: number): this;
  }
  interface Matrix4 {
    set(...rows: number[]): this;
  }
  export class Plane {
    setComponents(x: number, y: number, z: number, constant: number): this;
    applyMatrix4(matrix: Matrix4): this;
    distanceToPoint(point: Vector3): number;
  }

  export class BufferAttribute {
    constructor(numbers: Float32Array | Uint32Array, size: number);
  }
  export class BufferGeometry {
    index: BufferAttribute | null;
    setAttribute(name: string, numbers: BufferAttribute): this;
    getAttribute(name: string): BufferAttribute;
    setIndex(index: BufferAttribute | number[]): this;
    setDrawRange(first: number, count: number): void;
    computeVertexNormals(): void;
    dispose(): void;
  }
  export class LineSegmentsGeometry extends BufferGeometry {
    setPositions(ends: Float32Array | number[]): this;
  }

  export interface Use {
    kind?: string;
    isLine?: boolean;
    isCut?: boolean;
    isPicked?: boolean;
  }
  interface Material {
    userData: Use;
    uniforms?: Record<string, { value: unknown }>;
    color?: Color;
    depthTest: boolean;
    dispose(): void;
  }
  export class ShaderMaterial implements Material {
    constructor(how: Settings);
    userData: Use;
    uniforms: Record<string, { value: unknown }>;
    depthTest: boolean;
    dispose(): void;
  }
  export class MeshBasicMaterial implements Material {
    constructor(how: Settings);
    userData: Use;
    depthTest: boolean;
    dispose(): void;
  }
  export class LineMaterial implements Material {
    constructor(how: Settings);
    userData: Use;
    depthTest: boolean;
    dispose(): void;
  }

  export class LineBasicMaterial implements Material {
    constructor(how: Settings);
    userData: Use;
    depthTest: boolean;
    dispose(): void;
  }

  export interface Object3D {
    matrix: Matrix4;
    matrixAutoUpdate: boolean;
    position: Vector3;
    visible: boolean;
    renderOrder: number;
    frustumCulled: boolean;
    onAfterRender: (renderer: WebGLRenderer) => void;
    add(...others: Object3D[]): this;
    remove(other: Object3D): this;
    clear(): this;
    traverse(does: (one: Object3D) => void): void;
    updateMatrixWorld(all?: boolean): void;
  }
  export interface Mesh extends Object3D {}
  export class Mesh {
    constructor(geometry: BufferGeometry, material: Material);
    geometry: BufferGeometry;
    material: Material;
  }
  export class LineSegments extends Mesh {}
  export class LineSegments2 extends Mesh {}
  export interface Group extends Object3D {}
  export class Group {}
  export interface Scene extends Object3D {}
  export class Scene {}
  export interface PerspectiveCamera extends Object3D {}
  export class PerspectiveCamera {
    constructor(spread: number, aspect: number, near: number, far: number);
    aspect: number;
    near: number;
    far: number;
    up: Vector3;
    lookAt(place: Vector3): void;
    updateProjectionMatrix(): void;
  }

  export interface Hit {
    point: Vector3;
    object: Mesh;
    faceIndex: number;
  }
  export class Raycaster {
    setFromCamera(at: Vector2, camera: PerspectiveCamera): void;
    intersectObjects(meshes: Mesh[], deep: boolean): Hit[];
  }

  export class WebGLRenderer {
    constructor(how: Settings);
    outputColorSpace: string;
    localClippingEnabled: boolean;
    setClearColor(color: Color, alpha: number): void;
    setPixelRatio(ratio: number): void;
    setSize(width: number, height: number, isStyled: boolean): void;
    clearStencil(): void;
    render(scene: Scene, camera: PerspectiveCamera): void;
    dispose(): void;
    forceContextLoss(): void;
  }

  export const BackSide: number;
  export const DoubleSide: number;
  export const FrontSide: number;
  export const EqualDepth: number;
  export const NotEqualStencilFunc: number;
  export const IncrementWrapStencilOp: number;
  export const DecrementWrapStencilOp: number;
}
