import { Camera, Trash2 } from "lucide-react";
import { useCallback, useEffect, useRef, useState } from "react";
import { PHOTOGRAPHS, TOP, UNNAMED } from "../../words/index.ts";
import { classes, parts } from "../kit/index.ts";
import { calledOf, thingsOf } from "../model/document/index.ts";
import { type Photograph, pictureOf, shopAsk } from "../model/shop/index.ts";
import { useApp } from "../model/state/index.ts";
import { smaller } from "./picture.ts";
import styles from "./shop.module.css";
import { whenOf } from "./when.ts";

/** Photographs of the job and its bars, kept in the shop and fetched when they are looked at. */
export function Photographs() {
  const job = useApp((s) => s.job);
  const inHand = useApp((s) => s.inHand);
  const line = useApp((s) => s.shop?.line);
  const id = job?.entry.id;
  const [list, setList] = useState<readonly Photograph[]>([]);
  const [bar, setBar] = useState(inHand ?? "");
  const [wrong, setWrong] = useState<string>();
  const [isSending, setSending] = useState(false);
  const input = useRef<HTMLInputElement>(null);

  const look = useCallback(async (): Promise<void> => {
    if (id !== undefined) setList(await shopAsk.photographs(id));
  }, [id]);
  useEffect(() => {
    if (line === "up") void look().catch((e: unknown) => setWrong(PHOTOGRAPHS.failed((e as Error).message)));
  }, [look, line]);
  if (!job || id === undefined) return <p className={parts.wait}>{TOP.jobs}</p>;

  async function add(file: File | undefined): Promise<void> {
    if (!file || id === undefined) return;
    setSending(true);
    setWrong(undefined);
    try {
      const picture = await smaller(file).catch(() => undefined);
      if (!picture) setWrong(PHOTOGRAPHS.notPicture);
      else await shopAsk.addPhotograph(id, bar === "" ? undefined : bar, picture);
      await look();
    } catch (error) {
      setWrong(PHOTOGRAPHS.failed((error as Error).message));
    }
    setSending(false);
  }
  const called = (b: string | undefined): string =>
    b === undefined ? PHOTOGRAPHS.job : calledOf(job.document, "bar", b);
  const shown = bar === "" ? list : list.filter((p) => p.bar === bar);
  const name = typeof job.document.name === "string" ? job.document.name : UNNAMED;
  return (
    <div className={styles.page}>
      <section aria-label={PHOTOGRAPHS.title}>
        <h2>{PHOTOGRAPHS.of(name)}</h2>
        {wrong !== undefined && <p className={classes(parts.says, parts.wrong)}>{wrong}</p>}
        <label className={styles.filter}>
          {PHOTOGRAPHS.which}{" "}
          <select value={bar} onChange={(event) => setBar(event.target.value)}>
            <option value="">{PHOTOGRAPHS.job}</option>
            {Object.keys(thingsOf(job.document, "bar")).map((b) => (
              <option key={b} value={b}>
                {called(b)}
              </option>
            ))}
          </select>
        </label>
        {window.isSecureContext ? (
          <button
            type="button"
            className={parts.main}
            disabled={isSending || line !== "up"}
            onClick={() => input.current?.click()}
          >
            <Camera aria-hidden /> {PHOTOGRAPHS.take}
          </button>
        ) : (
          <p>{PHOTOGRAPHS.secure}</p>
        )}
        <input
          ref={input}
          type="file"
          accept="image/*"
          capture="environment"
          hidden
          onChange={(event) => {
            void add(event.target.files?.[0]);
            event.target.value = "";
          }}
        />
        {isSending && <p role="status">{PHOTOGRAPHS.sending}</p>}
        {shown.length === 0 && !isSending && <p>{PHOTOGRAPHS.none}</p>}
        <ul className={styles.pictures}>
          {shown.map((photograph) => (
            <li key={`${photograph.digest} ${photograph.bar}`}>
              <img
                src={pictureOf(photograph)}
                alt={PHOTOGRAPHS.alt(called(photograph.bar), whenOf(photograph.at))}
                loading="lazy"
              />
              <strong>{called(photograph.bar)}</strong>
              <small>{PHOTOGRAPHS.from(photograph.by, whenOf(photograph.at))}</small>
              <button
                type="button"
                onClick={() =>
                  void shopAsk
                    .removePhotograph(id, photograph.digest)
                    .then(look)
                    .catch((e: unknown) => setWrong(PHOTOGRAPHS.failed((e as Error).message)))
                }
              >
                <Trash2 aria-hidden /> {PHOTOGRAPHS.remove}
              </button>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
