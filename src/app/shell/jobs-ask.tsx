import { useState } from "react";
import { JOBS, MY_SHOP, UNNAMED } from "../../words/index.ts";
import { AskText, Dialog, parts } from "../kit/index.ts";
import { countsOf, nameJob, newJobOf } from "../model/document/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import type { JobEntry } from "../model/storage/index.ts";

/** What the page of jobs asks: the name of a new job, another name, whether to delete one. */
export function JobsAsk({
  asks,
  onClose,
}: {
  readonly asks: "new" | "name" | JobEntry;
  readonly onClose: () => void;
}) {
  const job = useApp((s) => s.job);
  const show = useApp((s) => s.show);
  const inShop = useApp((s) => s.shop !== undefined);
  const ownShop = useApp((s) => s.ownShop);
  const [withShop, setWithShop] = useState(true);
  const act = useActions();

  /** In the shop first: what is deleted on this device alone would come back from there. */
  async function deleteInShop(id: string): Promise<void> {
    const no = await (await import("../shop/index.ts")).deleteInShop(id);
    if (no === undefined) await act.deleteJob(id);
    else act.caution("job", no);
  }

  if (asks === "new")
    return (
      <AskText
        title={JOBS.create}
        label={JOBS.nameLabel}
        as="name"
        value={JOBS.first}
        done={JOBS.make}
        onClose={onClose}
        onDone={(name) => {
          onClose();
          const kept = withShop ? ownShop : undefined;
          void act
            .newJob(newJobOf(name, { length: show.length, fraction: 16 }, kept))
            .then(() => goToPage("shop"));
        }}
      >
        {ownShop && (
          <>
            <p>{JOBS.withShop}</p>
            <div className={parts.pair} role="group" aria-label={JOBS.withShop}>
              {[true, false].map((own) => (
                <button
                  key={String(own)}
                  type="button"
                  aria-pressed={own === withShop}
                  onClick={() => setWithShop(own)}
                >
                  {own ? JOBS.ownShop : JOBS.noShop}
                </button>
              ))}
            </div>
            {withShop && <p className={parts.quiet}>{MY_SHOP.has(countsOf(ownShop))}</p>}
          </>
        )}
      </AskText>
    );
  if (asks === "name")
    return job ? (
      <AskText
        title={JOBS.renameTitle}
        label={JOBS.nameLabel}
        as="name"
        value={String(job.document.name ?? "")}
        done={JOBS.rename}
        onClose={onClose}
        onDone={(name) => {
          onClose();
          act.run(nameJob(name));
        }}
      />
    ) : null;
  return (
    <Dialog title={JOBS.removeTitle(asks.name || UNNAMED)} onClose={onClose}>
      <p>{inShop ? JOBS.removeInShop : JOBS.removeWarning}</p>
      <div className={parts.row}>
        <button
          type="button"
          className={parts.danger}
          onClick={() => {
            void (inShop ? deleteInShop(asks.id) : act.deleteJob(asks.id));
            onClose();
          }}
        >
          {JOBS.removeIt}
        </button>
        <button type="button" onClick={onClose}>
          {JOBS.cancel}
        </button>
      </div>
    </Dialog>
  );
}
