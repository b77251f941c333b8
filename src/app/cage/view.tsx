import { Maximize, Minus, Plus, RotateCcw, RotateCw, Scissors, Type } from "lucide-react";
import { useEffect, useMemo, useRef, useState } from "react";
import { severityOf } from "../../core/findings/index.ts";
import type { Job } from "../../core/job/index.ts";
import type { ResolvedBar } from "../../core/layout/types.ts";
import { SIDES, VIEW } from "../../words/index.ts";
import { Choose, LengthPad, mmOf, useTheme } from "../kit/index.ts";
import type { DiffersReply, Results } from "../model/compute/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { STRAIGHT_VIEWS } from "./camera.ts";
import { createViewer } from "./later.ts";
import { platesOf } from "./plates.ts";
import type { Staging } from "./staging.ts";
import { darkTheme, lightTheme } from "./theme.ts";
import type { Section, Viewer, ViewTap } from "./types.ts";
import styles from "./view.module.css";

const NONE: readonly string[] = [];

/** The cage, to be turned, cut and tapped; every button of it can be reached by keys. */
export function View(props: {
  readonly results: Results;
  readonly job: Job | undefined;
  readonly inHand: string | null;
  readonly onTap: (id: string | null, at: ViewTap | null) => void;
  /** Points can be tapped, too. */
  readonly onPoint?: (id: string) => void;
  /** Points in hand, by ID. */
  readonly points?: readonly string[];
  /** Names of points, of body lines and of the bar in hand; "asked": when their button is pressed. */
  readonly names?: "always" | "asked";
  /** Where what is made and what is wanted differ. */
  readonly differs?: DiffersReply | undefined;
  readonly label: string;
  readonly unit: "mm" | "in";
  readonly write: (mm: number) => string;
  /** Only turning and fitting, for the picture of one joint. */
  readonly small?: boolean;
  /** A moment of fitting; the view begins where `from` says, fitted to the first moment. */
  readonly stage?: {
    readonly now: Staging;
    readonly first: Staging;
    readonly from: { readonly az: number; readonly el: number };
  };
}) {
  const { results, job, inHand, points = NONE, differs } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLDivElement>(null);
  const viewer = useRef<Viewer>(undefined);
  const onTap = useRef(props.onTap);
  onTap.current = props.onTap;
  const onPoint = useRef(props.onPoint);
  onPoint.current = props.onPoint;
  const theme = useTheme();
  const [seen, setSeen] = useState("");
  const [fault, setFault] = useState<string>();
  const [section, setSection] = useState<Section | null>(null);
  const act = useActions();
  const namesShown = useApp((s) => s.names);
  const hasNames = props.names === "always" || (props.names === "asked" && namesShown);
  const [asks, setAsks] = useState<"section" | { readonly axis: Section["axis"] }>();

  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme that it starts with; later ones are set below
  useEffect(() => {
    if (!canvas.current) return;
    viewer.current = createViewer(canvas.current, {
      theme: themeFor(theme),
      onTap: (id, at) => onTap.current(id, at),
      ...(onPoint.current ? { onPoint: (id) => onPoint.current?.(id) } : {}),
      ...(over.current ? { names: over.current } : {}),
      onCamera: setSeen,
      onContext: (alive) => setFault(alive ? undefined : VIEW.lost),
      onFailure: () => setFault(VIEW.none),
    });
    return () => {
      viewer.current?.dispose();
      viewer.current = undefined;
    };
  }, []);
  useEffect(() => {
    viewer.current?.setTheme(themeFor(theme));
  }, [theme]);
  // before the bars, whose first picture is fitted with room for names
  useEffect(() => {
    viewer.current?.setNames(hasNames);
  }, [hasNames]);
  const bars = useMemo(
    () =>
      [...results.bars.values()].map((bar) => ({
        id: bar.id,
        label: bar.label,
        mesh: bar.mesh,
        progress: bar.progress,
        hosts: hostsOf(bar.bar),
        corners: [...bar.bar.centreline.bends, ...bar.bar.centreline.small],
        state:
          bar.findings.some((f) => ["danger", "error"].includes(severityOf(f))) ||
          differs?.bars.some((v) => v.bar === bar.id)
            ? ("attention" as const)
            : ("plain" as const),
      })),
    [results.bars, differs],
  );
  useEffect(() => {
    viewer.current?.setBars(bars);
  }, [bars]);
  useEffect(() => {
    viewer.current?.setInHand(inHand, points);
  }, [inHand, points]);
  useEffect(() => {
    if (!job) return;
    const plates = platesOf({ job, bars: [...results.bars.values()] });
    viewer.current?.setExtras({
      plates,
      points: results.points,
      body: job.body,
      ...(job.driver ? { driver: job.driver } : {}),
      ...(differs && differs.fast.length > 0 ? { wanted: differs.fast.map((f) => f.wanted) } : {}),
    });
  }, [job, results.bars, results.points, differs]);
  useEffect(() => {
    viewer.current?.setSection(section);
  }, [section]);
  const { now, first, from } = props.stage ?? {};
  // biome-ignore lint/correctness/useExhaustiveDependencies: fitted again only for another bar or another camera
  useEffect(() => {
    if (!first || !from) return;
    viewer.current?.setStaging(first);
    viewer.current?.lookFrom(from);
  }, [from]);
  useEffect(() => {
    viewer.current?.setStaging(now ?? null);
  }, [now]);
  const look = (view: Parameters<Viewer["look"]>[0]) => () => viewer.current?.look(view);

  return (
    <div className={styles.view}>
      <canvas ref={canvas} aria-label={VIEW.canvas(props.label, seen)} role="img" tabIndex={0} />
      <div ref={over} className={styles.names} aria-hidden="true" />
      <p className={styles.seen} aria-live="polite">
        {fault ?? seen}
        {section && VIEW.cut(section.axis, props.write(section.at))}
      </p>
      <div className={styles.tools} role="toolbar" aria-label={VIEW.views}>
        <button type="button" onClick={() => viewer.current?.fit()}>
          <Maximize aria-hidden /> {VIEW.all}
        </button>
        <button type="button" onClick={look("three-quarter")}>
          {VIEW.threeQuarter}
        </button>
        {!props.small &&
          STRAIGHT_VIEWS.map((view) => (
            <button key={view} type="button" onClick={look(view)}>
              {VIEW.straight[view]}
            </button>
          ))}
        <button type="button" aria-label={VIEW.turnLeft} onClick={() => viewer.current?.turn(-15, 0)}>
          <RotateCcw aria-hidden />
        </button>
        <button type="button" aria-label={VIEW.turnRight} onClick={() => viewer.current?.turn(15, 0)}>
          <RotateCw aria-hidden />
        </button>
        <button type="button" aria-label={VIEW.closer} onClick={() => viewer.current?.zoom(1.4)}>
          <Plus aria-hidden />
        </button>
        <button type="button" aria-label={VIEW.farther} onClick={() => viewer.current?.zoom(1 / 1.4)}>
          <Minus aria-hidden />
        </button>
        {props.names === "asked" && (
          <button type="button" aria-pressed={hasNames} onClick={() => act.showNames(!hasNames)}>
            <Type aria-hidden /> {VIEW.names}
          </button>
        )}
        {!props.small && (
          <button type="button" aria-pressed={section !== null} onClick={() => setAsks("section")}>
            <Scissors aria-hidden /> {VIEW.section}
          </button>
        )}
      </div>
      {asks === "section" && (
        <Choose
          title={VIEW.sectionTitle}
          options={[
            ...(section ? [["none", VIEW.whole] as const] : []),
            ["x", VIEW.planes.x],
            ["y", VIEW.planes.y],
            ["z", VIEW.planes.z],
          ]}
          onClose={() => setAsks(undefined)}
          onPick={(axis) => {
            if (axis === "none") {
              setSection(null);
              setAsks(undefined);
            } else setAsks({ axis: axis as Section["axis"] });
          }}
        />
      )}
      {typeof asks === "object" && (
        <LengthPad
          title={VIEW.planeAt[asks.axis]}
          value={section?.axis === asks.axis ? section.at : asks.axis === "z" ? 600 : 0}
          unit={props.unit}
          sides={SIDES[asks.axis]}
          write={props.write}
          onClose={() => setAsks(undefined)}
          onSet={(at) => {
            setAsks(undefined);
            const read = typeof at === "number" ? at : at === undefined ? undefined : mmOf(at);
            if (read !== undefined) setSection({ axis: asks.axis, at: read });
          }}
        />
      )}
    </div>
  );
}

const themeFor = (theme: "light" | "dark") => (theme === "dark" ? darkTheme : lightTheme);

const hostsOf = ({ seat }: ResolvedBar): readonly string[] =>
  [seat.A, seat.B].flatMap((s) => (s.kind === "on" ? s.hosts : []));
