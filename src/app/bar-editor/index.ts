export { BarPanel } from "./bar-panel.tsx";
export { NewBar } from "./new-bar.tsx";
export { nodeName } from "./nodes.ts";
export { fieldsOf } from "./thing-fields.ts";
export { Fields, Things } from "./things.tsx";
