const nothing = (): void => {};

/** Does things in the order in which they were asked for, where they concern the same; others go on beside them. */
export class Queue {
  private readonly tails = new Map<string, Promise<unknown>>();

  /** Runs `work` when all that was asked for before under any of `keys` is over, however it ended. */
  run<T>(keys: readonly string[], work: () => Promise<T> | T): Promise<T> {
    const before = Promise.all(keys.map((key) => this.tails.get(key) ?? Promise.resolve()));
    const done = before.then(work);
    const over: Promise<void> = done.then(nothing, nothing).then(() => this.forget(keys, over));
    for (const key of keys) this.tails.set(key, over);
    return done;
  }

  /** When all is over that was asked for until now. */
  async idle(): Promise<void> {
    await Promise.all(this.tails.values());
  }

  private forget(keys: readonly string[], over: Promise<unknown>): void {
    for (const key of keys) if (this.tails.get(key) === over) this.tails.delete(key);
  }
}
