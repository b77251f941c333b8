import type { Reading } from "./figure.ts";

/**
 * Figures that the cards do not yet print as the conventions have them now: the second computation follows the
 * conventions. Each line must still be needed, or the test fails: a line whose figures have become right is taken out.
 */
export const AWAITED: readonly { readonly what: string; readonly is: (r: Reading) => boolean }[] = [
  {
    what: "a step is set up in the real joint with its hole outboard; its gap is square to the host",
    is: (r) => /^step\.(standsOff|gap|flankOpen|open|heelTouches|toeTouches) /.test(r.quantity),
  },
  {
    what: "a gap is the distance from the cut edge to the host, not to its tangent",
    is: (r) => /^gap(At)?( |$)/.test(r.quantity),
  },
  {
    what: "over-cut is sought between whole degrees too",
    is: (r) => /^(fromShallower|fromSteeper|leave|step\.sawn|step\.beyond|step\.outboard) /.test(r.quantity),
  },
  {
    what: "an end of which part misses is not called exact",
    is: (r) =>
      /^(cut\.)?exact/.test(r.quantity) && (r.wanted === '"no"' || r.wanted === "no" || r.wanted === "false"),
  },
];

/** The same for what is not printed yet. */
export const AWAITED_FAULTS: readonly RegExp[] = [/the limit "swing" is not printed/];
