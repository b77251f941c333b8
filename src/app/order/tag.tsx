import { useEffect, useRef } from "react";
import type { FitWords } from "../../words/index.ts";
import type { Cure, Tag as TagOf } from "./row.ts";
import { StateLine } from "./state-line.tsx";
import { cureSays, tagSays } from "./words.ts";

/** A paper tag on the wire; one whose bar cannot go in hangs askew and says why, with the smallest cure beneath. */
export function Tag(props: {
  readonly tag: TagOf;
  readonly isInHand: boolean;
  /** Something of this bar can hurt; what, is over the page. */
  readonly inDanger: boolean;
  readonly words: FitWords;
  readonly onTake: () => void;
  readonly onCure: (cure: Cure) => void;
}) {
  const { tag, isInHand, words } = props;
  const says = tagSays(tag, words);
  const place = useRef<HTMLLIElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: brought into sight when taken in hand, wherever it is hung, and when there is more to read on it
  useEffect(() => {
    if (isInHand) place.current?.scrollIntoView({ block: "nearest" });
  }, [isInHand, tag.n, tag.state, tag.cure]);
  return (
    <li ref={place} className={`tag-place ${tag.state}`}>
      <button type="button" className="tag" aria-pressed={isInHand} onClick={props.onTake}>
        <span className="tag-n">{tag.n}</span>
        <span className="tag-name">{tag.label}</span>
        {props.inDanger && <strong className="tag-danger">⚠ DANGER</strong>}
        <span className="tag-state">
          <StateLine state={tag.state} />
          <span>{says.word}</span>
          {says.was !== undefined && <s>{says.was}</s>}
        </span>
        {says.why !== undefined && <span className="tag-why">{says.why}</span>}
        {says.marks.length > 0 && <span className="tag-marks">{says.marks.join("; ")}</span>}
      </button>
      {tag.cure && (
        <button type="button" className="tag-cure" onClick={() => props.onCure(tag.cure!)}>
          {cureSays(tag.cure, words)}
        </button>
      )}
    </li>
  );
}
