import { RAIL } from "../../../words/index.ts";
import { Dialog } from "../../kit/index.ts";
import { useAppItself } from "../../model/state/index.ts";
import type { Group } from "./arrange.ts";
import { Head } from "./head.tsx";
import { List } from "./list.tsx";
import styles from "./more.module.css";
import { railOf } from "./rail-state.ts";
import type { BarRow } from "./rows.ts";

/** The whole list over the page, where there is no room beside it. */
export function Sheet(props: { readonly rows: readonly BarRow[]; readonly groups: readonly Group[] }) {
  const app = useAppItself();
  return (
    <Dialog title={RAIL.bars} wide onClose={() => railOf(app).setState({ sheet: "no", find: "" })}>
      <section className={styles.sheet} aria-label={RAIL.region}>
        <Head {...props} />
        <List groups={props.groups} />
      </section>
    </Dialog>
  );
}
