export * from "./port.ts";
