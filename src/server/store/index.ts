export { compact, isDue } from "./compaction.ts";
export * from "./port.ts";
export { openSqlite } from "./sqlite.ts";
