import "./tokens.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { BOUNDARY } from "../words/index.ts";
import { loadViewer } from "./cage/index.ts";
import { Boundary, followTheme, keepFocus, recall, remember } from "./kit/index.ts";
import { AppContext, goToPage } from "./model/state/index.ts";
import { Shell } from "./shell/index.ts";
import { appOfPage, begin } from "./start.ts";

followTheme();
// The first time, and without a job asked for, one begins where one may choose; the demo is open behind it.
if (recall("been here") === undefined && !new URL(location.href).searchParams.has("open")) goToPage("jobs");
remember("been here", "yes");
// The picture's program comes while the job is being opened, where the picture is the first thing shown.
if (!["#jobs", "#between", "#die", "#my-shop"].includes(location.hash))
  void loadViewer().catch(() => undefined);
const element = document.getElementById("app") ?? document.body;

/** No await of the module's own: what is fetched on the way needs this very file, and would wait for its end. */
async function open(): Promise<void> {
  // What is there until now is the page's own line (index.html).
  const app = await appOfPage();
  // For the console, and for the tests in a real browser.
  Object.assign(window, { tubewright: app });
  keepFocus(element);
  createRoot(element).render(
    <StrictMode>
      <AppContext value={app}>
        <Boundary of={BOUNDARY.page}>
          <Shell />
        </Boundary>
      </AppContext>
    </StrictMode>,
  );
  await begin(app);
}
void open();
