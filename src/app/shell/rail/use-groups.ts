import { useEffect, useMemo, useState } from "react";
import { useApp } from "../../model/state/index.ts";
import type { Group } from "./arrange.ts";
import { more } from "./later.ts";
import { useRail } from "./rail-state.ts";
import type { BarRow } from "./rows.ts";

/** The bars as they are asked for; what sorts and searches is fetched when it is first needed. */
export function useGroups(rows: readonly BarRow[]): readonly Group[] {
  const document = useApp((s) => s.job?.document);
  const results = useApp((s) => s.results);
  const sort = useRail((rail) => rail.sort);
  const find = useRail((rail) => rail.find);
  const isPlain = sort === "job" && find === "";
  const [tools, setTools] = useState<Awaited<ReturnType<typeof more>>>();
  useEffect(() => {
    if (!isPlain && !tools) void more().then(setTools, () => undefined);
  }, [isPlain, tools]);
  const plain = useMemo(() => [{ rows }], [rows]);
  return useMemo(
    () =>
      isPlain || !document
        ? plain
        : tools
          ? tools.arranged(rows, sort, find, { document, results })
          : find === ""
            ? plain
            : [],
    [isPlain, plain, tools, rows, sort, find, document, results],
  );
}
