import { RAIL_SORTS } from "../../../words/index.ts";
import { Choose } from "../../kit/index.ts";
import { useAppItself } from "../../model/state/index.ts";
import { SORTS, sortBy, useRail } from "./rail-state.ts";

/** How the bars are sorted; kept by the device. */
export function SortBy({ onClose }: { readonly onClose: () => void }) {
  const app = useAppItself();
  const sort = useRail((rail) => rail.sort);
  return (
    <Choose
      title={RAIL_SORTS.title}
      value={sort}
      options={SORTS.map((id) => [id, RAIL_SORTS[id], RAIL_SORTS.more[id]])}
      onClose={onClose}
      onPick={(id) => {
        const to = SORTS.find((one) => one === id);
        if (to) sortBy(app, to);
        onClose();
      }}
    />
  );
}
