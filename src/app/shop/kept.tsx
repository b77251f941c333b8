import { SHOP_KEPT, TOP } from "../../words/index.ts";
import { classes } from "../kit/index.ts";
import { useApp } from "../model/state/index.ts";
import styles from "./shop.module.css";
import { timeOf } from "./when.ts";

/** Where the job in hand is kept: on this device, on its way, in the shop and since when. */
export function ShopKept({ className }: { readonly className: string | undefined }) {
  const shop = useApp((s) => s.shop);
  const kept = useApp((s) => s.job?.kept.state);
  const shared = shop?.job;
  const isWrong =
    shared?.is === "refused" || (shared?.is !== "kept" && kept !== "kept" && kept !== "keeping");
  const says = ((): string => {
    if (shared?.is === "kept") return SHOP_KEPT.kept(timeOf(shared.at));
    if (shared?.is === "refused") return SHOP_KEPT.refused;
    if (kept === "memory") return SHOP_KEPT.memory;
    if (kept === "refused") return TOP.kept.refused;
    return shared?.is === "saving" ? SHOP_KEPT.saving : SHOP_KEPT.apart;
  })();
  return (
    <p className={classes(className, isWrong && styles.wrong)} role="status">
      {shop?.rights === "marks" ? SHOP_KEPT.readOnly(says) : says}
    </p>
  );
}
