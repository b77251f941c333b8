export { type OpenedShop, openShop, type ShopOptions } from "./shop.ts";
