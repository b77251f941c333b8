export { Devices } from "./devices.tsx";
export { HistoryPage } from "./history.tsx";
export { ShopKept } from "./kept.tsx";
export { ShopNotices } from "./notices.tsx";
export { Photographs } from "./photographs.tsx";
export { deleteInShop, ShopJobs } from "./shop-jobs.tsx";
export { type Tie, tieToShop } from "./tie.ts";
export { ShopWhere } from "./where.tsx";
