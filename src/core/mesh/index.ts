export type { Mesh } from "./mesh.ts";
export { sectionOf } from "./section.ts";
export { ballMesh, capsuleMesh, plateMesh } from "./shapes.ts";
export { type TubeMesh, type TubeMeshOptions, tubeMesh } from "./tube.ts";
