export { BarPanel, NewBar } from "./later.ts";
export { nodeName } from "./nodes.ts";
