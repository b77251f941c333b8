import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { Shell } from "./shell.tsx";
import { startApp } from "./start.ts";
import { AppContext } from "./use-app.ts";

const app = await startApp();
// For the console, and for the tests in a real browser.
Object.assign(window, { tubewright: app });
createRoot(document.getElementById("app")!).render(
  <StrictMode>
    <AppContext value={app}>
      <Shell />
    </AppContext>
  </StrictMode>,
);
