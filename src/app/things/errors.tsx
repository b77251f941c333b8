import { lazy, Suspense, useState } from "react";
import { REPEATED, SHOP_SHEET } from "../../words/index.ts";
import { parts } from "../kit/index.ts";
import type { Edit } from "./edit.ts";
import { ERROR_KINDS, type ErrorKind } from "./kinds/shop.ts";

const Repeated = lazy(async () => ({ default: (await import("./repeated.tsx")).RepeatedReadings }));

/** Each error of the shop, measured: ten readings of one thing give it. */
export function MeasureErrors({ edit }: { readonly edit: Edit }) {
  const [asked, setAsked] = useState<ErrorKind>();
  return (
    <>
      <p className={parts.quiet}>{REPEATED.why}</p>
      <div className={parts.row}>
        {(Object.keys(ERROR_KINDS) as ErrorKind[]).map((kind) => (
          <button key={kind} type="button" onClick={() => setAsked(kind)}>
            {REPEATED.buttonOf(SHOP_SHEET.errorOf[kind])}
          </button>
        ))}
      </div>
      <Suspense fallback={null}>
        {asked && <Repeated kind={asked} edit={edit} onClose={() => setAsked(undefined)} />}
      </Suspense>
    </>
  );
}
