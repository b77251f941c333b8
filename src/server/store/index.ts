export { compact, isDue } from "./compaction.ts";
export * from "./port.ts";
export { openPostgres } from "./postgres.ts";
export { openSqlite } from "./sqlite.ts";
