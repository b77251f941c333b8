import { cautionFor, FORCES, type Step, WHO_DECIDES } from "../../words/index.ts";

/**
 * What can hurt at the step in hand. Its place in the page keeps it in sight however far the rest is scrolled (style
 * sheet: `caution`). `force`: a force is shown at this step.
 */
export function Caution(props: { readonly steps: readonly Step[]; readonly force?: boolean }) {
  const steps: readonly Step[] = props.force ? [...props.steps, "sprung"] : props.steps;
  return <p className="caution">{cautionFor(...steps)}</p>;
}

/** Beside a rule, a force or an answer of a search: who decides. */
export function Decides({ force = false }: { readonly force?: boolean }) {
  return <p className="decides">{force ? `${FORCES} ${WHO_DECIDES}` : WHO_DECIDES}</p>;
}
