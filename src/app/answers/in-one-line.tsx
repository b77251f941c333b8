import { IN_ONE_LINE } from "../../words/index.ts";
import { useFour } from "./four.ts";

/** The four answers of a bar in one line, behind its name. */
export function InOneLine({ id }: { readonly id: string }) {
  const four = useFour(id);
  if (!four) return null;
  const [long, mark, next, goesIn] = four.all.map((a) => a.figure) as [string, string, string, string];
  return <span>{IN_ONE_LINE(long, mark, next, goesIn)}</span>;
}
