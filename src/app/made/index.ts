export { MadeNotes } from "./made-notes.tsx";
export { MakeAgain } from "./make-again.tsx";
export { Record, RecordPage } from "./record.tsx";
export { otherCard, useMade } from "./use-made.ts";
