import { type ComponentProps, lazy, Suspense } from "react";

// Asked for by a tap: the first page does without them.
const AskTextLater = lazy(async () => ({ default: (await import("./ask-text.tsx")).AskText }));
const LengthPadLater = lazy(async () => ({ default: (await import("./keypad.tsx")).LengthPad }));
const NumberPadLater = lazy(async () => ({ default: (await import("./keypad.tsx")).NumberPad }));

/** One line of text under one question. */
export const AskText = (props: ComponentProps<typeof AskTextLater>) => (
  <Suspense fallback={null}>
    <AskTextLater {...props} />
  </Suspense>
);

/** A length by the keypad, in millimetres or inch fractions as read. */
export const LengthPad = (props: ComponentProps<typeof LengthPadLater>) => (
  <Suspense fallback={null}>
    <LengthPadLater {...props} />
  </Suspense>
);

/** Degrees within bounds by the keypad, or another plain number. */
export const NumberPad = (props: ComponentProps<typeof NumberPadLater>) => (
  <Suspense fallback={null}>
    <NumberPadLater {...props} />
  </Suspense>
);
