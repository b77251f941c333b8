import "reflect-metadata";
import { createHash, webcrypto } from "node:crypto";
import * as x509 from "@peculiar/x509";
import type { Reached } from "./addresses.ts";
import { nameConstraints } from "./constraints.ts";
import type { Random } from "./secrets.ts";

x509.cryptoProvider.set(webcrypto as Crypto);

const DAY = 24 * 60 * 60 * 1000;
const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
const SIGNED = { name: "ECDSA", hash: "SHA-256" } as const;

/** A key with its certificate, both as PEM. */
export type Pair = { readonly key: string; readonly cert: string };

/** Clocks of tablets are off by hours: a certificate holds from a day before it was made. */
const EARLY = DAY;
const AUTHORITY_LASTS = 10 * 365 * DAY;
/** Browsers refuse a certificate of a server that holds for more than 398 days (from memory, of Apple's and Chromium's rules). */
const LEAF_LASTS = 396 * DAY;

export interface Asked {
  readonly now: number;
  readonly random: Random;
}

/** An authority of the shop's own: it signs servers only, and none that is not in the shop's own network. */
export async function makeAuthority(shop: string, names: readonly string[], asked: Asked): Promise<Pair> {
  const keys = await newKeys();
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(asked.random),
    name: [{ CN: [`Tubewright, ${shop}`] }, { O: ["Tubewright"] }],
    notBefore: new Date(asked.now - EARLY),
    notAfter: new Date(asked.now + AUTHORITY_LASTS),
    signingAlgorithm: SIGNED,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      nameConstraints(names),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { key: await pemOf(keys.privateKey), cert: cert.toString("pem") };
}

/** A certificate of a server under all its addresses, signed by the authority. */
export async function makeLeaf(authority: Pair, { ips, names }: Reached, asked: Asked): Promise<Pair> {
  const keys = await newKeys();
  const issuer = new x509.X509Certificate(authority.cert);
  const cert = await x509.X509CertificateGenerator.create({
    serialNumber: serial(asked.random),
    subject: [{ CN: [names.at(-1) ?? "Tubewright"] }],
    issuer: issuer.subjectName.toJSON(),
    notBefore: new Date(asked.now - EARLY),
    notAfter: new Date(asked.now + LEAF_LASTS),
    signingAlgorithm: SIGNED,
    publicKey: keys.publicKey,
    signingKey: await keyOf(authority.key),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...names.map((value) => ({ type: "dns" as const, value })),
        ...ips.map((value) => ({ type: "ip" as const, value })),
      ]),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { key: await pemOf(keys.privateKey), cert: cert.toString("pem") };
}

/** When a certificate ends, milliseconds since 1970. */
export const endOf = (pem: string): number => new x509.X509Certificate(pem).notAfter.getTime();

/** The certificate as a file that a device takes in (DER). */
export const derOf = (pem: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(new x509.X509Certificate(pem).rawData);

/** SHA-256 of a certificate as people compare it: pairs of hex digits with colons, as devices show it. */
export const fingerprintOf = (pem: string): string =>
  (createHash("sha256").update(derOf(pem)).digest("hex").toUpperCase().match(/../g) ?? []).join(":");

const newKeys = () => webcrypto.subtle.generateKey(CURVE, true, ["sign", "verify"]);

const pemOf = async (key: webcrypto.CryptoKey): Promise<string> =>
  x509.PemConverter.encode(await webcrypto.subtle.exportKey("pkcs8", key), "PRIVATE KEY");

const keyOf = (pem: string): Promise<webcrypto.CryptoKey> =>
  webcrypto.subtle.importKey("pkcs8", x509.PemConverter.decodeFirst(pem), CURVE, false, ["sign"]);

/** Positive, and none that was given before. */
const serial = (random: Random): string => `01${Buffer.from(random(15)).toString("hex")}`;
