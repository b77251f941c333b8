export type { JobDocument, Json, JsonObject, JsonPath } from "../../../shared/index.ts";
export {
  at,
  entries,
  fromJson,
  isObject,
  jobText,
  nameIn,
  same,
  toJson,
  write,
} from "../../../shared/index.ts";
export type { Command, Dependent, Outcome, Refusal } from "./command.ts";
export { nameOf } from "./command.ts";
export * from "./commands/index.ts";
export type { Did, Editor, EditorState } from "./editor.ts";
export { editorOf } from "./editor.ts";
export type { Kind } from "./names.ts";
export {
  calledOf,
  comeTo,
  dependentsOf,
  freeId,
  idFrom,
  labelWith,
  namesIn,
  otherSide,
  thingsOf,
} from "./names.ts";
export { countsOf, isBare, newJobOf, type ShopCount, shopAfter, shopOf } from "./own-shop.ts";
export { builtBy, isAnyMade, takenBack, touchesPlan } from "./touched.ts";
