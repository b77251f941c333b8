export { faultOf, NoDatabase } from "./faults.ts";
export { bytesOf, digestOf, type FileRead, readFile, saveFile, saveText } from "./files.ts";
export { indexedDisk } from "./indexed.ts";
export { within } from "./limit.ts";
export { memoryDisk } from "./memory.ts";
export type { Damaged, Disk, JobEntry, JobStore, Kept, KeptJob, Opened } from "./port.ts";
export { storeOn } from "./store.ts";
export { joinTabs } from "./tabs.ts";
