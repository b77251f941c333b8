import { useSyncExternalStore } from "react";

/** How much room the rail has: a column, a row, or one bar of it (the widths are those of rail.module.css). */
export type Room = "desk" | "tablet" | "phone";

const [tablet, phone] = [matchMedia("(max-width: 899px)"), matchMedia("(max-width: 599px)")];

const subscribe = (changed: () => void): (() => void) => {
  for (const size of [tablet, phone]) size.addEventListener("change", changed);
  return () => {
    for (const size of [tablet, phone]) size.removeEventListener("change", changed);
  };
};

export const useRoom = (): Room =>
  useSyncExternalStore(subscribe, () => (phone.matches ? "phone" : tablet.matches ? "tablet" : "desk"));
