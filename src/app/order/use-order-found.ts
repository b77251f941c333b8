import type { OrderFound } from "../../cards/index.ts";
import { useLook } from "./use-look.ts";

/** The order of the row of tags with all that is known of it, as its sheet prints it. */
export const orderFound = ({ row, reach }: ReturnType<typeof useLook>[0]): OrderFound => ({
  order: row.map((t) => t.id),
  judged: row.flatMap((t) => (t.state !== "unseen" && t.judged ? [t.judged] : [])),
  reach,
});

export function useOrderFound(): OrderFound {
  const [look] = useLook();
  return orderFound(look);
}
