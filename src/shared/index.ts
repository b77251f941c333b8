export type { News, Rights } from "./frames.ts";
export type { JobDocument, Json, JsonObject, JsonPath } from "./json.ts";
export { at, entries, entry, isList, isObject, jobText, same, share, withEntry } from "./json.ts";
export { fromJson, nameIn, rootOf, toJson, write } from "./mirror.ts";
