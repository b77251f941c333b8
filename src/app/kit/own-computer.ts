import { useEffect, useState } from "react";
import { type Computer, computerOn, engineInPage, workerEngine } from "../model/compute/index.ts";

/** A computer of its own, so that the open job is left alone. */
export function useOwnComputer(): Computer | undefined {
  const [computer, setComputer] = useState<Computer>();
  useEffect(() => {
    const made = computerOn(
      workerEngine(() => {
        void engineInPage().then((engine) => made.replace(engine));
      }),
    );
    setComputer(made);
    return () => made.close();
  }, []);
  return computer;
}
