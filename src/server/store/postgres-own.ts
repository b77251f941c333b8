/** What a notification says: who did it in which of its calls, and what. */
export interface Told {
  readonly server: string;
  readonly call: number;
  /** Changes `first` to `last` of a job were appended, */
  readonly job?: string;
  readonly first?: number;
  readonly last?: number;
  /** or a record was changed. */
  readonly kind?: string;
  readonly id?: string;
}

/** Broken calls that are remembered: their notification comes within seconds of the break, or never. */
const REMEMBERED = 1_000;

/**
 * Tells own notifications from those of others. One's own are no news, unless the call's answer was lost: it was
 * reported as not stored and is stored all the same, so its notification counts as another's. A notification may come
 * before its call's answer; it waits for that.
 */
export class OwnCalls {
  private readonly server: string;
  private readonly deliver: (told: Told) => void;
  private count = 0;
  private readonly open = new Map<number, Told[]>();
  private readonly broken = new Set<number>();

  constructor(server: string, deliver: (told: Told) => void) {
    this.server = server;
    this.deliver = deliver;
  }

  /** Makes a call under a number of its own. `isUnsure`: an error after which it may have been done. */
  async make<T>(call: (number: number) => Promise<T>, isUnsure: (error: unknown) => boolean): Promise<T> {
    const number = ++this.count;
    this.open.set(number, []);
    try {
      return await call(number);
    } catch (error) {
      if (isUnsure(error)) this.broke(number);
      throw error;
    } finally {
      this.open.delete(number);
    }
  }

  /** `payload`: the text of a `Told`; one that is none (the channel is open to whoever has the database) is no news. */
  hear(payload: string): void {
    const told = toldIn(payload);
    if (!told) return;
    const waiting = told.server === this.server ? this.open.get(told.call) : undefined;
    if (waiting) waiting.push(told);
    else if (told.server !== this.server || this.broken.has(told.call)) this.deliver(told);
  }

  private broke(number: number): void {
    this.broken.add(number);
    if (this.broken.size > REMEMBERED)
      for (const oldest of [...this.broken].slice(0, 1)) this.broken.delete(oldest);
    for (const told of this.open.get(number) ?? []) this.deliver(told);
  }
}

function toldIn(payload: string): Told | undefined {
  try {
    const told = JSON.parse(payload) as Partial<Told> | null;
    return typeof told?.server === "string" && typeof told.call === "number" ? (told as Told) : undefined;
  } catch {
    return undefined;
  }
}
