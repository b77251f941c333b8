import { useState } from "react";
import { inLine, SHOP_NOTICES, TOP, UNNAMED } from "../../words/index.ts";
import { Notice } from "../kit/index.ts";
import { calledOf, type JobDocument, setValue } from "../model/document/index.ts";
import type { ShopInHand, ShownGaveWay } from "../model/shop/index.ts";
import { STATIONS, useActions, useApp, useAppItself } from "../model/state/index.ts";
import { nameOfPart } from "./parts.ts";
import styles from "./shop.module.css";

/** What of the shop must be known at once, and who else is in the job. */
export function ShopNotices() {
  const shop = useApp((s) => s.shop);
  const document = useApp((s) => s.job?.document);
  const [read, setRead] = useState<readonly string[]>([]);
  if (!shop) return null;
  const lines = [
    ...(shop.line === "out" ? [SHOP_NOTICES.out] : []),
    ...(shop.line === "version" ? [SHOP_NOTICES.version] : []),
    ...(shop.job?.is === "refused" ? [SHOP_NOTICES.refused[shop.job.reason]] : []),
  ];
  return (
    <>
      {lines.map((line) => (
        <Notice key={line} isWrong says={line} />
      ))}
      {shop.carried && <Carry jobs={shop.carried.map((j) => j.name || UNNAMED)} take={shop.takeCarried} />}
      {document && shop.gave.map((gave) => <GaveWay key={gave.id} gave={gave} document={document} />)}
      {shop.notices
        .filter(({ text }) => !read.includes(text))
        .map(({ text }) => (
          <Notice key={text} isWrong says={text}>
            <button type="button" onClick={() => setRead([...read, text])}>
              {SHOP_NOTICES.ok}
            </button>
          </Notice>
        ))}
      {document && shop.present.length > 0 && (
        <ul className={styles.present} aria-label={SHOP_NOTICES.presentLabel}>
          {shop.present.map(({ name, station, bar }) => (
            <li key={`${name} ${station} ${bar}`}>
              {SHOP_NOTICES.present(
                name,
                bar === "" ? "" : calledOf(document, "bar", bar),
                TOP.station[STATIONS.find((s) => s === station) ?? "wall"],
              )}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** Jobs that came along from the shop's former address. */
function Carry(props: { readonly jobs: readonly string[]; readonly take: ShopInHand["takeCarried"] }) {
  const [lost, setLost] = useState<readonly string[]>([]);
  return (
    <Notice
      role="alert"
      says={lost.length > 0 ? SHOP_NOTICES.notTaken(inLine(lost)) : SHOP_NOTICES.carried(inLine(props.jobs))}
    >
      <button type="button" onClick={() => void props.take(true).then(setLost)}>
        {SHOP_NOTICES.take}
      </button>
      <button type="button" onClick={() => void props.take(false)}>
        {SHOP_NOTICES.leaveIt}
      </button>
    </Notice>
  );
}

/** A change of this device that another's took the place of. */
function GaveWay({ gave, document }: { readonly gave: ShownGaveWay; readonly document: JobDocument }) {
  const app = useAppItself();
  const act = useActions();
  const what = nameOfPart(document, gave.path);
  const done = (): void =>
    app.state.setState(({ shop }) =>
      shop ? { shop: { ...shop, gave: shop.gave.filter((g) => g !== gave) } } : {},
    );
  return (
    <Notice isWrong says={SHOP_NOTICES.gave(gave.by || SHOP_NOTICES.someone, what)}>
      {gave.mine !== undefined && (
        <button
          type="button"
          onClick={() => {
            const { path, mine } = gave;
            act.run(setValue(path, mine, SHOP_NOTICES.mineBackStep(what)));
            done();
          }}
        >
          {SHOP_NOTICES.mineBack}
        </button>
      )}
      <button type="button" onClick={done}>
        {SHOP_NOTICES.ok}
      </button>
    </Notice>
  );
}
