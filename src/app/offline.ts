/** A page that stays open for days looks for a newer version this often (ms), when there is a network. */
const LOOK_AGAIN = 60 * 60 * 1000;

/**
 * Keeps the app on the device, so that it works without a network. `offer` is called when a newer version is there
 * too; it starts when the user says so, by the function that `offer` is given, and never by itself.
 */
export function keepOffline(offer: (restart: () => void) => void): void {
  if ("serviceWorker" in navigator) void follow(navigator.serviceWorker, offer).catch(() => {});
}

/** Registers the program that keeps the app, and watches for a newer one that waits behind it. */
async function follow(workers: ServiceWorkerContainer, offer: (restart: () => void) => void): Promise<void> {
  const registration = await workers.register("/sw.js", { scope: "/" });
  let isOffered = false;
  /** Of a page that no older version has in its care there is nothing to start again. */
  const look = (): void => {
    if (isOffered || !registration.waiting || !workers.controller) return;
    isOffered = true;
    // whichever window starts the newer version: all that know of it go along
    workers.addEventListener("controllerchange", () => location.reload(), { once: true });
    offer(() => registration.waiting?.postMessage({ type: "SKIP_WAITING" }));
  };
  registration.addEventListener("updatefound", () => {
    const next = registration.installing;
    next?.addEventListener("statechange", look);
  });
  registration.installing?.addEventListener("statechange", look);
  look();
  setInterval(() => void registration.update().catch(() => {}), LOOK_AGAIN);
}
