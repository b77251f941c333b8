import { useEffect, useRef } from "react";
import type { FitWords } from "../../words/index.ts";
import { ORDER_PAGE } from "../../words/index.ts";
import type { Cure, Tag as TagOf } from "./row.ts";
import { cureSays, tagSays } from "./says.ts";
import { StateLine } from "./state-line.tsx";
import styles from "./tag.module.css";

const LOOKS: Partial<Record<TagOf["state"], string | undefined>> = {
  no: styles.no,
  unseen: styles.dashed,
  placeless: styles.dashed,
};

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
  const { cure } = tag;
  const says = tagSays(tag, words);
  const place = useRef<HTMLLIElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: brought into sight when taken in hand, wherever it is hung, and when there is more to read on it
  useEffect(() => {
    if (isInHand) place.current?.scrollIntoView({ block: "nearest" });
  }, [isInHand, tag.n, tag.state, tag.cure]);
  return (
    <li ref={place} className={`${styles.place} ${LOOKS[tag.state] ?? ""}`}>
      <button type="button" className={styles.tag} aria-pressed={isInHand} onClick={props.onTake}>
        <span className={styles.number}>{tag.n}</span>
        <span className={styles.name}>{tag.label}</span>
        {props.inDanger && <strong className={styles.danger}>{ORDER_PAGE.danger}</strong>}
        <span className={styles.state}>
          <StateLine state={tag.state} />
          <span>{says.word}</span>
          {says.was !== undefined && <s>{says.was}</s>}
        </span>
        {says.why !== undefined && <span className={styles.why}>{says.why}</span>}
        {says.marks.length > 0 && <span className={styles.marks}>{says.marks.join("; ")}</span>}
      </button>
      {cure && (
        <button type="button" className={styles.cure} onClick={() => props.onCure(cure)}>
          {cureSays(cure, words)}
        </button>
      )}
    </li>
  );
}
