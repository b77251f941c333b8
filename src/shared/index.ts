export { base64, bytesOf } from "./base64.ts";
export type { FromDevice, FromShop, News, Present, Reason, Rights } from "./frames.ts";
export { BadFrame, deviceFrames, LONGEST, PROTOCOL, shopFrames } from "./frames.ts";
export type { JobDocument, Json, JsonObject, JsonPath } from "./json.ts";
export { at, entries, entry, isList, isObject, jobText, same, share, slug, withEntry } from "./json.ts";
export { marksOnly } from "./marks.ts";
export { fromJson, nameIn, rootOf, toJson, valueAt, write } from "./mirror.ts";
