import { isEased, MADE_CHANGED, MADE_LIST, MAKE_AGAIN, sayMade } from "../../words/index.ts";
import type { MadeChange } from "../model/compute/index.ts";
import { useActions } from "../model/state/index.ts";
import { Decides } from "./caution.tsx";
import parts from "./parts.module.css";
import type { Write } from "./write.ts";

/** What a change does to bars that are made, gravest first; a tap takes the bar in hand. */
export function MadeList(props: {
  readonly change: MadeChange;
  readonly called: (id: string) => string;
  readonly write: Write;
  /** Whether a bar can be made again from here. */
  readonly offers?: boolean;
}) {
  const { change, called, write } = props;
  const act = useActions();
  const { bars, gone, lost } = change;
  if (bars.length + gone.length + lost.length === 0) return <p>{MADE_CHANGED.none}</p>;
  return (
    <>
      <ul>
        {lost.map((id) => (
          <Line key={id} says={MADE_CHANGED.lost} label={called(id)} onTap={() => act.take(id)} />
        ))}
        {bars.map((v) => (
          <li key={v.bar}>
            <Tap
              label={MADE_LIST.step(called(v.bar), v.step)}
              says={sayMade(v, write)}
              onTap={() => act.take(v.bar)}
            />
            {props.offers && v.verdict === "make again" && (
              <button type="button" onClick={() => act.makeAgain(v.bar)}>
                {MAKE_AGAIN.button}
              </button>
            )}
          </li>
        ))}
        {gone.map((id) => (
          <Line key={id} says={MADE_CHANGED.gone} label={called(id)} />
        ))}
      </ul>
      {bars.some(isEased) && <Decides />}
    </>
  );
}

interface Said {
  readonly label: string;
  readonly says: string;
  readonly onTap?: () => void;
}

const Line = (props: Said) => (
  <li>
    <Tap {...props} />
  </li>
);

const Tap = ({ label, says, onTap }: Said) => (
  <button type="button" onClick={onTap} disabled={!onTap}>
    <span>{label}</span>
    <span className={parts.numbers}>{says}</span>
  </button>
);
