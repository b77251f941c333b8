import * as Y from "yjs";

/**
 * What tabs of one job say to each other. `hello` carries what the sender has (a state vector) and asks for the
 * rest; `update` carries changes.
 */
type Message =
  | { readonly kind: "hello"; readonly has: Uint8Array; readonly answer: boolean }
  | { readonly kind: "update"; readonly update: Uint8Array };

/**
 * Keeps the document in step with that of the same job in every other tab of this device. On joining, each side
 * gives the other what it lacks; from then on every change goes out as it is made. Messages may come twice or in
 * any order: Yjs takes that. Returns how to leave.
 */
export function joinTabs(doc: Y.Doc, job: string): () => void {
  const channel = new BroadcastChannel(`tubewright job ${job}`);
  const origin = channel;
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- that is for windows; a channel has none
  const send = (message: Message): void => channel.postMessage(message);
  const hello = (answer: boolean): void => send({ kind: "hello", has: Y.encodeStateVector(doc), answer });

  function onUpdate(update: Uint8Array, from: unknown): void {
    if (from !== origin) send({ kind: "update", update });
  }

  channel.addEventListener("message", ({ data }: MessageEvent<Message>) => {
    if (data.kind === "update") {
      Y.applyUpdate(doc, data.update, origin);
      return;
    }
    send({ kind: "update", update: Y.encodeStateAsUpdate(doc, data.has) });
    if (!data.answer) hello(true);
  });
  doc.on("update", onUpdate);
  hello(false);
  return () => {
    doc.off("update", onUpdate);
    channel.close();
  };
}
