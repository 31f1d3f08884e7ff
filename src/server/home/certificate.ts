/**
 * A certificate made on this machine, so that a phone which installs its authority has a secure context (service
 * worker, camera). The authority may vouch for private addresses only (RFC 5280 §4.2.1.10, critical): a stolen key
 * cannot speak for any site on the internet. The server's certificate lasts 397 days, the most that phones accept.
 */
import 'reflect-metadata'
import { webcrypto } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import * as x509 from '@peculiar/x509'

export interface HomeCertificate {
  /** PEM. */
  readonly key: string
  readonly certificate: string
  readonly authority: string
}

const CURVE = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' }
const DAY = 86_400_000
const AUTHORITY_DAYS = 1095
const SERVER_DAYS = 397
const SERVER_AUTH = '1.3.6.1.5.5.7.3.1'
const NAME_CONSTRAINTS = '2.5.29.30'

/** Address and mask of each range that the authority may vouch for: RFC 1918, RFC 3927 and this machine itself. */
const RANGES: readonly (readonly number[])[] = [
  [10, 0, 0, 0, 255, 0, 0, 0],
  [172, 16, 0, 0, 255, 240, 0, 0],
  [192, 168, 0, 0, 255, 255, 0, 0],
  [169, 254, 0, 0, 255, 255, 0, 0],
  [127, 0, 0, 0, 255, 0, 0, 0],
]
/** Every part here is shorter than 128 bytes, so one byte of length is enough. */
const tagged = (tag: number, content: readonly number[]): number[] => [tag, content.length, ...content]
const onlyPrivate = (): x509.Extension => {
  const dns = tagged(0x30, tagged(0x82, [...Buffer.from('local')]))
  const subtrees = RANGES.flatMap((range) => tagged(0x30, tagged(0x87, range)))
  return new x509.Extension(NAME_CONSTRAINTS, true, new Uint8Array(tagged(0x30, tagged(0xa0, [...dns, ...subtrees]))))
}

const serial = (): string =>
  Buffer.from(webcrypto.getRandomValues(new Uint8Array(15)))
    .toString('hex')
    .replace(/^/, '1')
const pair = () => webcrypto.subtle.generateKey(CURVE, true, ['sign', 'verify'])
const pem = async (key: webcrypto.CryptoKey): Promise<string> =>
  x509.PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY')
const keyOf = (text: string): Promise<webcrypto.CryptoKey> =>
  webcrypto.subtle.importKey('pkcs8', x509.PemConverter.decodeFirst(text), CURVE, true, ['sign'])

const keep = (file: string, text: string): void => writeFileSync(file, text, { mode: 0o600 })

const authorityIn = async (folder: string, now: Date) => {
  const files = { key: join(folder, 'authority.key'), certificate: join(folder, 'authority.crt') }
  if (existsSync(files.key) && existsSync(files.certificate)) {
    const text = readFileSync(files.certificate, 'utf8')
    const known = new x509.X509Certificate(text)
    // It must outlive the server certificate that it is to sign.
    if (known.notAfter.getTime() > now.getTime() + SERVER_DAYS * DAY)
      return { certificate: known, text, key: await keyOf(readFileSync(files.key, 'utf8')) }
  }
  const keys = await pair()
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: 'CN=Swapwright on this machine',
    notBefore: new Date(now.getTime() - DAY),
    notAfter: new Date(now.getTime() + AUTHORITY_DAYS * DAY),
    signingAlgorithm: CURVE,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      onlyPrivate(),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  })
  const text = certificate.toString('pem')
  keep(files.key, await pem(keys.privateKey))
  keep(files.certificate, text)
  return { certificate, text, key: keys.privateKey }
}

/** The authority is kept in `folder`, so that a phone installs it once; the server's certificate is made anew. */
export const homeCertificate = async (
  folder: string,
  addresses: readonly string[],
  now = new Date(),
): Promise<HomeCertificate> => {
  x509.cryptoProvider.set(webcrypto as Crypto)
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const authority = await authorityIn(folder, now)
  const keys = await pair()
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: 'CN=Swapwright workbench',
    issuer: authority.certificate.subject,
    notBefore: new Date(now.getTime() - DAY),
    notAfter: new Date(now.getTime() + SERVER_DAYS * DAY),
    signingAlgorithm: CURVE,
    publicKey: keys.publicKey,
    signingKey: authority.key,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([SERVER_AUTH]),
      new x509.SubjectAlternativeNameExtension(addresses.map((value) => ({ type: 'ip' as const, value }))),
      await x509.AuthorityKeyIdentifierExtension.create(authority.certificate),
    ],
  })
  return { key: await pem(keys.privateKey), certificate: certificate.toString('pem'), authority: authority.text }
}
