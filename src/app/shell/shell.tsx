import "./style.css";
import "./stations.css";
import { type DragEvent, lazy, Suspense, useState } from "react";
import { Wall } from "../stations/wall.tsx";
import { bytesOf } from "../storage/index.ts";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import { Dangers } from "./dangers.tsx";
import { Jobs } from "./jobs.tsx";
import { useMoves } from "./moves.ts";
import { Notices } from "./notices.tsx";
import { Rail } from "./rail.tsx";
import { goToPage, usePage } from "./route.ts";
import { Top } from "./top.tsx";

// The first page is the Wall; the others come when one walks there, from the device's own cache.
const Between = lazy(() => import("../between/between.tsx"));
const Car = lazy(async () => ({ default: (await import("../car/index.ts")).Car }));
const Bender = lazy(async () => ({ default: (await import("../stations/bender.tsx")).Bender }));
const Trestles = lazy(async () => ({ default: (await import("../trestles/index.ts")).Trestles }));
const Notcher = lazy(async () => ({ default: (await import("../stations/notcher.tsx")).Notcher }));

/** The whole page: what is said of the job on top, the rail of bars, and the place where one stands. */
export function Shell() {
  const page = usePage();
  const station = useApp((s) => s.station);
  const hasJob = useApp((s) => s.job !== undefined);
  const act = useActions();
  const [isOver, setOver] = useState(false);
  // from the first moment on, so that the first edit already says what it moved
  useMoves(useAppItself());

  async function drop(event: DragEvent): Promise<void> {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer.files[0];
    if (!file) return;
    await act.openFile(file.name, await bytesOf(file));
    goToPage("shop");
  }

  const where = page === "shop" && !hasJob ? "jobs" : page;
  return (
    // A file may be let fall anywhere; the Jobs page has a button for the same.
    // biome-ignore lint/a11y/noStaticElementInteractions: see above
    <div
      className={`app at-${where}`}
      data-over={isOver}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => void drop(event)}
    >
      <Top page={where} />
      <div className="heads">
        <Notices />
        {where === "shop" && <Dangers />}
      </div>
      {where === "shop" && <Rail />}
      <main className="place" id="place">
        <Suspense fallback={<p className="wait">One moment…</p>}>
          {where === "jobs" && <Jobs />}
          {where === "between" && <Between />}
          {where === "shop" && station === "wall" && <Wall />}
          {where === "shop" && station === "car" && <Car />}
          {where === "shop" && station === "bender" && <Bender />}
          {where === "shop" && station === "trestles" && <Trestles />}
          {where === "shop" && station === "notcher" && <Notcher />}
        </Suspense>
      </main>
    </div>
  );
}
