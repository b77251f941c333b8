export { Fields } from "./fields.tsx";
export { Things } from "./later.ts";
export { fieldsOf } from "./topics.ts";
export { useEdit } from "./use-edit.ts";
