/** How far it has come, 0 to 1, and what it is at; and a part of the answer that need not wait for the rest. */
export type Report = (share: number, at: string, part?: unknown) => void;
