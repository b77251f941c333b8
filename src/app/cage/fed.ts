import { type RefObject, useEffect, useRef } from "react";
import { severityOf } from "../../core/findings/index.ts";
import type { Job } from "../../core/job/index.ts";
import { type BarResult, type Computer, type DiffersReply, hostsOf } from "../model/compute/index.ts";
import { platesOf } from "./plates.ts";
import type { ViewBar, Viewer } from "./types.ts";

/**
 * Feeds the picture with what is computed as soon as it is there: the page around it, whose words take as long again,
 * is told of it in a task of its own.
 */
export function useFed(
  viewer: RefObject<Viewer | undefined>,
  computer: Pick<Computer, "results" | "subscribe">,
  job: Job | undefined,
  differs: DiffersReply | undefined,
): void {
  const around = useRef({ job, differs });
  around.current = { job, differs };
  const shown = useRef<readonly unknown[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fed anew when what stands around the bars is another
  useEffect(() => {
    const feed = (): void => {
      const { bars, points } = computer.results();
      const { job, differs } = around.current;
      // the same again where only what stands around is another
      const now = [viewer.current, bars, differs];
      if (now.some((part, i) => part !== shown.current[i]))
        viewer.current?.setBars([...bars.values()].map((bar) => viewed(bar, differs)));
      shown.current = now;
      if (!job) return;
      viewer.current?.setExtras({
        plates: platesOf({ job, bars: [...bars.values()] }),
        points,
        body: job.body,
        ...(job.driver ? { driver: job.driver } : {}),
        ...(differs && differs.fast.length > 0 ? { wanted: differs.fast.map((f) => f.wanted) } : {}),
      });
    };
    feed();
    return computer.subscribe(feed);
  }, [viewer, computer, job, differs]);
}

function viewed(result: BarResult, differs: DiffersReply | undefined): ViewBar {
  const { id, label, mesh, progress, bar, findings } = result;
  const isOff =
    findings.some((f) => ["danger", "error"].includes(severityOf(f))) ||
    differs?.bars.some((v) => v.bar === id);
  return {
    id,
    label,
    mesh,
    progress,
    hosts: hostsOf(result),
    corners: [...bar.centreline.bends, ...bar.centreline.small],
    state: isOff ? "attention" : "plain",
  };
}
