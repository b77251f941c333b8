import { Extension } from "@peculiar/x509";
import { LOCAL_NETWORKS } from "./addresses.ts";

/** RFC 5280, 4.2.1.10. */
const NAME_CONSTRAINTS = "2.5.29.30";
/** Tags of DER (X.690): a sequence; the permitted subtrees; dNSName and iPAddress of a GeneralName. */
const [SEQUENCE, PERMITTED, DNS, IP] = [0x30, 0xa0, 0x82, 0x87];

/**
 * What an authority may vouch for: this machine's names, `.local` names, and addresses on loopback and on local networks. Whoever
 * had its key could not pass for any other place, whatever device trusts it. Critical, as the standard asks.
 */
export function nameConstraints(names: readonly string[]): Extension {
  const allowed = [
    ...new Set(["localhost", "local", ...names.filter((name) => !name.endsWith(".local"))]),
  ].map((name) => der(DNS, Buffer.from(name, "ascii")));
  const networks = [["127.0.0.0", 8] as const, ...LOCAL_NETWORKS].map(([address, bits]) =>
    der(IP, Buffer.from([...address.split(".").map(Number), ...mask(bits)])),
  );
  const subtrees = [...allowed, ...networks].map((name) => der(SEQUENCE, name));
  return new Extension(NAME_CONSTRAINTS, true, new Uint8Array(der(SEQUENCE, der(PERMITTED, ...subtrees))));
}

const mask = (bits: number): readonly number[] =>
  [0, 8, 16, 24].map((from) => 0xff & (0xff00 >> Math.min(8, Math.max(0, bits - from))));

/** One value of DER: tag, length, content. */
function der(tag: number, ...content: readonly Uint8Array[]): Buffer {
  const body = Buffer.concat(content);
  const length = body.length < 0x80 ? [body.length] : [0x82, body.length >> 8, body.length & 0xff];
  if (body.length >= 0x80 && body.length < 0x100) length.splice(0, 2, 0x81);
  return Buffer.concat([Buffer.from([tag, ...length]), body]);
}
