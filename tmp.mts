import { isSentence, literalsIn, sourcesUnder } from "./tests/house/literals.ts";
const which=process.argv[2]!;
for (const d of which.split(",")) for (const f of sourcesUnder(d)) { const s=literalsIn(f).filter(l=>!l.unread&&isSentence(l.text)); if(process.argv[3]) {if(s.length) console.log(f,s.length);} else for(const l of s) console.log(`${f}:${l.line}: ${l.text}`); }
