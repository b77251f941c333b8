export { bytesOf, digestOf, type FileRead, readFile, saveFile, saveText } from "./files.ts";
export { indexedDisk } from "./indexed.ts";
export { memoryDisk } from "./memory.ts";
export type { JobEntry, JobStore, Kept, KeptJob } from "./port.ts";
export { storeOn } from "./store.ts";
export { joinTabs } from "./tabs.ts";
