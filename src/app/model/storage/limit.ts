/** How long the disk is waited for (ms) before it counts as not answering. */
export const LIMIT = 5000;

/** Something was waited for as long as one may. */
export class NoAnswer extends Error {
  override readonly name = "NoAnswer";
  readonly seconds: number;
  constructor(after: number) {
    super(`no answer within ${after / 1000} seconds`);
    this.seconds = Math.round(after / 1000);
  }
}

/** What a promise resolves to; rejects with `NoAnswer` where it takes longer (ms). The work itself goes on. */
export function within<T>(promise: Promise<T>, ms: number = LIMIT): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new NoAnswer(ms)), ms);
    promise.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
