export { compact, isDue } from "./compaction.ts";
export * from "./port.ts";
export { openPostgres } from "./postgres.ts";
export { type Records, revise, type Shelf, shelf } from "./records.ts";
export { openSqlite } from "./sqlite.ts";
