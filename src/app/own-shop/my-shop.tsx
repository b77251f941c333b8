import { Download, FolderInput, Trash2 } from "lucide-react";
import { Suspense, useCallback, useState } from "react";
import { MY_SHOP, ONE_MOMENT, UNNAMED } from "../../words/index.ts";
import { Dialog, parts } from "../kit/index.ts";
import { countsOf, type JobDocument, newJobOf, shopOf } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { saveFile } from "../model/storage/index.ts";
import { ThingsOf } from "../things/index.ts";
import { useOwnEdit } from "./own-edit.ts";
import styles from "./own-shop.module.css";

/** What of a job is the shop's. */
const TOPICS = ["tube", "die", "shop"] as const;

/** What new jobs begin with: to be seen, changed, replaced by that of the open job, or forgotten. */
export function MyShop() {
  const kept = useApp((s) => s.ownShop);
  const job = useApp((s) => s.job?.document);
  const act = useActions();
  const [asks, setAsks] = useState<"take" | "forget">();
  const show = useApp((s) => s.show);
  const name = typeof job?.name === "string" && job.name !== "" ? job.name : UNNAMED;
  return (
    <div className={styles.page}>
      <header className={parts.panelHead}>
        <h2>{MY_SHOP.title}</h2>
        <p>{kept ? MY_SHOP.has(countsOf(kept)) : MY_SHOP.none}</p>
        <p className={parts.quiet}>{MY_SHOP.what}</p>
      </header>
      <div className={parts.row}>
        {!kept && (
          <button
            type="button"
            className={parts.main}
            onClick={() => act.keepShop(shopOf(newJobOf("", { length: show.length, fraction: 16 })))}
          >
            {MY_SHOP.begin}
          </button>
        )}
        {job && (
          <button type="button" onClick={() => (kept ? setAsks("take") : act.keepShop(shopOf(job)))}>
            <FolderInput aria-hidden /> {MY_SHOP.take(name)}
          </button>
        )}
        {kept && (
          <>
            <button type="button" onClick={() => saveFile({ ...kept, name: MY_SHOP.fileName })}>
              <Download aria-hidden /> {MY_SHOP.save}
            </button>
            <button type="button" onClick={() => setAsks("forget")}>
              <Trash2 aria-hidden /> {MY_SHOP.forget}
            </button>
          </>
        )}
      </div>
      {kept && <Kept shop={kept} />}
      {asks === "take" && kept && job && (
        <Dialog title={MY_SHOP.takeTitle} onClose={() => setAsks(undefined)}>
          <p>{MY_SHOP.takeMore(MY_SHOP.has(countsOf(kept)), MY_SHOP.has(countsOf(job)))}</p>
          <Answers
            does={MY_SHOP.replaceIt}
            onDo={() => act.keepShop(shopOf(job))}
            onClose={() => setAsks(undefined)}
          />
        </Dialog>
      )}
      {asks === "forget" && (
        <Dialog title={MY_SHOP.forgetTitle} onClose={() => setAsks(undefined)}>
          <p>{MY_SHOP.forgetMore}</p>
          <Answers
            does={MY_SHOP.forgetIt}
            onDo={() => act.keepShop(undefined)}
            onClose={() => setAsks(undefined)}
          />
        </Dialog>
      )}
    </div>
  );
}

function Kept({ shop }: { readonly shop: JobDocument }) {
  const act = useActions();
  const set = useCallback((next: JobDocument) => act.keepShop(next), [act]);
  const { edit, refused } = useOwnEdit(shop, set);
  return (
    <Suspense fallback={<p className={parts.wait}>{ONE_MOMENT}</p>}>
      {refused.length > 0 && (
        <p className={styles.refused} role="alert">
          {refused[0]}
        </p>
      )}
      <ThingsOf edit={edit} topics={TOPICS} title={MY_SHOP.figures} />
    </Suspense>
  );
}

const Answers = (props: {
  readonly does: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
}) => (
  <div className={parts.row}>
    <button
      type="button"
      className={parts.danger}
      onClick={() => {
        props.onClose();
        props.onDo();
      }}
    >
      {props.does}
    </button>
    <button type="button" onClick={props.onClose}>
      {MY_SHOP.cancel}
    </button>
  </div>
);
