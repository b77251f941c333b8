import { useState } from "react";
import { ADD_TO_JOB } from "../../words/index.ts";
import { Choose, parts } from "../kit/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import { keepIn } from "./keep.ts";
import { type Between, NEW_BAR } from "./readings.ts";

/** Keeps what was measured as bars: of the job in hand, or of a new one. */
export function KeepIt({ made }: { readonly made: Between }) {
  const act = useActions();
  const here = useApp((s) => s.job?.document);
  const [asks, setAsks] = useState(false);
  const name = typeof here?.name === "string" && here.name !== "" ? here.name : ADD_TO_JOB.unnamed;

  function show(bar: string): void {
    act.take(bar);
    act.goTo("notcher");
    goToPage("shop");
  }

  function keep(where: string): void {
    setAsks(false);
    if (!made.ok) return;
    if (where === "new" || !here) {
      void act.newJob(made.document).then(() => show(NEW_BAR));
      return;
    }
    const { bar, command } = keepIn(here, made.document);
    if (act.run(command).ok) show(bar);
  }

  return (
    <div className={parts.row}>
      <button
        type="button"
        className={parts.main}
        disabled={!made.ok}
        onClick={() => (here ? setAsks(true) : keep("new"))}
      >
        {ADD_TO_JOB.button}
      </button>
      {asks && (
        <Choose
          title={ADD_TO_JOB.title}
          options={[
            ["here", ADD_TO_JOB.here(name), ADD_TO_JOB.hereNote],
            ["new", ADD_TO_JOB.fresh, ADD_TO_JOB.freshNote],
          ]}
          onClose={() => setAsks(false)}
          onPick={keep}
        />
      )}
    </div>
  );
}
