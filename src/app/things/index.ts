export { DieTruth } from "./die-truth.tsx";
export type { Edit } from "./edit.ts";
export type { Sheet } from "./field.ts";
export { Fields } from "./fields.tsx";
export { AskSheet, LeadsOf, Things, ThingsOf } from "./later.ts";
export { NamedSheet } from "./things.tsx";
export { fieldsOf, sheetsOf } from "./topics.ts";
export { useEdit } from "./use-edit.ts";
