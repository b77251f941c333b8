import { useMemo, useState } from "react";
import { howItLies } from "../../cards/how-it-lies.ts";
import type { Over } from "../../core/job/reading-types.ts";
import {
  asRead,
  capital,
  isAngle,
  isPlain,
  KIND_NAMES,
  overName,
  READING_PAD as PAD,
  PICK_END,
  READING_LIST,
  type ReadingKind,
  sayLack,
} from "../../words/index.ts";
import { classes, parts, writeIn } from "../kit/index.ts";
import type { JobDocument, Json } from "../model/document/index.ts";
import { useApp } from "../model/state/index.ts";
import { AskSize, type Size } from "./ask-size.tsx";
import { type Draft, type EndDraft, emptyDraft, endsOf, howReadOf, missingIn } from "./draft.ts";
import { HowRead } from "./how-read.tsx";
import { type Holds, PickEnd } from "./pick-end.tsx";
import styles from "./reading-pad.module.css";
import { endWords, ownError, sayReading, shopError } from "./say-reading.ts";

type Asks = Size | 0 | 1;

/** One reading, put together by what was read, what the tape was held on, and what it read. */
export function ReadingPad(props: {
  readonly document: JobDocument;
  readonly kinds: readonly ReadingKind[];
  /** Heights and the like may be of a tube too. */
  readonly onBars: boolean;
  readonly bars: readonly string[];
  readonly draft: Draft;
  readonly setDraft: (draft: Draft) => void;
  /** What the reading should read, as it would be typed. */
  readonly wanted?: { readonly value: Json; readonly says: string } | undefined;
  /** An end waits for a tap on a point or a bar in the picture. */
  readonly wait?: (end: 0 | 1) => void;
  /** What a tap in the picture named. */
  readonly tapped?: { readonly end: 0 | 1; readonly bar: string; readonly along: number };
  readonly onTaken?: () => void;
  readonly onKeep: () => void;
}) {
  const { document, draft, setDraft, wait, tapped, wanted } = props;
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const errors = useApp((s) => (s.job?.read.ok ? s.job.read.job.shop.errors : undefined));
  const [asks, setAsks] = useState<Asks>();
  const picture = useMemo(() => howItLies(howReadOf(draft)), [draft]);
  const { kind } = draft;
  const many = endsOf(kind);
  const names =
    kind === "tape"
      ? ([PAD.from, PAD.to] as const)
      : ([many === 2 ? PAD.first : PAD.place, PAD.second] as const);
  const missing = missingIn(draft);
  const common = errors && shopError(kind, errors);
  const usual = READING_LIST.ownError(
    common === undefined ? "" : isAngle(kind) ? write.angle(common) : write.fine(common),
  );
  const bead = draft.bead === undefined ? PAD.nothing : asRead(draft.bead, "tape");
  const value = draft.value === undefined ? PAD.enter : asRead(draft.value, kind);
  const [first, last] = draft.ends;
  /** The second of two tubes: its side may be another. */
  const second = first?.is === "tube" && last?.is === "tube" ? last : undefined;
  const hasTube = draft.ends.some((e) => e?.is === "tube");
  const holds: Holds = {
    points: true,
    bars: kind === "tape" || props.onBars ? props.bars : [],
    corners: kind === "tape" && !props.onBars,
  };

  function setEnd(k: 0 | 1, end: EndDraft): void {
    const [first, second] = draft.ends;
    setAsks(undefined);
    props.onTaken?.();
    setDraft({ ...draft, ends: k === 0 ? [end, second] : [first, end] });
  }
  const close = (): void => {
    setAsks(undefined);
    props.onTaken?.();
  };
  const held = (k: 0 | 1): string => (draft.ends[k] ? endWords(draft.ends[k], document) : PAD.choose);
  const end = (k: 0 | 1, label: string) => (
    <button
      type="button"
      className={classes(parts.value, parts.name)}
      aria-label={`${capital(label)}: ${held(k)}`}
      onClick={() => setAsks(k)}
    >
      {held(k)}
    </button>
  );
  const typed = (size: Size, label: string, figure: string) => (
    <button
      type="button"
      className={classes(parts.value, size === "value" && styles.reads)}
      aria-label={`${label}: ${figure}`}
      onClick={() => setAsks(size)}
    >
      {figure}
    </button>
  );
  const asked = tapped?.end ?? (asks === 0 || asks === 1 ? asks : undefined);
  const size = asks === 0 || asks === 1 ? undefined : asks;

  return (
    <section className={styles.pad} aria-label={PAD.pad}>
      <div className={styles.kinds} role="group" aria-label={PAD.kinds}>
        {props.kinds.map((k) => (
          <button
            key={k}
            type="button"
            aria-pressed={k === kind}
            onClick={() => setDraft({ ...emptyDraft(k, draft), ends: keptEnds(draft, k, props.onBars) })}
          >
            {KIND_NAMES[k]}
          </button>
        ))}
      </div>
      <div className={styles.body}>
        <div className={styles.says}>
          {many >= 1 && (
            <p>
              {names[0]} {end(0, names[0])}
            </p>
          )}
          {many === 2 && (
            <p>
              {names[1]} {end(1, names[1])}
            </p>
          )}
          {hasTube && (
            <div className={parts.pair} role="group" aria-label={PAD.side}>
              {(["outside", "inside", "centre"] as const).map((over: Over) => (
                <button
                  key={over}
                  type="button"
                  aria-pressed={over === draft.over}
                  onClick={() => setDraft({ ...draft, over })}
                >
                  {overName(kind, over)}
                </button>
              ))}
            </div>
          )}
          {kind === "tape" && (
            <p>
              {PAD.held} {typed("mark", PAD.held, heldAt(draft.mark))}
            </p>
          )}
          {second && kind === "tape" && !props.onBars && (
            <div className={parts.pair} role="group" aria-label={PAD.sideTo}>
              {(["outside", "inside", "centre"] as const).map((over: Over) => (
                <button
                  key={over}
                  type="button"
                  aria-pressed={over === (second.over ?? draft.over)}
                  onClick={() => setDraft({ ...draft, ends: [draft.ends[0], { ...second, over }] })}
                >
                  {PAD.otherSide(overName(kind, over))}
                </button>
              ))}
            </div>
          )}
          {hasTube && kind === "tape" && !props.onBars && (
            <p>
              {PAD.bead} {typed("bead", PAD.bead, bead)}
            </p>
          )}
          {!isPlain(kind) && (
            <p>
              {PAD.reading} {typed("value", PAD.reading, value)}
            </p>
          )}
          {wanted && !isPlain(kind) && (
            <button type="button" onClick={() => setDraft({ ...draft, value: wanted.value })}>
              {wanted.says}
            </button>
          )}
          {!props.onBars && (
            <p>
              {PAD.error} {typed("error", PAD.error, ownError(draft) || usual)}
            </p>
          )}
        </div>
        <HowRead picture={picture} label={sayReading(draft, document)} />
      </div>
      <button
        type="button"
        className={classes(parts.main, styles.keep)}
        disabled={missing !== undefined}
        onClick={props.onKeep}
      >
        {missing === undefined ? PAD.keep : sayLack(missing)}
      </button>
      {asked !== undefined && (
        <PickEnd
          key={tapped ? `${tapped.bar} ${tapped.along}` : "asked"}
          title={PICK_END.title(asked, many, kind === "tape")}
          holds={holds}
          document={document}
          {...(tapped ? { bar: { id: tapped.bar, along: tapped.along } } : {})}
          {...(wait
            ? {
                onTapIt: () => {
                  setAsks(undefined);
                  wait(asked);
                },
              }
            : {})}
          onPick={(picked) => setEnd(asked, picked)}
          onClose={close}
        />
      )}
      {size !== undefined && (
        <AskSize
          size={size}
          document={document}
          draft={draft}
          usual={usual}
          onSet={(next) => {
            setAsks(undefined);
            setDraft(next);
          }}
          onClose={close}
        />
      )}
    </section>
  );
}

/** What of the tape is held, as the page says it. */
export const heldAt = (mark: Draft["mark"]): string =>
  mark === undefined ? PAD.hook : PAD.mark(asRead(mark, "tape"));

/** What the ends of one kind are worth to another: the first stays, the second where there is room; tubes only where they may be. */
function keptEnds(draft: Draft, to: ReadingKind, onBars: boolean): Draft["ends"] {
  const fits = (e: EndDraft | undefined): EndDraft | undefined =>
    e && (e.is === "point" || to === "tape" || (onBars && e.is === "tube")) ? e : undefined;
  const [p, q] = draft.ends.map(fits);
  const many = endsOf(to);
  return [many >= 1 ? (p ?? q) : undefined, many === 2 ? q : undefined];
}
