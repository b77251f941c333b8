import { useMemo, useState } from "react";
import { howItLies } from "../../cards/how-it-lies.ts";
import type { Over } from "../../core/job/reading-types.ts";
import {
  asRead,
  isAngle,
  isPlain,
  KIND_NAMES,
  overName,
  type ReadingKind,
  sidesOf,
} from "../../words/index.ts";
import type { JobDocument, Json } from "../document/index.ts";
import { writeIn } from "../stations/write.ts";
import { LengthPad, NumberPad } from "../ui/keypad.tsx";
import { useApp } from "../use-app.ts";
import { type Draft, type EndDraft, emptyDraft, endsOf, liesOf, missingIn } from "./draft.ts";
import { LiesFigure } from "./lies.tsx";
import { type Holds, PickEnd } from "./pick-end.tsx";
import { endWords, ownError, sayReading, shopError } from "./words.ts";

type Asks = "value" | "bead" | "error" | 0 | 1;

/** One reading, put together by what was read, what the tape was held on, and what it read. */
export function ReadingPad(props: {
  readonly document: JobDocument;
  readonly kinds: readonly ReadingKind[];
  /** Heights and the like may be of a tube too. */
  readonly onBars: boolean;
  readonly bars: readonly string[];
  readonly draft: Draft;
  readonly setDraft: (draft: Draft) => void;
  /** An end waits for a tap on a point or a bar in the picture. */
  readonly wait?: (end: 0 | 1) => void;
  /** What a tap in the picture named. */
  readonly tapped?: { readonly end: 0 | 1; readonly bar: string; readonly along: number };
  readonly onTaken?: () => void;
  readonly onKeep: () => void;
}) {
  const { document, draft, setDraft, wait, tapped } = props;
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const errors = useApp((s) => (s.job?.read.ok ? s.job.read.job.shop.errors : undefined));
  const [asks, setAsks] = useState<Asks>();
  const picture = useMemo(() => howItLies(liesOf(draft)), [draft]);
  const { kind } = draft;
  const many = endsOf(kind);
  const missing = missingIn(draft);
  const sides = sidesOf(kind);
  const common = errors && shopError(kind, errors);
  const usual = common === undefined ? "±" : `± ${isAngle(kind) ? write.angle(common) : write.fine(common)}`;
  const hasTube = draft.ends.some((e) => e?.is === "tube");
  const holds: Holds = {
    points: true,
    bars: kind === "tape" || props.onBars ? props.bars : [],
    corners: kind === "tape" && !props.onBars,
  };

  function setEnd(k: 0 | 1, end: EndDraft): void {
    const ends = [...draft.ends] as [EndDraft | undefined, EndDraft | undefined];
    ends[k] = end;
    setAsks(undefined);
    props.onTaken?.();
    setDraft({ ...draft, ends });
  }
  function setError(sd: Json | undefined): void {
    setAsks(undefined);
    const { sd: _, ...rest } = draft;
    setDraft(sd === undefined ? rest : { ...rest, sd });
  }
  const close = (): void => {
    setAsks(undefined);
    props.onTaken?.();
  };
  const end = (k: 0 | 1, label: string) => (
    <button
      type="button"
      className="value name"
      aria-label={`${label}: ${draft.ends[k] ? endWords(draft.ends[k], document) : "choose"}`}
      onClick={() => setAsks(k)}
    >
      {draft.ends[k] ? endWords(draft.ends[k], document) : "choose"}
    </button>
  );
  const asked = tapped?.end ?? (asks === 0 || asks === 1 ? asks : undefined);

  return (
    <section className="reading-pad" aria-label="Reading pad">
      <div className="kinds" role="group" aria-label="What was read">
        {props.kinds.map((k) => (
          <button
            key={k}
            type="button"
            aria-pressed={k === kind}
            onClick={() => setDraft({ ...emptyDraft(k, draft.over), ends: keptEnds(draft, k, props.onBars) })}
          >
            {KIND_NAMES[k]}
          </button>
        ))}
      </div>
      <div className="pad-body">
        <div className="pad-says">
          {many >= 1 && (
            <p>
              {kind === "tape" ? "From" : many === 2 ? "First" : "Of"}{" "}
              {end(0, kind === "tape" ? "From" : "Of")}
            </p>
          )}
          {many === 2 && (
            <p>
              {kind === "tape" ? "to" : "second"} {end(1, kind === "tape" ? "To" : "Second")}
            </p>
          )}
          {hasTube && (
            <div className="pair" role="group" aria-label="Where the mark lay on the tube">
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
          {hasTube && kind === "tape" && !props.onBars && (
            <p>
              between tube and tape{" "}
              <button
                type="button"
                className="value"
                aria-label={`Between tube and tape: ${draft.bead === undefined ? "nothing" : asRead(draft.bead, "tape")}`}
                onClick={() => setAsks("bead")}
              >
                {draft.bead === undefined ? "nothing" : asRead(draft.bead, "tape")}
              </button>
            </p>
          )}
          {!isPlain(kind) && (
            <p>
              reads{" "}
              <button
                type="button"
                className="value reads"
                aria-label={`Reads: ${draft.value === undefined ? "type it" : asRead(draft.value, kind)}`}
                onClick={() => setAsks("value")}
              >
                {draft.value === undefined ? "type it" : asRead(draft.value, kind)}
              </button>
            </p>
          )}
          {!props.onBars && (
            <p className="good-to">
              good to{" "}
              <button
                type="button"
                className="value"
                aria-label={`Good to: ${ownError(draft) || usual}`}
                onClick={() => setAsks("error")}
              >
                {ownError(draft) || usual}
              </button>
            </p>
          )}
        </div>
        <LiesFigure picture={picture} label={`How it lies: ${sayReading(draft, document)}`} />
      </div>
      <button type="button" className="main keep" disabled={missing !== undefined} onClick={props.onKeep}>
        {missing === undefined ? "Keep this reading" : `${missing[0]!.toUpperCase()}${missing.slice(1)}`}
      </button>
      {asked !== undefined && (
        <PickEnd
          key={tapped ? `${tapped.bar} ${tapped.along}` : "asked"}
          title={many === 1 ? "Of what?" : asked === 0 ? "From where?" : "To where?"}
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
      {asks === "value" && !isAngle(kind) && (
        <LengthPad
          title={sayReading(draft, document)}
          value={draft.value}
          unit={show.length}
          {...(sides ? { sides } : {})}
          write={write.length}
          onClose={close}
          onSet={(value) => {
            setAsks(undefined);
            if (value !== undefined) setDraft({ ...draft, value });
          }}
        />
      )}
      {asks === "value" && isAngle(kind) && (
        <NumberPad
          title={sayReading(draft, document)}
          value={typeof draft.value === "number" ? draft.value : undefined}
          least={kind === "slope" ? -90 : -45}
          most={kind === "slope" ? 90 : 45}
          {...(sides ? { sides } : {})}
          onClose={close}
          onSet={(value) => {
            setAsks(undefined);
            setDraft({ ...draft, value });
          }}
        />
      )}
      {asks === "error" && !isAngle(kind) && (
        <LengthPad
          title="This one is good to ±"
          value={draft.sd}
          unit={show.length}
          write={write.fine}
          clear={`As the shop's, ${usual}`}
          onClose={close}
          onSet={setError}
        />
      )}
      {asks === "error" && isAngle(kind) && (
        <NumberPad
          title="This one is good to ±"
          value={typeof draft.sd === "number" ? draft.sd : undefined}
          least={0.01}
          most={45}
          clear={{ says: `As the shop's, ${usual}`, onClear: () => setError(undefined) }}
          onClose={close}
          onSet={setError}
        />
      )}
      {asks === "bead" && (
        <LengthPad
          title="A bead, a hook: how thick?"
          value={draft.bead}
          unit={show.length}
          write={write.fine}
          clear="Nothing between"
          onClose={close}
          onSet={(bead) => {
            setAsks(undefined);
            const { bead: _, ...rest } = draft;
            setDraft(bead === undefined ? rest : { ...rest, bead });
          }}
        />
      )}
    </section>
  );
}

/** What the ends of one kind are worth to another: the first stays, the second where there is room; tubes only where they may be. */
function keptEnds(draft: Draft, to: ReadingKind, onBars: boolean): Draft["ends"] {
  const fits = (e: EndDraft | undefined): EndDraft | undefined =>
    e && (e.is === "point" || to === "tape" || (onBars && e.is === "tube")) ? e : undefined;
  const [p, q] = draft.ends.map(fits);
  const many = endsOf(to);
  return [many >= 1 ? (p ?? q) : undefined, many === 2 ? q : undefined];
}
