import { useEffect, useSyncExternalStore } from "react";

/** Small choices of this device. A device that keeps nothing asks again; nothing else is lost. */
export function recall(key: string): string | undefined {
  try {
    return localStorage.getItem(`tubewright ${key}`) ?? undefined;
  } catch {
    return undefined;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(`tubewright ${key}`, value);
  } catch {
    // a private window may refuse
  }
}

export type Theme = "light" | "dark";
const night = (): MediaQueryList => matchMedia("(prefers-color-scheme: dark)");

export function themeNow(): Theme {
  const chosen = recall("theme");
  if (chosen === "light" || chosen === "dark") return chosen;
  return night().matches ? "dark" : "light";
}

export function setTheme(theme: Theme): void {
  remember("theme", theme);
  applyTheme();
}

/** The page itself holds the theme that it is shown in. */
function applyTheme(): void {
  document.documentElement.dataset.theme = themeNow();
}

/** As the page holds it: every part asks for it whenever it is drawn, and the device is slow to say. */
const themeShown = (): Theme => {
  const { theme } = document.documentElement.dataset;
  return theme === "light" || theme === "dark" ? theme : themeNow();
};

/** Applies the theme, and again whenever the device's own changes. */
export function followTheme(): void {
  applyTheme();
  night().addEventListener("change", applyTheme);
}

export const useTheme = (): Theme =>
  useSyncExternalStore((changed) => {
    const watch = new MutationObserver(changed);
    watch.observe(document.documentElement, { attributeFilter: ["data-theme"] });
    return () => watch.disconnect();
  }, themeShown);

/** Keeps the screen awake while the part is shown, where the device can; asked again when the page comes back. */
export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined;
    let isOver = false;
    async function ask(): Promise<void> {
      if (document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
      const got = await navigator.wakeLock.request("screen").catch(() => undefined);
      if (isOver) void got?.release();
      else lock = got;
    }
    const again = (): void => void ask();
    again();
    document.addEventListener("visibilitychange", again);
    return () => {
      isOver = true;
      document.removeEventListener("visibilitychange", again);
      void lock?.release();
    };
  }, []);
}
