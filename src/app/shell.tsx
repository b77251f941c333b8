import { Button } from "react-aria-components";
import { linesOf } from "./state.ts";
import { useActions, useApp } from "./use-app.ts";

/** Stands in until the stations do: the job in hand, its bars, undo. */
export function Shell() {
  const job = useApp((s) => s.job);
  const bars = useApp((s) => s.results.bars);
  const unreadable = useApp((s) => s.unreadable);
  const act = useActions();
  return (
    <main>
      <h1>{job?.document.name?.toString() ?? "No job"}</h1>
      {job?.kept.state === "refused" && <p role="alert">{job.kept.why}</p>}
      {[...(job ? linesOf(job.read) : []), ...(unreadable?.lines ?? [])].map((line) => (
        <p key={line} role="alert">
          {line}
        </p>
      ))}
      <Button isDisabled={job?.undo === undefined} onPress={() => act.undo()}>
        Undo {job?.undo}
      </Button>
      <ul>
        {[...bars.values()].map((bar) => (
          <li key={bar.id}>
            {bar.label}: {bar.bend.blank.toFixed(1)} mm
          </li>
        ))}
      </ul>
    </main>
  );
}
