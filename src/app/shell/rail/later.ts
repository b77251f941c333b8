/** What is not shown at once, fetched together when the first of it is asked for. */
export const more = () => import("./more.ts");
