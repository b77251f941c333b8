export { CONTENT_SECURITY_POLICY } from "./policy.ts";
export { PORT, type Served, type ServeOptions, serveJobs } from "./serve.ts";
