import { SHOP_JOBS } from "../../words/index.ts";
import { useApp } from "../model/state/index.ts";

/** Where a job of this device is. */
export function ShopWhere({ id }: { readonly id: string }) {
  const where = useApp((s) => s.shop?.where[id]);
  const isDeleted = useApp((s) => s.shop?.jobs.some((j) => j.id === id && j.deleted !== undefined));
  return <>{SHOP_JOBS.where[isDeleted ? "deleted" : (where ?? "here")]}</>;
}
