import type { CardRequest, Computer } from "../model/compute/index.ts";
import { recall, remember } from "./device.ts";

export type Paper = CardRequest["paper"];

/** The paper of this shop's printer: chosen once; Letter where the device speaks American English, else A4. */
export function paperNow(): Paper {
  const chosen = recall("paper");
  if (chosen === "A4" || chosen === "Letter") return chosen;
  return /^en-(US|CA)$|^es-MX$/.test(navigator.language) ? "Letter" : "A4";
}

export const setPaper = (paper: Paper): void => remember("paper", paper);

/** Makes the card and hands it to the browser as a PDF, to save, or to print from a window of its own. */
export async function handOut(
  computer: Pick<Computer, "pdf">,
  request: CardRequest,
  name: string,
  how: "save" | "print",
): Promise<"done" | "none"> {
  const bytes = await computer.pdf(request);
  if (!bytes) return "none";
  const url = URL.createObjectURL(new Blob([bytes as BlobPart], { type: "application/pdf" }));
  if (how === "print" && window.open(url, "_blank")) {
    setTimeout(() => URL.revokeObjectURL(url), 600_000);
    return "done";
  }
  const link = document.createElement("a");
  link.href = url;
  link.download = `${name}.pdf`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  return "done";
}
