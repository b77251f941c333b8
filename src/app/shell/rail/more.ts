export { arranged } from "./arrange.ts";
export { Marking } from "./marking.tsx";
export { OrderNote } from "./order-note.tsx";
export { SortBy } from "./sort-by.tsx";
