import { setTimeout as sleep } from "node:timers/promises";
import pg from "pg";
import { connection } from "./postgres-link.ts";

/** The first and the longest wait before the next try, and how often the connection is asked whether it lives, ms. */
const [FIRST, LONGEST, BEAT] = [100, 5_000, 15_000];

interface Heard {
  readonly told: (payload: string) => void;
  readonly lost: () => void;
  readonly back: () => void;
}

/**
 * One connection that listens, and one loop that makes it anew: a connection that breaks reports it by more than one
 * event, and a try for each would double them with every outage.
 */
export class Listener {
  private readonly url: string;
  private readonly channel: string;
  private readonly heard: Heard;
  private readonly end = new AbortController();
  private loop: Promise<void> = Promise.resolve();
  /** Whether what others do is heard at the moment. */
  listens = false;

  /** `channel` goes into a statement as it is: letters, digits and `_`. */
  constructor(url: string, channel: string, heard: Heard) {
    this.url = url;
    this.channel = channel;
    this.heard = heard;
  }

  /** Resolves when it listens; rejects where it cannot, and tries no more. */
  async start(): Promise<void> {
    const first = await this.connect();
    this.loop = this.keep(first);
  }

  async close(): Promise<void> {
    this.end.abort();
    await this.loop;
  }

  private async keep(first: Connection): Promise<void> {
    let wait = FIRST;
    for (let now: Connection | undefined = first; ; ) {
      if (now) {
        wait = FIRST;
        await now.over;
        this.listens = false;
        if (this.end.signal.aborted) return;
        this.heard.lost();
      }
      await sleep(wait, undefined, { signal: this.end.signal }).catch(() => undefined);
      wait = Math.min(2 * wait, LONGEST);
      if (this.end.signal.aborted) return;
      now = await this.connect().catch(() => undefined);
      if (now) this.heard.back();
    }
  }

  private async connect(): Promise<Connection> {
    const client = new pg.Client({ ...connection(this.url), query_timeout: BEAT });
    const over = this.overOf(client);
    try {
      await client.connect();
      client.on("notification", ({ payload }) => this.heard.told(payload ?? ""));
      await client.query(`LISTEN ${this.channel}`);
    } catch (error) {
      discard(client);
      throw error;
    }
    this.listens = true;
    return { over };
  }

  /** Resolves when the connection is over, by whatever: an error, its end, no answer to a beat, or our own closing. */
  private async overOf(client: pg.Client): Promise<void> {
    const beat = setInterval(() => {
      client.query("SELECT 1").catch(() => client.emit("end"));
    }, BEAT);
    await new Promise<void>((done) => {
      client.on("error", () => done());
      client.once("end", done);
      this.end.signal.addEventListener("abort", () => done(), { once: true });
    });
    clearInterval(beat);
    discard(client);
  }
}

interface Connection {
  readonly over: Promise<void>;
}

function discard(client: pg.Client): void {
  client.end().catch(() => undefined);
}
