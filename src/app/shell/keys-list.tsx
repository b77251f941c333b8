import { KEYS_LIST as SAYS, TOP, VIEW_KEYS } from "../../words/index.ts";
import { Dialog, parts, setTheme, useTheme } from "../kit/index.ts";
import { STATIONS } from "../model/state/index.ts";
import styles from "./keys-list.module.css";
import { KEYS } from "./rail/index.ts";

/** What the keys do, what the stations are for, how the picture is turned by hand. */
export function KeysList({ onClose }: { readonly onClose: () => void }) {
  const theme = useTheme();
  return (
    <Dialog title={SAYS.title} wide onClose={onClose}>
      <div className={styles.list}>
        <section aria-label={SAYS.stations}>
          <h3>{SAYS.stations}</h3>
          <dl>
            {STATIONS.map((station) => (
              <div key={station}>
                <dt>{TOP.station[station]}</dt>
                <dd>{SAYS.questions[station]}</dd>
              </div>
            ))}
          </dl>
        </section>
        <section aria-label={SAYS.picture}>
          <h3>{SAYS.picture}</h3>
          <ul>
            {[...SAYS.touch, ...SAYS.mouse].map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <h3>{SAYS.marks}</h3>
          <p>{SAYS.six}</p>
        </section>
        <section aria-label={SAYS.keys} className={styles.keys}>
          <h3>{SAYS.keys}</h3>
          <Lines lines={KEYS.map(({ id, keys }) => [keys, SAYS.does[id]])} />
          <h3>{SAYS.inPicture}</h3>
          <Lines lines={Object.values(VIEW_KEYS).map(({ shown, does }) => [[shown], does])} />
        </section>
        <div className={parts.row}>
          <button type="button" onClick={() => setTheme(theme === "light" ? "dark" : "light")}>
            {theme === "light" ? TOP.dark : TOP.light}
          </button>
        </div>
      </div>
    </Dialog>
  );
}

function Lines(props: { readonly lines: readonly (readonly [keys: readonly string[], does: string])[] }) {
  return (
    <dl>
      {props.lines.map(([keys, does]) => (
        <div key={does}>
          <dt>
            {keys.map((key) => (
              <kbd key={key}>{key}</kbd>
            ))}
          </dt>
          <dd>{does}</dd>
        </div>
      ))}
    </dl>
  );
}
