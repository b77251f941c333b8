import { Camera, History, RotateCcw, Tablet } from "lucide-react";
import { useState } from "react";
import { SHOP_JOBS, UNNAMED } from "../../words/index.ts";
import { AskText, classes, parts } from "../kit/index.ts";
import { ShopRefused, shopAsk } from "../model/shop/index.ts";
import { goToPage, useApp } from "../model/state/index.ts";
import styles from "./shop.module.css";
import { whenOf } from "./when.ts";

/** On the page of jobs: what the shop has beside this device, what was deleted, its devices, and the job's history. */
export function ShopJobs() {
  const shop = useApp((s) => s.shop);
  const here = useApp((s) => s.jobs);
  const job = useApp((s) => s.job);
  const [asks, setAsks] = useState(false);
  const [wrong, setWrong] = useState<string>();
  if (!shop) return null;
  const others = shop.jobs.filter((j) => j.deleted === undefined && !here.some(({ id }) => id === j.id));
  const deleted = shop.jobs.filter((j) => j.deleted !== undefined);
  return (
    <section className={styles.shop} aria-label={SHOP_JOBS.region}>
      <h2>{SHOP_JOBS.title}</h2>
      {wrong !== undefined && <p className={classes(parts.says, parts.wrong)}>{wrong}</p>}
      {shop.line !== "up" && (
        <div className={parts.row}>
          <p role="status">{SHOP_JOBS.down}</p>
          {location.protocol === "https:" && (
            <button type="button" onClick={() => setAsks(true)}>
              {SHOP_JOBS.moved}
            </button>
          )}
        </div>
      )}
      {asks && (
        <AskText
          title={SHOP_JOBS.moved}
          label={SHOP_JOBS.address}
          value=""
          done={SHOP_JOBS.goThere}
          onClose={() => setAsks(false)}
          onDone={(text) =>
            void shop.goToAddress(text).then((is) => {
              setAsks(false);
              if (!is) setWrong(SHOP_JOBS.noAddress);
            })
          }
        >
          <p>{SHOP_JOBS.movedMore}</p>
        </AskText>
      )}
      {shop.line === "up" && others.length === 0 && <p>{SHOP_JOBS.none}</p>}
      <ul className={styles.list}>
        {others.map(({ id, name, changed }) => (
          <li key={id}>
            <button
              type="button"
              className={styles.open}
              onClick={() => {
                setWrong(undefined);
                void shop.fetch(id).then((is) => (is ? goToPage("shop") : setWrong(SHOP_JOBS.notOpened)));
              }}
            >
              <strong>{name || UNNAMED}</strong>
              <small>{whenOf(changed)}</small>
            </button>
          </li>
        ))}
      </ul>
      <div className={parts.row}>
        <button type="button" onClick={() => goToPage("devices")}>
          <Tablet aria-hidden /> {SHOP_JOBS.devices}
        </button>
        {job && (
          <button type="button" onClick={() => goToPage("history")}>
            <History aria-hidden /> {SHOP_JOBS.history}
          </button>
        )}
        {job && (
          <button type="button" onClick={() => goToPage("photographs")}>
            <Camera aria-hidden /> {SHOP_JOBS.photographs}
          </button>
        )}
      </div>
      {deleted.length > 0 && (
        <>
          <h2>{SHOP_JOBS.deletedTitle}</h2>
          <p>{SHOP_JOBS.deletedMore}</p>
          <ul className={styles.list}>
            {deleted.map(({ id, name, deleted: when }) => (
              <li key={id}>
                <span className={styles.what}>
                  <strong>{name || UNNAMED}</strong>
                  <small>{SHOP_JOBS.deleted(whenOf(when ?? 0))}</small>
                </span>
                <button
                  type="button"
                  onClick={() =>
                    void shopAsk.restoreJob(id).then(
                      () => setWrong(undefined),
                      (error: unknown) => setWrong(SHOP_JOBS.notDone((error as Error).message)),
                    )
                  }
                >
                  <RotateCcw aria-hidden /> {SHOP_JOBS.bringBack(name || UNNAMED)}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** Deletes a job in the shop; says why where that could not be done. */
export async function deleteInShop(id: string): Promise<string | undefined> {
  try {
    await shopAsk.deleteJob(id);
    return undefined;
  } catch (error) {
    // one that the shop never had is gone there
    if (error instanceof ShopRefused && error.status === 404) return undefined;
    return SHOP_JOBS.notDone((error as Error).message);
  }
}
