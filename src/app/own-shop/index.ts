export { DiePage } from "./die-page.tsx";
export { MyShop } from "./my-shop.tsx";
