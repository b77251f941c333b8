export { BarPanel, NewBar } from "./later.ts";
export { nodeName } from "./nodes.ts";
export { fieldsOf } from "./thing-fields.ts";
export { Fields, Things } from "./things.tsx";
