export { PORT, type Served, type ServeOptions, serveJobs } from "./serve.ts";
