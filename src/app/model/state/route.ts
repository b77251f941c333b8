import { useSyncExternalStore } from "react";

/** The pages beside the stations; the address says which, so that the device's own "back" works. */
export type Page =
  | "shop"
  | "jobs"
  | "between"
  | "devices"
  | "history"
  | "photographs"
  | "print"
  | "die"
  | "my-shop";
const BESIDE: readonly Page[] = [
  "jobs",
  "between",
  "devices",
  "history",
  "photographs",
  "print",
  "die",
  "my-shop",
];

const page = (): Page => {
  const said = location.hash.slice(1);
  return BESIDE.find((p) => p === said) ?? "shop";
};

export function goToPage(to: Page): void {
  location.hash = to === "shop" ? "" : to;
}

export const usePage = (): Page =>
  useSyncExternalStore((changed) => {
    window.addEventListener("hashchange", changed);
    return () => window.removeEventListener("hashchange", changed);
  }, page);
