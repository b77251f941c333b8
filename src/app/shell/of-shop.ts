import { lazy } from "react";

// What a shop shows comes where there is one.
const shop = () => import("../shop/index.ts");

export const ShopKept = lazy(async () => ({ default: (await shop()).ShopKept }));
export const ShopNotices = lazy(async () => ({ default: (await shop()).ShopNotices }));
export const ShopWhere = lazy(async () => ({ default: (await shop()).ShopWhere }));
export const ShopJobs = lazy(async () => ({ default: (await shop()).ShopJobs }));
export const Devices = lazy(async () => ({ default: (await shop()).Devices }));
export const HistoryPage = lazy(async () => ({ default: (await shop()).HistoryPage }));
export const Photographs = lazy(async () => ({ default: (await shop()).Photographs }));
