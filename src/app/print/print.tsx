import { ArrowLeft, Printer, Save } from "lucide-react";
import { type ReactNode, useState } from "react";
import { BAR_SHEETS, JOB_SHEETS, TO_MAKE } from "../../cards/sheets.ts";
import { capital, PRINT_PAGE, say } from "../../words/index.ts";
import { handOut, issuing, type Paper, PaperPair, paperNow, parts, writeIn } from "../kit/index.ts";
import type { CardRequest, SeenPrint } from "../model/compute/index.ts";
import { calledOf, entries, namesIn, thingsOf } from "../model/document/index.ts";
import { goToPage, useApp, useAppItself } from "../model/state/index.ts";
import { useOrderFound } from "../order/index.ts";
import { keepSheets, likely, sheetsNow, type Which } from "./choice.ts";
import { Pages } from "./pages.tsx";
import styles from "./print.module.css";
import { type Preview, usePreview } from "./use-preview.ts";

/** What is printed of the job in hand, and its pages before they are printed. */
export function Print() {
  const app = useAppItself();
  const { request, choices, name, bars } = useChoice();
  const preview = usePreview(request);
  const [state, setState] = useState("");

  async function give(how: "save" | "print"): Promise<void> {
    setState(PRINT_PAGE.drawing);
    try {
      const printed = bars.filter((id) => !preview.seen?.without.some((one) => one.bar === id));
      if (request.print?.sheets.some((sheet) => TO_MAKE.includes(sheet))) await issuing(app)(...printed);
      const done = await handOut(app.computer, request, name, how);
      const pages = preview.seen?.pages.length ?? 0;
      setState(done === "done" ? PRINT_PAGE.ready(pages) : PRINT_PAGE.nothing);
    } catch (error) {
      setState(PRINT_PAGE.failed(error instanceof Error ? error.message : String(error)));
    }
  }

  const isEmpty = preview.isDrawing || (preview.seen?.pages.length ?? 0) === 0;
  return (
    <section aria-label={PRINT_PAGE.title} className={styles.print}>
      <header className={styles.head}>
        <button type="button" aria-label={PRINT_PAGE.back} onClick={() => goToPage("shop")}>
          <ArrowLeft aria-hidden /> <span>{PRINT_PAGE.back}</span>
        </button>
        <Count preview={preview} />
        <div className={parts.row}>
          <button type="button" className={parts.main} disabled={isEmpty} onClick={() => void give("print")}>
            <Printer aria-hidden /> {PRINT_PAGE.print}
          </button>
          <button type="button" disabled={isEmpty} onClick={() => void give("save")}>
            <Save aria-hidden /> {PRINT_PAGE.save}
          </button>
        </div>
      </header>
      <div className={styles.choices}>{choices}</div>
      <div className={styles.seen}>
        <p role="status">{state}</p>
        <NotPrinted preview={preview} />
        {preview.seen && <Pages pages={preview.seen.pages} />}
      </div>
    </section>
  );
}

/** The boxes, and what they ask for. */
function useChoice() {
  const document = useApp((s) => s.job?.document);
  const inHand = useApp((s) => s.inHand);
  const marked = useApp((s) => s.marked);
  const found = useOrderFound();
  const [which, setWhich] = useState<Which>(() => likely(inHand, marked.length));
  const [sheets, setSheets] = useState(sheetsNow);
  const [paper, setChosen] = useState<Paper>(paperNow);
  const all = document ? entries(thingsOf(document, "bar")).map(([id]) => id) : [];
  const of: Readonly<Record<Which, readonly string[]>> = {
    hand: inHand === null ? [] : [inHand],
    marked: all.filter((id) => marked.includes(id)),
    all,
    none: [],
  };
  const bars = of[which];
  const says: Readonly<Record<Which, string>> = {
    hand: inHand !== null && document ? PRINT_PAGE.which.hand(calledOf(document, "bar", inHand)) : "",
    marked: PRINT_PAGE.which.marked(of.marked.length),
    all: PRINT_PAGE.which.all(all.length),
    none: PRINT_PAGE.which.none,
  };
  const offered = (["hand", "marked", "all", "none"] as const).filter(
    (w) => w === "none" || of[w].length > 0,
  );

  function put(kind: "bar" | "job", sheet: string, isOn: boolean): void {
    const order: readonly string[] = kind === "bar" ? BAR_SHEETS : JOB_SHEETS;
    const list = order.filter((one) =>
      one === sheet ? isOn : (sheets[kind] as readonly string[]).includes(one),
    );
    const next = { ...sheets, [kind]: list };
    setSheets(next);
    keepSheets(next);
  }

  const boxes = (kind: "bar" | "job", list: readonly (keyof typeof PRINT_PAGE.sheet)[]): ReactNode =>
    list.map((sheet) => (
      <label key={sheet} className={styles.box}>
        <input
          type="checkbox"
          checked={(sheets[kind] as readonly string[]).includes(sheet)}
          onChange={(event) => put(kind, sheet, event.target.checked)}
        />
        {PRINT_PAGE.sheet[sheet]}
      </label>
    ));

  const choices = (
    <>
      <fieldset>
        <legend>{PRINT_PAGE.bars}</legend>
        {offered.map((w) => (
          <label key={w} className={styles.box}>
            <input type="radio" name="which" checked={w === which} onChange={() => setWhich(w)} />
            {says[w]}
          </label>
        ))}
      </fieldset>
      <fieldset disabled={bars.length === 0}>
        <legend>{PRINT_PAGE.ofBar}</legend>
        {boxes("bar", BAR_SHEETS)}
      </fieldset>
      <fieldset>
        <legend>{PRINT_PAGE.ofJob}</legend>
        {boxes("job", JOB_SHEETS)}
      </fieldset>
      <PaperPair label={PRINT_PAGE.paper} paper={paper} onPick={setChosen} />
    </>
  );
  const [only] = bars.length === 1 ? bars : [];
  const request: CardRequest = {
    card: "print",
    paper,
    print: {
      job: sheets.job,
      bars,
      sheets: sheets.bar,
      ...(sheets.job.includes("order") ? { found } : {}),
    },
  };
  return { request, choices, name: only ?? "print", bars };
}

/** How many pages, and how many of them are used at true size. */
function Count({ preview: { seen, isDrawing, fault } }: { readonly preview: Preview }) {
  const count = seen?.pages.length ?? 0;
  const trueSize = seen?.pages.filter((p) => p.isTrueSize).length ?? 0;
  return (
    <div className={styles.count} role="status">
      <h2>{isDrawing ? PRINT_PAGE.drawing : PRINT_PAGE.pages(count)}</h2>
      {!isDrawing && trueSize > 0 && <p>{PRINT_PAGE.trueSize(trueSize, count)}</p>}
      {!isDrawing && fault === undefined && count === 0 && <p>{PRINT_PAGE.nothing}</p>}
    </div>
  );
}

/** Bars without a card, each by a sentence, and parts that would take too many sheets; the rest is printed. */
function NotPrinted({ preview: { seen, isDrawing, fault } }: { readonly preview: Preview }) {
  const show = useApp((s) => s.show);
  const document = useApp((s) => s.job?.document);
  const lines = (print: SeenPrint): readonly string[] =>
    document === undefined
      ? []
      : [
          ...print.without.map(({ bar, why }) => {
            const label = calledOf(document, "bar", bar);
            return why === "no-geometry" ? PRINT_PAGE.noCard(label) : PRINT_PAGE.noSheet(label);
          }),
          ...print.findings.map((f) => `${capital(say(f, writeIn(show), namesIn(document)))}.`),
        ];
  const says = seen && !isDrawing ? lines(seen) : [];
  return (
    <>
      {fault !== undefined && (
        <p className={styles.fault} role="alert">
          {PRINT_PAGE.failed(fault)}
        </p>
      )}
      {says.length > 0 && (
        <ul className={styles.without}>
          {says.map((line) => (
            <li key={line}>⚠ {line}</li>
          ))}
        </ul>
      )}
    </>
  );
}
