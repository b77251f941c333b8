import { MAKE_AGAIN } from "../../words/index.ts";
import { useActions } from "../model/state/index.ts";

/** Brings the steps back: what was made is put aside, and asked about first. */
export function MakeAgain({ id }: { readonly id: string }) {
  const act = useActions();
  return (
    <button type="button" onClick={() => act.makeAgain(id)}>
      {MAKE_AGAIN.button}
    </button>
  );
}
