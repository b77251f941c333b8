import parts from "./parts.module.css";
import { type Paper, setPaper } from "./print.ts";

/** The paper of the shop's printer; the device keeps what is picked. */
export function PaperPair(props: {
  readonly label: string;
  readonly paper: Paper;
  readonly onPick: (paper: Paper) => void;
}) {
  return (
    <div className={parts.pair} role="group" aria-label={props.label}>
      {(["A4", "Letter"] as const).map((paper) => (
        <button
          key={paper}
          type="button"
          aria-pressed={paper === props.paper}
          onClick={() => {
            setPaper(paper);
            props.onPick(paper);
          }}
        >
          {paper}
        </button>
      ))}
    </div>
  );
}
