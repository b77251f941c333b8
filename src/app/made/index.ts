export { MakeAgain } from "./make-again.tsx";
export { OldPaper } from "./old-paper.tsx";
export { Record, RecordPage } from "./record.tsx";
export { otherCard, useMade } from "./use-made.ts";
