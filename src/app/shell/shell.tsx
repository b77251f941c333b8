import { type DragEvent, lazy, Suspense, useState } from "react";
import { BOUNDARY, SHELL } from "../../words/index.ts";
import { Boundary, classes, parts } from "../kit/index.ts";
import type { Station } from "../model/state/index.ts";
import { goToPage, type Page, useActions, useApp, usePage } from "../model/state/index.ts";
import { bytesOf } from "../model/storage/index.ts";
import { AskSheet } from "../things/index.ts";
import { Dangers } from "./dangers.tsx";
import { Jobs } from "./jobs.tsx";
import { Notices } from "./notices.tsx";
import { Devices, HistoryPage, Photographs, ShopNotices } from "./of-shop.ts";
import styles from "./shell.module.css";
import { Top } from "./top.tsx";

// The first page is the Wall; the others come when one walks there, from the device's own cache.
// Asked seldom: the first page does without them.
const AskChange = lazy(async () => ({ default: (await import("./ask-change.tsx")).AskChange }));
const MakeAgain = lazy(async () => ({ default: (await import("./make-again.tsx")).MakeAgain }));
const Rail = lazy(async () => ({ default: (await import("./rail/index.ts")).Rail }));
const KeysList = lazy(async () => ({ default: (await import("./keys-list.tsx")).KeysList }));
const Between = lazy(async () => ({ default: (await import("../between/index.ts")).Between }));
const DiePage = lazy(async () => ({ default: (await import("../own-shop/index.ts")).DiePage }));
const MyShop = lazy(async () => ({ default: (await import("../own-shop/index.ts")).MyShop }));
const Print = lazy(async () => ({ default: (await import("../print/index.ts")).Print }));
const Wall = lazy(async () => ({ default: (await import("../stations/wall/index.ts")).Wall }));
const Car = lazy(async () => ({ default: (await import("../stations/car/index.ts")).Car }));
const Bender = lazy(async () => ({ default: (await import("../stations/bender/index.ts")).Bender }));
const Trestles = lazy(async () => ({ default: (await import("../stations/trestles/index.ts")).Trestles }));
const Notcher = lazy(async () => ({ default: (await import("../stations/notcher/index.ts")).Notcher }));

const STATION = { wall: Wall, car: Car, bender: Bender, trestles: Trestles, notcher: Notcher } as const;

/** The whole page: the job on top, the rail of bars, and the station. */
export function Shell() {
  const page = usePage();
  const station = useApp((s) => s.station);
  const job = useApp((s) => s.job?.entry.id);
  const starting = useApp((s) => s.starting);
  const asksChange = useApp((s) => s.asked !== undefined);
  const asksAgain = useApp((s) => s.again !== undefined);
  const asksSheet = useApp((s) => s.question !== undefined);
  const inShop = useApp((s) => s.shop !== undefined);
  const act = useActions();
  const [isOver, setOver] = useState(false);
  const [keys, setKeys] = useState(false);
  const [seesDangers, seeDangers] = useState(false);

  async function drop(event: DragEvent): Promise<void> {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer.files[0];
    if (!file) return;
    await act.openFile(file.name, await bytesOf(file));
    goToPage("shop");
  }

  const isWaiting = page === "shop" && job === undefined && starting !== undefined;
  const where = page === "shop" && job === undefined && !isWaiting ? "jobs" : page;
  return (
    // A file may be let fall anywhere; the Jobs page has a button for the same.
    // biome-ignore lint/a11y/noStaticElementInteractions: see above
    <div
      className={classes(styles.app, where !== "shop" && styles.alone)}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => void drop(event)}
    >
      {isOver && <p className={styles.drop}>{SHELL.drop}</p>}
      <Top page={where} onHelp={() => setKeys(true)} />
      <div className={styles.heads}>
        <Notices />
        <Suspense fallback={null}>{inShop && <ShopNotices />}</Suspense>
        {where === "shop" && <Dangers isOpen={seesDangers} setOpen={seeDangers} />}
      </div>
      {where === "shop" && (
        <Boundary of={BOUNDARY.bars} key={job}>
          <Suspense fallback={null}>
            <Rail />
          </Suspense>
        </Boundary>
      )}
      <main className={styles.place} id="place">
        {/* Another place, or another job, is tried again. */}
        <Boundary of={BOUNDARY.page} key={where === "shop" ? `${station} ${job}` : where}>
          <Suspense fallback={<p className={parts.wait}>{SHELL.opening}</p>}>
            {isWaiting ? (
              <p className={parts.wait} role="status">
                {starting}
              </p>
            ) : (
              <Place where={where} station={station} />
            )}
          </Suspense>
        </Boundary>
      </main>
      <Suspense fallback={null}>
        {asksSheet && <AskSheet />}
        {asksChange && <AskChange />}
        {asksAgain && <MakeAgain />}
        {keys && <KeysList onClose={() => setKeys(false)} />}
      </Suspense>
    </div>
  );
}

function Place({ where, station }: { readonly where: Page; readonly station: Station }) {
  if (where === "jobs") return <Jobs />;
  if (where === "between") return <Between />;
  if (where === "die") return <DiePage />;
  if (where === "my-shop") return <MyShop />;
  if (where === "devices") return <Devices />;
  if (where === "history") return <HistoryPage />;
  if (where === "photographs") return <Photographs />;
  if (where === "print") return <Print />;
  const At = STATION[station];
  return <At />;
}
