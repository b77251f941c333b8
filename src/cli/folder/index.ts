export { nodeDisk } from "./disk.ts";
export type { Entry } from "./list.ts";
export type { Left } from "./settle.ts";
export { settle } from "./settle.ts";
export { type Around, FolderTrouble, Staged } from "./staged.ts";
