import { Component, type ContextType, type ReactNode } from "react";
import { BOUNDARY } from "../../words/index.ts";
import { AppContext } from "../model/state/index.ts";
import { saveFile } from "../model/storage/index.ts";
import { classes } from "./classes.ts";
import parts from "./parts.module.css";

interface Props {
  /** What cannot be shown where it fails: "page", "list of bars". */
  readonly of: string;
  readonly children: ReactNode;
}

/** Where a part of the page fails, says so in its place, with the job at hand; the other parts stay. */
export class Boundary extends Component<Props, { readonly error?: unknown }> {
  static override readonly contextType = AppContext;
  declare context: ContextType<typeof AppContext>;
  override state: { readonly error?: unknown } = {};

  static getDerivedStateFromError(error: unknown): { readonly error: unknown } {
    return { error };
  }

  override render(): ReactNode {
    if (!("error" in this.state)) return this.props.children;
    const { error } = this.state;
    const job = this.context?.state.getState().job;
    return (
      <div className={classes(parts.notice, parts.wrong)} role="alert">
        <p>{BOUNDARY.failed(this.props.of, error instanceof Error ? error.message : String(error))}</p>
        {job && (
          <button type="button" onClick={() => saveFile(job.document)}>
            {BOUNDARY.save}
          </button>
        )}
        <button type="button" onClick={() => location.reload()}>
          {BOUNDARY.reload}
        </button>
      </div>
    );
  }
}
