import { useMemo } from "react";
import { type FitWords, partSays } from "../../words/index.ts";
import { writeIn } from "../kit/index.ts";
import { calledOf, type JobDocument, thingsOf } from "../model/document/index.ts";
import { useApp } from "../model/state/index.ts";

/** Bars by what a person calls them, lengths as the shop reads them. */
export function useFitWords(): FitWords {
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  return useMemo(() => {
    const { length, fine } = writeIn(show);
    return { length, fine, called: (id) => calledIn(document, id) };
  }, [document, show]);
}

function calledIn(document: JobDocument | undefined, id: string): string {
  if (!document) return id;
  return Object.hasOwn(thingsOf(document, "bar"), id)
    ? calledOf(document, "bar", id)
    : partSays(id, thingsOf(document, "plate"));
}
