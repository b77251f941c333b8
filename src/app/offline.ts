import { registerSW } from "virtual:pwa-register";

/** A page that stays open for days looks for a newer version this often (ms), when there is a network. */
const LOOK_AGAIN = 60 * 60 * 1000;

/**
 * Keeps the app on the device, so that it works without a network. `offer` is called when a newer version is there
 * too; it starts when the user says so, by the function that `offer` is given, and never by itself.
 */
export function keepOffline(offer: (restart: () => void) => void): void {
  if (!("serviceWorker" in navigator)) return;
  const restart = registerSW({
    onNeedRefresh: () => offer(() => void restart(true)),
    onRegisteredSW(_, registration) {
      if (registration) setInterval(() => void registration.update().catch(() => {}), LOOK_AGAIN);
    },
  });
}
