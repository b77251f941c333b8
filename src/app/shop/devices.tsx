import { useEffect, useState } from "react";
import { DEVICES, SHOP_JOBS } from "../../words/index.ts";
import { AskText, Choose, classes, Dialog, parts } from "../kit/index.ts";
import { type JoinCode, type ShopDevice, type ShopSelf, shopAsk } from "../model/shop/index.ts";
import { useApp } from "../model/state/index.ts";
import styles from "./shop.module.css";
import { timeOf, whenOf } from "./when.ts";

type Asks = { readonly what: "name" | "rights" | "out"; readonly device: ShopDevice };

/** Who is in the shop; how another device joins, and how one is put out. */
export function Devices() {
  const shop = useApp((s) => s.shop);
  const [self, setSelf] = useState<ShopSelf>();
  const [asks, setAsks] = useState<Asks>();
  const [wrong, setWrong] = useState<string>();
  useEffect(() => {
    void shopAsk
      .self()
      .then(setSelf, (error: unknown) => setWrong(SHOP_JOBS.notDone((error as Error).message)));
  }, []);
  if (!shop) return <p className={parts.wait}>{DEVICES.shopOnly}</p>;
  const mayChange = self?.me.rights === "all";
  const done = (work: Promise<unknown>): void => {
    setAsks(undefined);
    void work.then(
      () => setWrong(undefined),
      (error: unknown) => setWrong(SHOP_JOBS.notDone((error as Error).message)),
    );
  };
  return (
    <div className={styles.page}>
      <section aria-label={DEVICES.title}>
        <h2>{DEVICES.title}</h2>
        {wrong !== undefined && <p className={classes(parts.says, parts.wrong)}>{wrong}</p>}
        <ul className={styles.list}>
          {shop.devices.map((device) => (
            <li key={device.id}>
              <span className={styles.what}>
                <strong>{device.name}</strong>
                <small>
                  {device.id === self?.me.id ? DEVICES.here : DEVICES.seen(whenOf(device.seen))} ·{" "}
                  {DEVICES.rights[device.rights]}
                </small>
              </span>
              {mayChange && (
                <>
                  <button type="button" onClick={() => setAsks({ what: "name", device })}>
                    {DEVICES.rename}
                  </button>
                  {device.id !== self?.me.id && (
                    <>
                      <button type="button" onClick={() => setAsks({ what: "rights", device })}>
                        {DEVICES.changeRights}
                      </button>
                      <button
                        type="button"
                        className={parts.danger}
                        onClick={() => setAsks({ what: "out", device })}
                      >
                        {DEVICES.putOut(device.name)}
                      </button>
                    </>
                  )}
                </>
              )}
            </li>
          ))}
        </ul>
      </section>
      {mayChange && <Join onWrong={setWrong} />}
      {self && (
        <section aria-label={DEVICES.fingerprint}>
          <h2>{DEVICES.fingerprint}</h2>
          <p>{DEVICES.fingerprintMore}</p>
          <p className={styles.print}>{inLines(self.fingerprint)}</p>
        </section>
      )}
      {asks?.what === "name" && (
        <AskText
          title={DEVICES.rename}
          label={DEVICES.nameLabel}
          as="label"
          value={asks.device.name}
          done={DEVICES.rename}
          onClose={() => setAsks(undefined)}
          onDone={(name) => done(shopAsk.changeDevice(asks.device.id, { name }))}
        />
      )}
      {asks?.what === "rights" && (
        <Choose
          title={DEVICES.changeRights}
          value={asks.device.rights}
          options={[
            ["all", DEVICES.rights.all],
            ["marks", DEVICES.rights.marks],
          ]}
          onClose={() => setAsks(undefined)}
          onPick={(id) =>
            done(shopAsk.changeDevice(asks.device.id, { rights: id === "all" ? "all" : "marks" }))
          }
        />
      )}
      {asks?.what === "out" && (
        <Dialog title={DEVICES.putOutTitle(asks.device.name)} onClose={() => setAsks(undefined)}>
          <p>{DEVICES.putOutMore}</p>
          <div className={parts.row}>
            <button
              type="button"
              className={parts.danger}
              onClick={() => done(shopAsk.putOut(asks.device.id))}
            >
              {DEVICES.putOutDo}
            </button>
            <button type="button" onClick={() => setAsks(undefined)}>
              {DEVICES.cancel}
            </button>
          </div>
        </Dialog>
      )}
    </div>
  );
}

/** Eight pairs a line, where no eye loses its place. */
const inLines = (print: string): string => (print.match(/(..:?){1,8}/g) ?? []).join("\n");

/** A one-time code, as addresses and as QR codes. */
function Join({ onWrong }: { readonly onWrong: (line: string) => void }) {
  const [code, setCode] = useState<JoinCode>();
  const devices = useApp((s) => s.shop?.devices);
  const [before, setBefore] = useState<readonly string[]>([]);
  // a code works once: whoever joins has used it up
  const joined = code && devices?.find(({ id }) => !before.includes(id));
  const make = (rights: "all" | "marks"): void =>
    void shopAsk.newCode(rights).then(
      (made) => {
        setBefore((devices ?? []).map(({ id }) => id));
        setCode(made);
      },
      (error: unknown) => onWrong(SHOP_JOBS.notDone((error as Error).message)),
    );
  return (
    <section aria-label={DEVICES.joinTitle}>
      <h2>{DEVICES.joinTitle}</h2>
      <p>{DEVICES.joinMore}</p>
      <div className={parts.row}>
        {(["all", "marks"] as const).map((rights) => (
          <button
            key={rights}
            type="button"
            className={rights === "all" ? parts.main : undefined}
            onClick={() => make(rights)}
          >
            {DEVICES.newCode(rights)}
          </button>
        ))}
      </div>
      {joined && <p role="status">{DEVICES.joined(joined.name)}</p>}
      {code && !joined && (
        <>
          <p role="status">{DEVICES.until(timeOf(code.until))}</p>
          <div className={styles.ways}>
            {code.ways.map(({ url, secure, qr }) => (
              <div key={url} className={styles.way}>
                <strong>{secure ? DEVICES.secure : DEVICES.plain}</strong>
                <img alt={DEVICES.qr(url)} src={`data:image/svg+xml;utf8,${encodeURIComponent(qr)}`} />
                <span className={styles.address}>{url}</span>
              </div>
            ))}
          </div>
        </>
      )}
    </section>
  );
}
