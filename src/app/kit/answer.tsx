import { split } from "./write.ts";

/** A question of the bar in hand: one figure, and the reason folded beneath. */
export function Answer(props: {
  readonly question: string;
  readonly figure: string;
  readonly says: string;
  readonly children?: React.ReactNode;
}) {
  const { number, unit } = split(props.figure);
  return (
    <details className="answer">
      <summary>
        <span className="question">{props.question}</span>
        <span className="figure">
          {number}
          {unit && <small> {unit}</small>}
        </span>
        <span className="says">{props.says}</span>
      </summary>
      <p>{props.children}</p>
    </details>
  );
}
