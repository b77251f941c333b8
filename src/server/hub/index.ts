export type { Notice } from "./files.ts";
export { type Folder, folderOf } from "./folder.ts";
export { type Hub, type HubPorts, hubOn } from "./hub.ts";
export type { Guest } from "./line.ts";
