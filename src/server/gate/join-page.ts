import { html } from "hono/html";
import { JOIN } from "../../words/index.ts";

export const MOST_OF_NAME = 40;

export interface JoinPage {
  readonly shop: string;
  /** A code that is good; without one the page asks for it. */
  readonly code?: string | undefined;
  readonly name?: string | undefined;
  /** What went wrong, as a line. */
  readonly wrong?: string | undefined;
  /** Over plain http: the way to the secure address. */
  readonly plain?: { readonly secureUrl: string; readonly fingerprint: string } | undefined;
}

/** The page as plain HTML: it works without a script and before the device trusts anything. */
export function joinPage({ shop, code, name, wrong, plain }: JoinPage) {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${JOIN.title(shop)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/join.css">
</head>
<body>
<main>
<h1>${JOIN.title(shop)}</h1>
${wrong === undefined ? "" : html`<p class="alert" role="alert">${wrong}</p>`}
${code === undefined && wrong === undefined ? html`<p>${JOIN.noCode}</p>` : ""}
<form method="post" action="/join">
${code === undefined ? codeField() : html`<input type="hidden" name="code" value="${code}">`}
<label for="name">${JOIN.name}</label>
<input id="name" name="name" maxlength="${MOST_OF_NAME}" required autocomplete="off" value="${name ?? ""}" aria-describedby="example">
<small id="example">${JOIN.example}</small>
<button>${JOIN.pair}</button>
</form>
<a class="link" href="/">${JOIN.paired}</a>
${plain ? secureAddress(plain) : ""}
</main>
</body>
</html>`;
}

const codeField = () =>
  html`<label for="code">${JOIN.code}</label>
<input id="code" name="code" required autocomplete="off" autocapitalize="characters" spellcheck="false" aria-describedby="code-is">
<small id="code-is">${JOIN.codeIs}</small>`;

const secureAddress = ({ secureUrl, fingerprint }: NonNullable<JoinPage["plain"]>) =>
  html`<h2>${JOIN.works}</h2>
<p>${JOIN.does}</p>
<p>${JOIN.missing} ${JOIN.needs}</p>
<h2>${JOIN.setUp}</h2>
<ol>
<li><p>${JOIN.first}</p><a class="button" href="/authority.crt">${JOIN.download}</a></li>
<li><p>${JOIN.compare}</p><code>${inLines(fingerprint)}</code></li>
<li><p>${JOIN.install}</p><dl>${JOIN.systems.map(([system, steps]) => html`<dt>${system}</dt><dd>${steps}</dd>`)}</dl></li>
<li><p>${JOIN.last}</p><a class="button" href="${secureUrl}">${secureUrl}</a></li>
</ol>`;

/** Eight pairs a line, where no eye loses its place. */
const inLines = (fingerprint: string) =>
  (fingerprint.match(/(..:?){1,8}/g) ?? []).map((line, i) => html`${i > 0 ? html`<br>` : ""}${line}`);
