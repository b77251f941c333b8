export type { Kernel, Run } from "./contract.ts";
export { type ExactKernel, exactKernel } from "./exact.ts";
export { type MeshKernel, meshKernel } from "./mesh.ts";
