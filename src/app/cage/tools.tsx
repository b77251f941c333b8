import { type KeyboardEvent, lazy, type RefObject, Suspense, useRef, useState } from "react";
import { VIEW } from "../../words/index.ts";
import type { Section, Viewer } from "./types.ts";
import styles from "./view.module.css";

// Opened seldom: the first picture does without them.
const ViewsMenu = lazy(async () => ({ default: (await import("./views-menu.tsx")).ViewsMenu }));
const AskSection = lazy(async () => ({ default: (await import("./ask-section.tsx")).AskSection }));

/** Over the picture's lower edge: the menu of views, and beside it names and section. */
export function Tools(props: {
  readonly viewer: RefObject<Viewer | undefined>;
  readonly small: boolean | undefined;
  readonly names: { readonly isOn: boolean; readonly show: (isOn: boolean) => void } | undefined;
  readonly section: Section | null;
  readonly setSection: (section: Section | null) => void;
  readonly unit: "mm" | "in";
  readonly write: (mm: number) => string;
}) {
  const { viewer, small, names, section, setSection } = props;
  const views = useRef<HTMLButtonElement>(null);
  const [isOpen, setOpen] = useState(false);
  const [asks, setAsks] = useState(false);
  const openByKey = (e: KeyboardEvent): void => {
    if (isOpen || (e.key !== "ArrowDown" && e.key !== "ArrowUp")) return;
    e.preventDefault();
    setOpen(true);
  };
  return (
    <div className={styles.tools} role="toolbar" aria-label={VIEW.tools}>
      <button
        ref={views}
        type="button"
        aria-haspopup="menu"
        aria-expanded={isOpen}
        onClick={() => setOpen(!isOpen)}
        onKeyDown={openByKey}
      >
        {VIEW.views} <span aria-hidden>▾</span>
      </button>
      {names && (
        <button type="button" aria-pressed={names.isOn} onClick={() => names.show(!names.isOn)}>
          {VIEW.names}
        </button>
      )}
      {!small && (
        <button type="button" aria-pressed={section !== null} onClick={() => setAsks(true)}>
          {VIEW.section}
        </button>
      )}
      <Suspense>
        {isOpen && <ViewsMenu viewer={viewer} opener={views} small={small} onClose={() => setOpen(false)} />}
        {asks && (
          <AskSection
            section={section}
            setSection={setSection}
            unit={props.unit}
            write={props.write}
            onClose={() => setAsks(false)}
          />
        )}
      </Suspense>
    </div>
  );
}
