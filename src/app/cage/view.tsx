import { type ReactNode, type RefObject, useEffect, useRef, useState } from "react";
import { placeAt } from "../../core/bar/index.ts";
import type { Job } from "../../core/job/index.ts";
import { VIEW } from "../../words/index.ts";
import { useTheme } from "../kit/index.ts";
import type { Computer, DiffersReply, Results } from "../model/compute/index.ts";
import { useActions, useApp, useAppItself } from "../model/state/index.ts";
import { useFed } from "./fed.ts";
import { createViewer } from "./later.ts";
import type { Staging } from "./staging.ts";
import { darkTheme, lightTheme } from "./theme.ts";
import { Tools } from "./tools.tsx";
import type { Section, Viewer, ViewTap } from "./types.ts";
import { usePointed } from "./use-pointed.ts";
import styles from "./view.module.css";

const NONE: readonly string[] = [];
/** What is gone to is shown this much smaller than it could be. */
const AMONG = 1.6;

/** The cage, to be turned, cut and tapped; all of it can be done by keys, and nothing needs a pointer that hovers. */
export function View(props: {
  /** What `results` are of, where that is not the job in hand. */
  readonly computer?: Computer;
  readonly results: Results;
  readonly job: Job | undefined;
  readonly inHand: string | null;
  readonly onTap: (id: string | null, at: ViewTap | null) => void;
  /** Points can be tapped, too. */
  readonly onPoint?: (id: string) => void;
  /** Points in hand, by ID. */
  readonly points?: readonly string[];
  /** Names of points, body lines, the bar in hand and what it lands on; "asked": of all bars too, when their button is pressed. */
  readonly names?: "always" | "asked";
  /** Where what is made and what is wanted differ. */
  readonly differs?: DiffersReply | undefined;
  readonly label: string;
  readonly unit: "mm" | "in";
  readonly write: (mm: number) => string;
  /** Only turning and fitting, for the picture of one joint. */
  readonly small?: boolean;
  /** What is said at the foot of the picture of the bar that is pointed at. */
  readonly says?: (id: string) => ReactNode;
  /** Bars to be gone to, each time that it is another object. */
  readonly goTo?: { readonly bars: readonly string[] } | undefined;
  /** Over the picture's upper edge; what is fitted leaves it room, and taps go through all of it but its buttons. */
  readonly children?: ReactNode;
  /** A moment of fitting; the view begins where `from` says, fitted to the first moment. */
  readonly stage?: {
    readonly now: Staging;
    readonly first: Staging;
    readonly from: { readonly az: number; readonly el: number };
  };
}) {
  const { results, job, inHand, points = NONE, differs } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const top = useRef<HTMLDivElement>(null);
  const foot = useRef<HTMLDivElement>(null);
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
  const app = useAppItself();
  const act = useActions();
  const namesShown = useApp((s) => s.names);
  const hasNames = props.names === "always" || (props.names === "asked" && namesShown);
  const namesBars = props.names !== "always";
  const pointed = usePointed(viewer, results.bars, (id) => {
    // keys point at a bar, not at a place of it: half way along
    const line = results.bars.get(id)?.bar.centreline;
    const along = (line?.length ?? 0) / 2;
    props.onTap(id, line ? { place: placeAt(line, along).at, along } : null);
  });

  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme that it starts with; later ones are set below
  useEffect(() => {
    if (!canvas.current) return;
    viewer.current = createViewer(canvas.current, {
      theme: themeFor(theme),
      onTap: (id, at) => onTap.current(id, at),
      ...(onPoint.current ? { onPoint: (id) => onPoint.current?.(id) } : {}),
      ...(over.current ? { names: over.current } : {}),
      // the buttons of a small picture are in its corner, and leave the rest free
      room: () => ({
        above: top.current?.offsetHeight ?? 0,
        below: props.small ? 0 : (foot.current?.offsetHeight ?? 0),
      }),
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
    viewer.current?.setNames(hasNames, namesBars);
  }, [hasNames, namesBars]);
  useFed(viewer, props.computer ?? app.computer, job, differs);
  useEffect(() => {
    viewer.current?.setInHand(inHand, points);
  }, [inHand, points]);
  useTaken(viewer, inHand, results, !props.stage);
  const { goTo } = props;
  useEffect(() => {
    if (goTo) near(viewer.current, goTo.bars);
  }, [goTo]);
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

  return (
    <div className={styles.view}>
      <canvas
        ref={canvas}
        aria-label={VIEW.canvas(props.label, seen)}
        role="img"
        tabIndex={0}
        {...pointed.on}
      />
      <div ref={over} className={styles.names} aria-hidden="true" />
      <div ref={top} className={styles.top}>
        <p className={styles.seen} aria-live="polite">
          {fault ?? seen}
          {section && VIEW.cut(section.axis, props.write(section.at))}
        </p>
        {props.children}
      </div>
      <div className={styles.bottom}>
        <p className={styles.pointed} aria-live="polite">
          {pointed.id !== null && (
            <>
              <strong>{results.bars.get(pointed.id)?.label}</strong>
              {props.says?.(pointed.id)}
            </>
          )}
        </p>
        <div ref={foot}>
          <Tools
            viewer={viewer}
            small={props.small}
            names={props.names === "asked" ? { isOn: hasNames, show: act.showNames } : undefined}
            section={section}
            setSection={setSection}
            unit={props.unit}
            write={props.write}
          />
        </div>
      </div>
    </div>
  );
}

/** These bars, and about them as much again of what they are among. */
function near(viewer: Viewer | undefined, bars: readonly string[]): void {
  viewer?.fit(bars);
  viewer?.zoom(1 / AMONG);
}

/** A bar that is new is gone to as soon as it is there; one that is taken in hand only where it is out of sight. */
function useTaken(
  viewer: RefObject<Viewer | undefined>,
  inHand: string | null,
  { bars }: Results,
  goes: boolean,
): void {
  const waits = useRef<string>(undefined);
  const last = useRef(inHand);
  useEffect(() => {
    if (!goes || inHand === null) {
      waits.current = undefined;
    } else if (inHand !== last.current) {
      if (bars.has(inHand)) viewer.current?.bring([inHand]);
      // with no bar there yet the first picture shows it anyway
      else if (bars.size > 0) waits.current = inHand;
    } else if (waits.current === inHand && bars.has(inHand)) {
      waits.current = undefined;
      near(viewer.current, [inHand]);
    }
    last.current = inHand;
  }, [viewer, inHand, bars, goes]);
}

const themeFor = (theme: "light" | "dark") => (theme === "dark" ? darkTheme : lightTheme);
