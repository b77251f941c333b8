import { useCallback, useEffect, useState } from "react";
import { calibrate, dieSettings } from "../../core/bend/index.ts";
import { ADD_TO_JOB, DIE_PAGE, ONE_MOMENT, THINGS } from "../../words/index.ts";
import { AskText, Caution, Choose, HandOut, parts, useOwnComputer, writeIn } from "../kit/index.ts";
import type { Computer } from "../model/compute/index.ts";
import {
  freeId,
  idFrom,
  type JobDocument,
  type Json,
  newJobOf,
  renameThing,
  same,
  setValue,
  shopAfter,
  showUnits,
  thingsOf,
} from "../model/document/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import { DieTruth, type Edit, NamedSheet, type Sheet, sheetsOf } from "../things/index.ts";
import { dieIn, dieJob, recalledDie, rememberDie } from "./die-job.ts";
import { useOwnEdit } from "./own-edit.ts";
import styles from "./own-shop.module.css";

/** Second five minutes: one tube, two test bends, and the die has its card; no job is needed. */
export function DiePage() {
  const computer = useOwnComputer();
  return computer ? <WithComputer computer={computer} /> : <p className={parts.wait}>{ONE_MOMENT}</p>;
}

function WithComputer({ computer }: { readonly computer: Computer }) {
  const ownShop = useApp((s) => s.ownShop);
  const unit = useApp((s) => s.show.length);
  const [document, setDocument] = useState(() => recalledDie(unit, ownShop));
  const set = useCallback((next: JobDocument) => {
    setDocument(next);
    rememberDie(next);
  }, []);
  const { edit, refused } = useOwnEdit(document, set);
  useEffect(() => computer.compute(document), [computer, document]);
  const [id] = dieIn(document);
  const sheets = sheetsFor(document);
  const tests = edit.job?.dies[id]?.tests.length ?? 0;
  return (
    <div className={styles.die}>
      <section className={styles.in} aria-label={DIE_PAGE.label}>
        <p>{DIE_PAGE.how}</p>
        <p>{DIE_PAGE.enter}</p>
        <p className={parts.quiet}>{DIE_PAGE.legs}</p>
        <Units edit={edit} />
        {refused.length > 0 && (
          <p className={styles.refused} role="alert">
            {refused[0]}
          </p>
        )}
        <NameIt edit={edit} id={id} />
        {sheets.main.map((sheet) => (
          <NamedSheet key={sheet.key} sheet={sheet} edit={edit} isOnly />
        ))}
      </section>
      <section className={styles.out} aria-label={DIE_PAGE.result}>
        <Settings edit={edit} id={id} />
        <DieTruth id={id} edit={edit} />
        {tests === 0 ? (
          <p>{DIE_PAGE.noTests}</p>
        ) : (
          <HandOut
            computer={computer}
            cards={[{ says: DIE_PAGE.card(id), name: `die-card-${id}`, request: { card: "die", die: id } }]}
          />
        )}
        <KeepDie edit={edit} />
        {sheets.limits && <NamedSheet sheet={sheets.limits} edit={edit} />}
        <button type="button" onClick={() => set(dieJob(edit.show.length, ownShop))}>
          {DIE_PAGE.fresh}
        </button>
      </section>
      <Caution steps={["saw", "bender"]} />
    </div>
  );
}

/** As many of a die's figures as its test bends need; the others are what its bender needs. */
const FIRST = 2;

/** The die's sheet in two: what is entered first, and the limits, which the card lists too. */
function sheetsFor(document: JobDocument): { readonly main: readonly Sheet[]; readonly limits?: Sheet } {
  const [die, ...others] = sheetsOf(document, "die");
  if (!die) return { main: [] };
  const { beside: _, ...main } = die;
  return {
    main: [{ ...main, fields: die.fields.slice(0, FIRST) }, ...others],
    limits: { key: "limits", title: DIE_PAGE.limits, fields: die.fields.slice(FIRST) },
  };
}

function Units({ edit }: { readonly edit: Edit }) {
  return (
    <div className={parts.pair} role="group" aria-label={DIE_PAGE.units}>
      {(["mm", "in"] as const).map((unit) => (
        <button
          key={unit}
          type="button"
          aria-pressed={unit === edit.show.length}
          onClick={() => edit.run(showUnits(unit, undefined))}
        >
          {DIE_PAGE.unit[unit]}
        </button>
      ))}
    </div>
  );
}

function NameIt({ edit, id }: { readonly edit: Edit; readonly id: string }) {
  const [asks, setAsks] = useState(false);
  return (
    <>
      <h2 className={styles.name}>
        <button
          type="button"
          className={`${parts.value} ${parts.name}`}
          aria-label={THINGS.rename(THINGS.one.die, id)}
          onClick={() => setAsks(true)}
        >
          {id}
        </button>
      </h2>
      {asks && (
        <AskText
          title={DIE_PAGE.named}
          label={DIE_PAGE.nameLabel}
          value={id}
          done={THINGS.renameIt}
          onClose={() => setAsks(false)}
          onDone={(text) => {
            setAsks(false);
            edit.run(renameThing("die", id, idFrom(text)));
          }}
        />
      )}
    </>
  );
}

/** Angles that are bent most (degrees). */
const COMMON = [15, 30, 45, 60, 75, 90, 120];

/** What to set for common angles, as on the card. */
function Settings({ edit, id }: { readonly edit: Edit; readonly id: string }) {
  const write = writeIn(edit.show);
  const die = edit.job?.dies[id];
  if (!edit.job || !die) return null;
  const { errors } = edit.job.shop;
  const found = dieSettings(die, calibrate(die.tests, die, "tests", errors), errors, COMMON);
  const known = found.filter((s) => s.set !== undefined);
  if (known.length === 0) return null;
  return (
    <section aria-label={DIE_PAGE.settings}>
      <h2>{DIE_PAGE.settings}</h2>
      <ul className={styles.settings}>
        {known.map((s) => (
          <li key={s.angle}>
            <small>{DIE_PAGE.wanted(write.angle(s.angle))}</small>
            <strong>{write.angle(s.set ?? 0)}</strong>
            {s.sd !== undefined && <small>± {write.angle(s.sd)}</small>}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What a die is called where another of its name may be there already, which stays. */
const freeDie = (job: JobDocument, id: string, die: Json): string =>
  same(thingsOf(job, "die")[id] ?? die, die) ? id : freeId(job, "die", id);

/** Into the job in hand, a new one, or what new jobs begin with. */
function KeepDie({ edit }: { readonly edit: Edit }) {
  const act = useActions();
  const here = useApp((s) => s.job?.document);
  const ownShop = useApp((s) => s.ownShop);
  const [asks, setAsks] = useState(false);
  const [says, setSays] = useState("");
  const [id, die] = dieIn(edit.document);
  const name = typeof here?.name === "string" && here.name !== "" ? here.name : ADD_TO_JOB.unnamed;

  function keep(where: string): void {
    setAsks(false);
    if (where === "shop") {
      const kept = ownShop ?? newJobOf("", edit.show);
      // another die of that name stays
      const called = freeDie(kept, id, die);
      act.keepShop(shopAfter(kept, { dies: {} }, { dies: { [called]: die } }));
      setSays(DIE_PAGE.kept(called));
      return;
    }
    const go = (): void => goToPage("shop");
    if (where === "new" || !here) {
      const fresh = newJobOf(id, edit.show, ownShop);
      const dies = { ...thingsOf(fresh, "die"), [freeDie(fresh, id, die)]: die };
      void act.newJob({ ...fresh, dies }).then(go);
    } else if (act.run(setValue(["dies", freeId(here, "die", id)], die, DIE_PAGE.added(id))).ok) go();
  }

  return (
    <div className={parts.row}>
      <button type="button" className={parts.main} onClick={() => setAsks(true)}>
        {DIE_PAGE.add}
      </button>
      <p role="status">{says}</p>
      {asks && (
        <Choose
          title={DIE_PAGE.addTitle}
          options={[
            ["shop", DIE_PAGE.keep, DIE_PAGE.keepMore],
            ...(here ? [["here", ADD_TO_JOB.here(name)] as const] : []),
            ["new", ADD_TO_JOB.fresh] as const,
          ]}
          onClose={() => setAsks(false)}
          onPick={keep}
        />
      )}
    </div>
  );
}
